"""The figures of a part as wanted dimensions in the view of one face."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from docgen.drawing.choose import is_place, on_datum, opposite, through, told_by_hole
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.drawing.once import Figure
from docgen.drawing.wording import Notes, figure_text, hole_head, hole_lines
from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import REMARK, Face, Feature, HoleRow, Size, SizeKind, Stage

EACH = 8  # holes that are alike and are all named; of more one of each row is


def wish(figure: Figure, key: str, part: Part, view: View, notes: Notes) -> Wanted:
    """Return the dimension that prints `figure` in `view`."""
    size = figure.size
    text = figure_text(size, notes, figure.count, reference=figure.reference)
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
    if not figure.overall and datum and not on_datum(start, size.along, part):
        start, end = end, start
    return Linear(key, view.flat(start), view.flat(end), along, text, figure.sizes, figure.overall, datum, figure.over)


def is_position(size: Size, part: Part) -> bool:
    """Return True for a place on the part, told from its datum end, shoulder or edge: what may run from one zero.

    A long label stands at the foot, and the figure by itself.
    """
    return (not size.label or len(size.label) > REMARK) and is_place(size, part)


def _clean(value: float) -> float:
    return float(round(value)) if abs(value - round(value)) < 1e-9 else value


def hole_wishes(
    part: Part,
    face: Face,
    faces: tuple[Face, ...],
    view: View,
    notes: Notes,
    name: Callable[[Face], str],
    but: Iterable[Feature] = (),
) -> list[Callout]:
    """Return one callout for all rows of like holes that are told on `face`, one of the `faces` drawn.

    A callout tells the sizes of its features that only a callout tells. Where it stands for several rows with names, the
    holes have their names beside them. `name` says what a face is called: holes that are told on the far face say from
    where they are bored. The holes of the features `but` are told elsewhere.
    """
    alike: dict[tuple[object, ...], list[tuple[Feature, int, HoleRow]]] = {}
    for feature in part.features:
        if feature.stage is not Stage.PART or feature in but:
            continue
        for n, row in enumerate(feature.made.holes):
            if told_face(feature, row, faces[0]) == face:
                key = (*hole_lines(row, notes, ""), row.face, float(row.diameter), bool(row.name))
                alike.setdefault(key, []).append((feature, n, row))
    out: list[Callout] = []
    for group in alike.values():
        rows = [row for _, _, row in group]
        feature, n, first = group[0]
        lines = list(hole_lines(first, notes, hole_head(rows)))
        if face != first.face:
            lines[0] += " " + notes.letter(f"bored from the {name(first.face)}")
        sizes = tuple(s for f, i, _ in group if not i for s in f.made.sizes if told_by_hole(f, s))
        at, *others = _in_order([p for row in rows for p in row.points], view)
        radius = float(first.diameter) / 2
        out.append(Callout(f"hole {feature.name} {n}", at, radius, tuple(lines), sizes, others=tuple(others)))
        if len(rows) > 1 and first.name:
            out.extend(_named(rows, radius, view))
    return out


def _named(rows: Sequence[HoleRow], radius: float, view: View) -> Iterator[Callout]:
    """Yield the names beside holes: each by its own, as on templates and in the chart, of many one of each row."""
    each = sum(len(row.points) for row in rows) <= EACH and all(row.names for row in rows)
    for row in rows:
        at, *others = _in_order(row.points, view)
        if not each:
            yield Callout(f"name {row.name}", at, radius, (row.name,), near=True, others=tuple(others))
            continue
        for p, name in zip(row.points, row.names, strict=True):
            yield Callout(f"name {name}", view.flat(_plain(p)), radius, (name,), near=True)


def _in_order(points: Iterable[tuple[object, ...]], view: View) -> list[tuple[float, float]]:
    """Return holes as a view shows them, the one that lies furthest up and right first."""
    return sorted((view.flat(_plain(p)) for p in points), key=lambda q: (-round(q[0] + q[1], 6), q))


def later_wishes(part: Part, face: Face, faces: tuple[Face, ...], view: View) -> list[Callout]:
    """Return one callout for each named row of holes that is drilled in `face` after the part leaves the machines."""
    out: list[Callout] = []
    for feature in part.features:
        for n, row in enumerate(feature.made.holes if feature.stage is not Stage.PART else ()):
            if row.name and told_face(feature, row, faces[0]) == face:
                at, *others = _in_order(row.points, view)
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
