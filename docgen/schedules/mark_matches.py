"""Which marks of one part stand where those of another do, when it is turned about its length, mirrored, or both."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from docgen.piece.records import BOTH, Face, Mark

SAME = 1e-6  # mm: marks closer than this are one
Turn: TypeAlias = dict[Face, Face]
"""Where each of the four sides along a part goes to when it is turned about its length, mirrored, or both."""
TURNS: tuple[Turn, ...] = tuple(
    {Face(axis, side): Face(to, side ^ flip) for axis, to, flip in ((1, a, one), (2, b, two)) for side in (0, 1)}
    for a, b in ((1, 2), (2, 1))
    for one in (0, 1)
    for two in (0, 1)
)


def other_faces(marks: Sequence[Mark], other: Sequence[Mark]) -> tuple[Face, ...] | None:
    """Return for each of `marks` the face on which `other` has its mark at that place, None if they do not agree.

    A shoulder goes all round: where one part is the other turned or mirrored, its line is told on the face that follows.
    """
    found = matching(marks, other)
    if found is None:
        return None
    faces = tuple(other[k].face for k in found)
    for turn in TURNS:
        turned = tuple(turn.get(m.face, m.face) for m in marks)
        if all(a == b or m.wood == BOTH for a, b, m in zip(turned, faces, marks, strict=True)):
            return turned
    return faces


def matching(marks: Sequence[Mark], other: Sequence[Mark]) -> tuple[int, ...] | None:
    """Return for each of `marks` which one of `other` stands at its place, None if they do not agree.

    Positions and wood sides must be the same. Where several marks stand at one place, those are taken whose faces follow
    when the part is turned or mirrored; if they do not, the same label first, then the same face.
    """
    ways = [found for turn in TURNS if (found := _matched(marks, other, turn)) is not None]
    if ways:
        return max(ways, key=lambda found: sum(m.label == other[k].label for m, k in zip(marks, found, strict=True)))
    return _matched(marks, other, None)


def _matched(marks: Sequence[Mark], other: Sequence[Mark], turn: Turn | None) -> tuple[int, ...] | None:
    """Return the matching of marks under a turn of the faces, strictly; None stands for any face."""
    rest = list(range(len(other)))
    out: list[int] = []
    for mark in marks:
        face = mark.face if turn is None else turn.get(mark.face, mark.face)
        free = turn is None or mark.wood == BOTH
        here = [k for k in rest if _stands(other[k], mark) and (free or other[k].face == face)]
        if not here:
            return None
        match = min(here, key=lambda k: (other[k].label != mark.label, other[k].face != face, other[k].face))
        rest.remove(match)
        out.append(match)
    return tuple(out) if not rest else None


def _stands(a: Mark, b: Mark) -> bool:
    return abs(float(a.position) - float(b.position)) <= SAME and a.wood == b.wood
