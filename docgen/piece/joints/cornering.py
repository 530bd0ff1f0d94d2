"""Corners in which two boards meet end to end, their widths alike: where they overlap, seen by each."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.joints.meeting import NEAR, seen
from docgen.piece.model import Part
from docgen.piece.records import Face
from docgen.units import Number


class NoCorner(Exception):
    """Boards that do not stand in a corner; the text says how they stand."""


@dataclass(frozen=True, slots=True)
class Board:
    """One board's side of a corner, in its own axes.

    `end` is cut, `inner` the broad face inside the corner. `deep` is how far from the end the other board covers it,
    `low` and `high` how much of its width the other one leaves free at its edges.
    """

    end: Face
    inner: Face
    deep: Number
    low: Number
    high: Number


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of a first board, whose end runs into a second one, `into` deep; `lap` is left before it.

    `width` is the width that they share, `alike` tells whether their widths run the same way.
    """

    first: Board
    second: Board
    width: Number
    lap: Number
    alike: bool


def corner(one: Part, two: Part) -> Corner:
    """Return the corner of two boards whose boxes overlap at an end of each; `NoCorner` when there is none.

    The second board's end is flush with the first one's outer face; the first one's end may stop inside the second.
    """
    at, back = seen(one, two), seen(two, one)
    if at is None or back is None or at.axis != (2, 1, 0):
        raise NoCorner(f"{one.path} and {two.path} do not stand as two boards of a corner, their widths side by side")
    low = [max(0, at.low[k]) for k in range(3)]
    high = [min(two.size[k], at.high[k]) for k in range(3)]
    if any(float(high[k] - low[k]) <= NEAR for k in range(3)):
        raise NoCorner(f"the boxes of {one.path} and {two.path} do not overlap in a corner")
    ends = (at.low[0], at.high[0] - two.size[0])
    side = next((s for s in (0, 1) if abs(float(ends[s])) <= NEAR), None)
    if side is None or float(high[0] - low[0]) >= float(two.size[0]) - NEAR:
        raise NoCorner(f"the end of {two.path} is not flush with the outer face of {one.path}")
    mouth = next((s for s in (0, 1) if float((at.high if s else at.low)[2]) * (1 if s else -1) > _past(two, s)), None)
    if mouth is None:
        raise NoCorner(f"{one.path} does not reach through a broad face of {two.path}")
    if float((at.high[2] - two.size[2]) if not mouth else -at.low[2]) > NEAR:
        raise NoCorner(f"{one.path} stands out beyond the outer face of {two.path}")
    inner = Face(2, mouth)
    into = high[2] - low[2]
    end = at.guest_face(Face(2, 1 - mouth))
    face = at.guest_face(Face(0, 1 - side))
    alike = at.sign[1] > 0
    free = (low[1] - at.low[1], at.high[1] - high[1])
    return Corner(
        Board(end, face, into, *(free if alike else free[::-1])),
        Board(Face(0, side), inner, high[0] - low[0], low[1], two.size[1] - high[1]),
        high[1] - low[1],
        two.size[2] - into,
        alike,
    )


def _past(board: Part, side: int) -> float:
    """Return the level that a box beyond a board's broad face must pass, signed outward."""
    return float(board.size[2]) + NEAR if side else NEAR
