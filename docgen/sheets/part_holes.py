"""The hole table of a part: a tag at each hole in the views, and one row a hole with its place, bore and depth."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing.choose import told_by_hole
from docgen.drawing.dimensions.wanted import Callout
from docgen.drawing.once import Figure
from docgen.drawing.wishes import told_face
from docgen.drawing.wording import Notes, hole_lines
from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec
from docgen.piece.datums import as_placed, datum, measured
from docgen.piece.model import Part
from docgen.piece.records import Face, Feature, HoleRow, Leaning, Size, SizeKind, Stage
from docgen.units import Units, format_angle, format_length

_RUNS = re.compile(r"(\D+)(\d*)")
MANY = 5  # holes in one face, from which on they are worth a table
SQUARE = 1e-6


@dataclass(frozen=True, slots=True)
class Tagged:
    """One hole of the table: its tag, its mouth in the part's axes, its row of the drilling chart and its feature."""

    tag: str
    at: Vec
    row: HoleRow
    feature: Feature


def tabled(part: Part) -> tuple[Feature, ...]:
    """Return the features whose holes a table can tell: square to their face, each place a size of its own."""
    return tuple(f for f in part.features if f.stage is Stage.PART and f.made.holes and _plain(f))


def _plain(feature: Feature) -> bool:
    rows = feature.made.holes
    square = all(abs(row.direction[row.face.axis]) > 1 - SQUARE for row in rows)
    return square and sum(len(row.points) for row in rows) <= len(_places(feature))


def _places(feature: Feature) -> list[Size]:
    sizes = feature.made.sizes
    return [s for s in sizes if s.kind is SizeKind.LENGTH and not told_by_hole(feature, s)]


def worth_it(part: Part) -> bool:
    """Return True when a part has enough holes in one face for a table."""
    faces: Counter[Face] = Counter()
    for f in tabled(part):
        for row in f.made.holes:
            faces[row.face] += len(row.points)
    return max(faces.values(), default=0) >= MANY


def mixed(part: Part) -> bool:
    """Return True when unlike rows of holes stand in one face and a leader to one hole would not tell which are like it."""
    every = [row for f in tabled(part) for row in f.made.holes]
    faces = Counter(face for face, _ in {(row.face, _bored(row)) for row in every})
    return worth_it(part) and any(faces[row.face] > 1 and len(row.points) > 1 for row in every)


def _bored(row: HoleRow) -> tuple[object, ...]:
    """Return what rows of holes share that are told together."""
    return (row.diameter, row.drill, row.depth, row.thread, row.thread_depth, row.sink, row.note, row.authority)


def tags(part: Part) -> tuple[Tagged, ...]:
    """Return the holes of the table in order, each with its tag: the name that it has on all pages, or a number."""
    out: list[Tagged] = []
    nameless = 0
    for feature, row in ((f, row) for f in tabled(part) for row in f.made.holes):
        for n, p in enumerate(row.points):
            nameless += not row.names
            tag = row.names[n] if row.names else f"h{nameless}"
            out.append(Tagged(tag, (float(p[0]), float(p[1]), float(p[2])), row, feature))
    return tuple(out)


def left_to_views(part: Part, every: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Return the figures without those that say nothing but places of holes in the table."""
    told = {_key(s) for f in tabled(part) for s in _places(f)}
    return tuple(f for f in every if f.overall or not all(_key(s) in told for s in f.sizes))


def _key(size: Size) -> tuple[object, ...]:
    return (size.kind, size.start, size.end, size.value)


def tag_wishes(part: Part, face: Face, faces: tuple[Face, ...], view: View) -> list[Callout]:
    """Return the tags of the holes that are told on a face; the first of a feature carries the sizes of it all."""
    out = []
    seen: set[str] = set()
    for t in tags(part):
        if told_face(t.feature, t.row, faces[0]) == face:
            sizes = () if t.feature.name in seen else t.feature.made.sizes
            seen.add(t.feature.name)
            out.append(Callout(f"hole {t.tag}", view.flat(t.at), float(t.row.diameter) / 2, (t.tag,), sizes, near=True))
    return out


def rows(
    part: Part, faces: tuple[Face, ...], notes: Notes, units: Units, names: dict[Face, str]
) -> Iterator[tuple[Face, tuple[tuple[str, ...], ...]]]:
    """Yield each bored face with the rows of its table, the head first; `names` says what faces are called."""
    by_face: dict[Face, list[Tagged]] = {}
    for t in tags(part):
        by_face.setdefault(told_face(t.feature, t.row, faces[0]), []).append(t)
    for face, holes in by_face.items():
        axes = [i for i in range(3) if i != face.axis]
        head = ("hole", *(f"from {names[datum(part, i)]}" for i in axes), "bore")
        holes.sort(key=lambda t: _in_turn(t.tag))
        bores = [_bore(t, notes) for t in holes]
        told = [
            (t.tag, *(_place(part, t, i, units) for i in axes), "same" if n and bores[n] == bores[n - 1] else bores[n])
            for n, t in enumerate(holes)
        ]
        yield face, (head, *told)


def _in_turn(tag: str) -> tuple[tuple[int, str, int], ...]:
    """Return what a hole's name is sorted by: A before B before AA, A2 before A10."""
    return tuple((len(word), word, int(number or 0)) for word, number in _RUNS.findall(tag))


def leaning(part: Part) -> tuple[tuple[Feature, HoleRow], ...]:
    """Return the rows of leaning holes that a table tells: several, each with a name."""
    found = [(f, r) for f in part.features if f.stage is Stage.PART for r in f.made.holes if r.leaning is not None]
    return tuple(found) if len(found) > 1 and all(row.name for _, row in found) else ()


def lean_rows(part: Part, faces: tuple[Face, ...], units: Units) -> Iterator[tuple[Face, tuple[tuple[str, ...], ...]]]:
    """Yield each face that leaning holes are told on with the rows of their table, the head first."""
    by_face: dict[Face, list[HoleRow]] = {}
    for feature, row in leaning(part):
        by_face.setdefault(told_face(feature, row, faces[0]), []).append(row)
    head = ("hole", "from square: table tilt", "depth", "sight line runs to", "swung to")
    for face, holes in by_face.items():
        yield face, (head, *(_leaning(row, row.leaning, units) for row in holes if row.leaning is not None))


def _leaning(row: HoleRow, lean: Leaning, units: Units) -> tuple[str, ...]:
    swung = f"{lean.swung} {format_angle(lean.sight)}" if lean.swung else "–"
    deep = "through" if row.depth is None else f"{format_length(row.depth, units)} {units.sign}"
    return (row.name, format_angle(lean.lean), deep, lean.toward, swung)


def _place(part: Part, hole: Tagged, axis: int, units: Units) -> str:
    """Return a coordinate from the datum of the part, as its size has it."""
    for s in (as_placed(part, s, hole.feature) for s in _places(hole.feature)):
        if abs(s.along[axis]) > 1 - SQUARE and abs(s.end[axis] - hole.at[axis]) < 1e-4:
            return format_length(s.value, units)
    return format_length(measured(part, datum(part, axis), hole.at[axis]), units)


def _bore(hole: Tagged, notes: Notes) -> str:
    row = hole.row
    lines = hole_lines(row, notes)
    head = f"{row.name}: " if row.name else ""
    many = f"{len(row.points)}× " if len(row.points) > 1 else ""
    return "; ".join([lines[0].removeprefix(head).removeprefix(many), *lines[1:]])
