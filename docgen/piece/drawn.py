"""What the file asks of the part sheets, with parts, sizes and places known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from docgen.expressions import Lookup
from docgen.geometry.shapes import Vec
from docgen.piece.model import DrawingWish, Part
from docgen.piece.records import Face, Origin, Size, SizeKind, Stage
from docgen.places import Span
from docgen.project.bind import bind
from docgen.project.schema import AXES
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.units import Units

OVERALL = ("length", "width", "thickness")
"""What the sizes of the blank itself are called."""


def size_names(part: Part) -> dict[str, tuple[str, int]]:
    """Return the sizes of a part by what they may be called: its feature and the size's place among the feature's.

    A size is called by its operation and its label, its parameters or its kind: "dado 2 stop". The sizes of the
    blank have no feature, and their axis for a place.
    """
    out = {name: ("", i) for i, name in enumerate(OVERALL)}
    for f in part.features:
        if f.stage is not Stage.PART:
            continue
        for n, size in enumerate(f.made.sizes):
            for word in (size.label, *size.parameters, size.kind.value):
                if word:
                    out.setdefault(f"{f.name} {word}", (f.name, n))
    return out


def drawing_wishes(
    asked: Iterable[Lazy], parts: Mapping[str, Part], lookup: Lookup, units: Units
) -> tuple[tuple[DrawingWish, ...], list[Problem]]:
    """Return what is asked, in the order of the file, and what is wrong with it."""
    out: list[DrawingWish] = []
    problems: list[Problem] = []
    for lazy in asked:
        try:
            bound = bind(lazy, lookup, units=units, parts=tuple(parts))
        except Problems as found:
            problems += found.items
            continue
        part = parts[bound["part"]]
        faults = list(_faults(bound, part))
        problems += faults
        if not faults:
            out.append(_wish(bound, part))
    return tuple(out), problems


def _faults(bound: Bound, part: Part) -> Iterator[Problem]:
    if part.hardware:
        message = f"'{part.path}' is bought, not made: it has no sheet"
        yield Problem("drawing-bought", _where(bound, "part"), message, "ask for a part that is made")
        return
    if bound.word.name in ("drop", "move"):
        known = size_names(part)
        if bound["size"] not in known:
            few = ", ".join(list(known)[:8])
            hint = did_you_mean(bound["size"], known, otherwise=f"its sizes are {few} …")
            yield Problem(
                "unknown-size-of-part", _where(bound, "size"), f"{part.path} has no size '{bound['size']}'", hint
            )
    if bound.word.name == "dimension":
        axis = AXES.index(bound["along"])
        if bound["from"] == bound["to"]:
            yield Problem("drawing-span", _where(bound, "to"), "the dimension begins where it ends", "two places")
        if _piece_axis(part, part.face(bound["view"])) == axis:
            message = (
                f"a view of the {bound['view']} looks along {bound['along']}: it shows no length in that direction"
            )
            yield Problem("drawing-view", _where(bound, "view"), message, "view: a face beside it")


def _where(bound: Bound, name: str) -> Span:
    return bound.spans.get(name, bound.span)


def _wish(bound: Bound, part: Part) -> DrawingWish:
    word, origin = bound.word.name, Origin(bound.span)
    view = bound.values.get("view")
    face = part.face(view) if view else None
    if word == "dimension":
        return DrawingWish(word, part.path, face=face, made=_size(bound, part), origin=origin)
    if word == "note":
        at = part.rest.inverse().point(tuple(float(bound["at"][a]) for a in AXES))  # type: ignore[arg-type]
        return DrawingWish(word, part.path, face=face, at=at, text=bound["text"], origin=origin)
    size = size_names(part)[bound["size"]]
    other = bool(bound.values.get("other side"))
    return DrawingWish(word, part.path, size=size, face=face, other_side=other, origin=origin)


def _size(bound: Bound, part: Part) -> Size:
    """Return the distance in the part's own axes, at the middle of the box in the other two directions."""
    axis = AXES.index(bound["along"])
    middle = [float(low + high) / 2 for low, high in part.box]
    ends = []
    for name in ("from", "to"):
        p = [*middle]
        p[axis] = float(bound[name])
        ends.append(part.rest.inverse().point((p[0], p[1], p[2])))
    along = part.rest.inverse().direction(_unit(axis))
    value = abs(bound["to"] - bound["from"])
    return Size(
        SizeKind.LENGTH, ends[0], ends[1], along, value, face=part.face(bound["view"]), label=bound["label"] or ""
    )


def _piece_axis(part: Part, face: Face) -> int:
    """Return the axis of the piece to which a face is square at rest."""
    normal: Vec = part.rest.direction(_unit(face.axis))
    return max(range(3), key=lambda i: abs(normal[i]))


def _unit(axis: int) -> Vec:
    return (1.0 * (axis == 0), 1.0 * (axis == 1), 1.0 * (axis == 2))
