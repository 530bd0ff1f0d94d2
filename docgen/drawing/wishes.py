"""The figures of a part as wanted dimensions in the view of one face."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from docgen.drawing.choose import Figure, opposite, through, told_by_hole
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.drawing.wording import LONG, Notes, figure_text, hole_lines
from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Face, Feature, HoleRow, Size, SizeKind, Stage

SAME = 1e-4


def wish(figure: Figure, key: str, part: Part, view: View, notes: Notes) -> Wanted:
    """Return the dimension that prints `figure` in `view`."""
    size = figure.size
    text = figure_text(size, notes, figure.count)
    if size.kind is SizeKind.LENGTH:
        return _linear(figure, key, part, view, text)
    centre, end = view.flat(size.start), view.flat(size.end)
    if size.kind is SizeKind.ANGLE:
        other = view.flat(size.other) if size.other is not None else end
        return Angular(key, centre, end, other, text, figure.sizes)
    toward = math.degrees(math.atan2(end[1] - centre[1], end[0] - centre[0]))
    radius = math.dist(centre, end)
    if size.kind is SizeKind.DIAMETER and size.other is not None:  # seen from the side: told at a point of its rim
        return Callout(key, view.flat(size.other), 0.0, (text,), figure.sizes)
    if size.kind is SizeKind.DIAMETER:
        return Callout(key, centre, radius, (text,), figure.sizes)
    return Callout(key, centre, radius, (text,), figure.sizes, toward, 20.0)


def _linear(figure: Figure, key: str, part: Part, view: View, text: str) -> Linear:
    size = figure.size
    start, end = size.start, size.end
    along = view.flat(size.along)
    seen = math.hypot(*along)  # hardly less than 1
    along = (_clean(along[0] / seen), _clean(along[1] / seen))
    datum = figure.overall or is_position(size, part)
    if not figure.overall and datum and not _on_end(start, size.along, part):
        start, end = end, start
    return Linear(key, view.flat(start), view.flat(end), along, text, figure.sizes, figure.overall, datum, figure.over)


def is_position(size: Size, part: Part) -> bool:
    """Return True for a place on the part, told from its low end, shoulder or edge: what may run from one zero.

    A long label stands at the foot, and the figure by itself.
    """
    plain = not size.label or len(size.label) > LONG
    return plain and (_on_end(size.start, size.along, part) or _on_end(size.end, size.along, part))


def _clean(value: float) -> float:
    return float(round(value)) if abs(value - round(value)) < 1e-9 else value


def _on_end(p: Vec, along: Vec, part: Part) -> bool:
    """Return True when `p` lies on the part's low end along the direction: the datum of positions."""
    axes = [i for i in range(3) if abs(along[i]) > 1 - SAME]
    if not axes:
        return False
    i = axes[0]
    return any(abs(p[i] - low) < SAME for low in (0.0, float(part.span(i)[0])))


def hole_wishes(
    part: Part,
    face: Face,
    faces: tuple[Face, ...],
    view: View,
    notes: Notes,
    name: Callable[[Face], str],
    but: Iterable[Feature] = (),
) -> list[Callout]:
    """Return one callout for each row of holes that is told on `face`, one of the `faces` drawn.

    A callout tells the sizes of its feature that only a callout tells. `name` says what a face is called: holes that
    are told on the far face say from where they are bored. The holes of the features `but` are told elsewhere.
    """
    out: list[Callout] = []
    for feature in part.features:
        if feature.stage is not Stage.PART or feature in but:
            continue
        sizes: tuple[Size, ...] = tuple(s for s in feature.made.sizes if told_by_hole(feature, s))
        for n, row in enumerate(feature.made.holes):
            there = told_face(feature, row, faces[0])
            if there != face:
                continue
            at, *others = sorted((view.flat(_plain(p)) for p in row.points), key=lambda q: (-round(q[0] + q[1], 6), q))
            lines = list(hole_lines(row, notes))
            if there != row.face:
                lines[0] += " " + notes.letter(f"bored from the {name(row.face)}")
            key = f"hole {feature.name} {n}"
            out.append(
                Callout(key, at, float(row.diameter) / 2, tuple(lines), sizes if not n else (), others=tuple(others))
            )
    return out


def later_wishes(part: Part, face: Face, faces: tuple[Face, ...], view: View) -> list[Callout]:
    """Return one callout for each named row of holes that is drilled in `face` after the part leaves the machines."""
    out: list[Callout] = []
    for feature in part.features:
        for n, row in enumerate(feature.made.holes if feature.stage is not Stage.PART else ()):
            if row.name and told_face(feature, row, faces[0]) == face:
                at, *others = sorted(
                    (view.flat(_plain(p)) for p in row.points), key=lambda q: (-round(q[0] + q[1], 6), q)
                )
                text = f"{row.name}: {len(row.points)}× later" if others else f"{row.name}: later"
                out.append(
                    Callout(f"later {feature.name} {n}", at, float(row.diameter) / 2, (text,), others=tuple(others))
                )
    return out


def told_face(feature: Feature, row: HoleRow, first: Face) -> Face:
    """Return the face on which a row of holes is told: where they are bored, or the principal face that they come out of."""
    return opposite(row.face) if through(feature) and opposite(row.face) == first else row.face


def _plain(p: tuple[object, ...]) -> Vec:
    x, y, z = (float(c) for c in p)  # type: ignore[arg-type]
    return (x, y, z)
