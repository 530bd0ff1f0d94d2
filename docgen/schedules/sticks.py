"""Story sticks: every mark along a part, from one datum end, equal parts and both hands on one stick."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Face, Feature, HoleRow, Mark
from docgen.schedules.rows import Stick

SAME = 1e-6  # mm: marks closer than this are one


def sticks(piece: Piece, kinds: Sequence[Kind]) -> tuple[Stick, ...]:
    """Return one stick for each kind of part that has marks, in the order of the parts' numbers.

    The other hand shares the stick where its marks stand at the same places, else it gets its own. Bought
    parts and parts without marks have none.
    """
    out: list[tuple[int, Stick]] = []
    for kind in kinds:
        first = piece.part(kind.first)
        marks = marks_of(first)
        if first.hardware or not marks:
            continue
        shared: list[str] = []
        own: list[str] = []
        for path in kind.mirrored:
            (shared if hand_faces(marks, marks_of(piece.part(path))) is not None else own).append(path)
        out.append((first.number, _stick(first, kind.parts, tuple(shared), marks)))
        if own:
            other = piece.part(own[0])
            out.append((other.number, _stick(other, tuple(own), (), marks_of(other))))
    return tuple(stick for _, stick in sorted(out, key=lambda s: s[0]))


def _stick(part: Part, parts: tuple[str, ...], mirrored: tuple[str, ...], marks: tuple[Mark, ...]) -> Stick:
    datum = f"{part.word(Face(0, 0))} end"
    return Stick(" and ".join((parts[0], *mirrored[:1])), parts, mirrored, part.span(0), datum, marks)


def marks_of(part: Part) -> tuple[Mark, ...]:
    """Return the marks of a part sorted by position, then face: those of its features and its hole centres.

    Where two features would carry the same label on one face, each is told by its own name.
    """
    found: list[tuple[Feature, Mark]] = []
    for feature in part.features:
        for mark in (*feature.made.marks, *_centres(feature)):
            if not any(_same(mark, other) for _, other in found):
                found.append((feature, mark))
    owners: dict[tuple[Face, str], set[str]] = {}
    for feature, mark in found:
        owners.setdefault((mark.face, mark.label), set()).add(feature.name)
    named = (_named(mark, feature) if len(owners[mark.face, mark.label]) > 1 else mark for feature, mark in found)
    return tuple(sorted(named, key=lambda m: (m.position, m.face, m.wood, m.label)))


def _named(mark: Mark, feature: Feature) -> Mark:
    """Return the mark with the number that tells its feature from others of the same label, if it has one."""
    number = feature.name.rpartition(" ")[2]
    return replace(mark, label=f"{mark.label} {number}") if number.isdigit() else mark


def _centres(feature: Feature) -> Iterator[Mark]:
    """Yield a centre mark for each place along the length where the feature bores holes."""
    for hole in feature.made.holes:
        if hole.face.axis == 0:
            continue
        counts = Counter(p[0] for p in hole.points)
        own = [m for m in feature.made.marks if m.wood == 0 and m.face == hole.face]
        for position in sorted(counts):
            if not any(abs(float(m.position) - float(position)) <= SAME for m in own):
                yield Mark(position, 0, _hole_label(hole, counts[position]), hole.face)


def _hole_label(hole: HoleRow, count: int) -> str:
    name = f"hole {hole.name}".strip() if count == 1 else f"{count} holes {hole.name}".strip()
    return f"{name}, {hole.drill}" if hole.drill else name


def _same(a: Mark, b: Mark) -> bool:
    return abs(float(a.position) - float(b.position)) <= SAME and (a.wood, a.label, a.face) == (b.wood, b.label, b.face)


def hand_faces(marks: Sequence[Mark], other: Sequence[Mark]) -> dict[Face, Face] | None:
    """Return for each face of `marks` the face that carries the same marks on the other hand, None if they differ.

    Faces are paired by positions and wood sides alone; the face opposite is tried first, then the same face.
    """
    theirs = _by_face(other)
    out: dict[Face, Face] = {}
    mine = _by_face(marks)
    if len(mine) != len(theirs):
        return None
    for face, places in mine.items():
        rest = [f for f in sorted(theirs) if f not in out.values()]
        order = sorted(rest, key=lambda f: (f.axis != face.axis, f.side == face.side, f))
        match = next((f for f in order if _agree(places, theirs[f])), None)
        if match is None:
            return None
        out[face] = match
    return out


def _by_face(marks: Sequence[Mark]) -> dict[Face, list[tuple[float, int]]]:
    out: dict[Face, list[tuple[float, int]]] = {}
    for mark in marks:
        out.setdefault(mark.face, []).append((float(mark.position), mark.wood))
    return {face: sorted(places) for face, places in sorted(out.items())}


def _agree(a: Sequence[tuple[float, int]], b: Sequence[tuple[float, int]]) -> bool:
    return len(a) == len(b) and all(abs(p - q) <= SAME and v == w for (p, v), (q, w) in zip(a, b, strict=True))
