"""How tongues and tenons are cut: the shoulders at the cheeks, the notches at the edges, and what a stick marks."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, exactly, level, positive, spot, third
from docgen.piece.operations.tongue_shape import TongueShape
from docgen.piece.records import BOTH, Face, Mark, Setting, Travel
from docgen.units import Number

PARED = "knife the line of the shoulder all round, saw in the waste, pare to the line"


def stands(tongue: TongueShape, part: Part) -> str:
    """Return how the tongue lies in the part's thickness."""
    low, high = tongue.cut_low, tongue.cut_high(part)
    if not low and not high:
        more = f", only {_beside(tongue)} are cut" if any(True for _ in tongue.notches()) else ", nothing is cut there"
        return f"{tongue.label} as thick as the part{more}"
    if low and high:
        return f"{tongue.label} centred" if centred(tongue, part) else f"{tongue.label} between two shoulders"
    return f"{tongue.label} bare-faced, flush with the {part.word(Face(tongue.cheek, 1 if low else 0))} face"


def centred(tongue: TongueShape, part: Part) -> bool:
    """Return True for a tongue with as much wood cut off on one side as on the other."""
    high = part.size[tongue.cheek] - tongue.high
    return tongue.cut_low and tongue.cut_high(part) and positive(tongue.low - high) < SAME


def marks(tongue: TongueShape, part: Part) -> tuple[Mark, ...]:
    """Return the line of the shoulder, on a face that is cut; of a tongue along the part where it begins and ends.

    Wood stays on both sides of a shoulder: the tongue goes on beyond it. A whole end that enters as it is needs no line: a
    helper who sawed there would make the part too short.
    """
    seen = Face(tongue.cheek, 1 if tongue.cut_high(part) or not tongue.cut_low else 0)
    if tongue.face.axis == 0:
        cut = tongue.cut_low or tongue.cut_high(part) or any(True for _ in tongue.notches())
        return () if not cut else (Mark(level(part, tongue.face), BOTH, _line(tongue, part), seen),)
    if third(tongue.face.axis, tongue.cheek) != 0:
        return ()
    return tuple(
        Mark(part.size[0] - wide, -1, f"{tongue.label} ends", seen)
        if at.side
        else Mark(wide, 1, f"{tongue.label} begins", seen)
        for at, wide, _ in tongue.notches()
    )


def _line(tongue: TongueShape, part: Part) -> str:
    """Return what is done at the line at which the nominal box ends."""
    if tongue.cut_low or tongue.cut_high(part):
        return f"{tongue.label}, shoulder"
    edges = " and the ".join(part.side(at) for at, _, _ in tongue.notches())
    return f"{tongue.beside} to here at the {edges}: {tongue.label}"


BIT = "straight bit and fence"
FENCE = (
    "fence set so that the bit's far rim stands on the shoulder; waste as thick as the part carries the base beyond it"
)
"""How shoulders are routed: the waste near the end goes first, the last run is along the shoulder. Common practice."""


def settings(tongue: TongueShape, part: Part) -> tuple[Setting, ...]:
    """Return the set-ups: of the shoulders at the cheeks, none where the tongue is as thick as the part, and of its notches."""
    return (*_cheeks(tongue, part), *_notched(tongue, part))


def _cheeks(tongue: TongueShape, part: Part) -> Iterator[Setting]:
    shoulders = _shoulders(tongue, part)
    if not shoulders:
        return
    fat = ", fat" if tongue.over else ""
    values: list[tuple[str, Number | str, str]] = [
        ("cutter", BIT, "text"),
        (f"{tongue.label} thickness{fat}", tongue.high - tongue.low + tongue.over, "length"),
        (f"{tongue.label} length", tongue.length, "length"),
    ]
    same = len({exactly(d) for _, d in shoulders}) == 1
    if same:
        values.append(
            ("shoulder, depth" if len(shoulders) == 1 else "shoulders, depth of each", shoulders[0][1], "length")
        )
    else:
        values += [(f"shoulder from the {part.word(face)} face, depth", d, "length") for face, d in shoulders]
    faces = " and ".join(part.word(face) for face, _ in shoulders)
    at_end = f"the {faces} face{'s' if len(shoulders) > 1 else ''}, at the {part.plain_side(tongue.face)}"
    places = (("cut from", at_end, "text"),)
    face, deep = shoulders[0]
    at = spot({tongue.face.axis: level(part, tongue.face), tongue.cheek: level(part, face)})
    along, rest = third(tongue.face.axis, tongue.cheek), tuple(shoulders[1:])
    run = Travel(face, along, at, edge=tongue.face, deep=deep, wide=tongue.length, also=rest)
    notes = [FENCE]
    notes += [f"fit each {tongue.label} to its {tongue.mate}"] if tongue.over else []
    if tongue.rounded:
        notes.append(f"round its edges with a file to the {tongue.mate}'s ends")
        values.append(("edges rounded, radius", (tongue.high - tongue.low) / 2, "length"))
    what, note = f"{tongue.label}, shoulders", "; ".join(notes)
    yield Setting("router", what, tuple(values), note, places, run, mate=tongue.mate)


def _notched(tongue: TongueShape, part: Part) -> Iterator[Setting]:
    """Yield the sawing of the notches: how wide from each edge, down to the shoulder or to a haunch."""
    by_depth: dict[Number, list[tuple[str, Number | str, str]]] = {}
    for at, wide, haunch in tongue.notches():
        by_depth.setdefault(haunch, []).append((f"wide from the {part.side(at)}", wide, "length"))
    for haunch, wides in by_depth.items():
        to = "haunch" if haunch else "shoulder"
        deep = (f"deep, from the tip to the {to}", tongue.length - haunch, "length")
        places = (*wides, ("at the", part.plain_side(tongue.face), "text"))
        yield Setting("hand saw", f"{_beside(tongue)} of the {tongue.label}", (deep,), PARED, places)


def _beside(tongue: TongueShape) -> str:
    return "edge shoulders" if tongue.beside == "shoulder" else "notches"


def _shoulders(tongue: TongueShape, part: Part) -> list[tuple[Face, Number]]:
    """Return the faces that are cut, with the depth of the first cut: the fat stays until the fitting."""
    cheek = tongue.cheek
    sides = ((Face(cheek, 0), tongue.low), (Face(cheek, 1), part.size[cheek] - tongue.high))
    cut = [(face, deep) for face, deep in sides if deep > SAME]
    fat = tongue.over / len(cut) if tongue.over else 0
    return [(face, exactly(deep - fat)) for face, deep in cut if deep - fat > SAME]
