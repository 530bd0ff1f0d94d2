"""The groove along a drawer's side for a wooden runner, and what else of the drawer's box stands in its way."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import floor

from docgen.geometry.inside import holds
from docgen.geometry.shapes import Vec
from docgen.piece.faults import Fault
from docgen.piece.joints.meeting import NEAR, Seen, seen
from docgen.piece.model import Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.ground import inside, level, settled, third
from docgen.piece.records import Face
from docgen.units import Number

Room = tuple[tuple[Number, Number], tuple[Number, Number], tuple[Number, Number]]
"""From–to along the three axes of a part, mm."""

SAMPLES = (0.05, 0.25, 0.5, 0.75, 0.95)
"""Shares of a groove's way through a part at which it is asked for wood."""


def groove(strip: Part, side: Part, hand: str, play: Number, before: tuple[Number, Fraction] | None) -> Dado:
    """Return the groove in a drawer's side for a strip that stands in it; `Fault` where it does not.

    It runs out at the side's back end. At the front it stops with the strip, which then stops the drawer; or at its full width
    `before` it, the rim of the cutter on a line of a rule with that step.
    """
    at, face, bottom, front = seen(strip, side), side.face(hand), side.face("bottom"), side.face("front")
    if at is None or at.axis[0] != front.axis or face.axis == front.axis:
        raise Fault("runner-misses", f"{strip.path} does not run along {side.path}", "strips", "a strip along the side")
    entered = side.size[face.axis] - at.low[face.axis] if face.side else at.high[face.axis]
    across = third(front.axis, face.axis)
    low, high = _walls(at, across, bottom, play)
    if not 0 < entered < side.size[face.axis] or low <= NEAR or high >= side.size[across] - NEAR:
        message = f"{strip.path} does not stand in the {hand} face of {side.path}, with wood above and below"
        raise Fault("runner-misses", message, "strips", "a strip that stands out into the side's thickness")
    size = side.size[front.axis]
    begins = size - at.high[front.axis] if front.side else at.low[front.axis]
    ends = _ends(begins, high - low, before)
    stop = size - ends if front.side and ends is not None else None
    start = None if front.side else ends
    depth, round_end = entered + play, before is not None
    return Dado(face, front.axis, low, high, depth, start, stop, round_end, label="groove", fit="runner")


def _ends(begins: Number, wide: Number, before: tuple[Number, Fraction] | None) -> Number | None:
    """Return how far from the side's front end the groove's full width ends; None where it runs out there."""
    if before is None:
        return begins if begins > NEAR else None
    least, step = before
    rim = floor(round(float((begins - least - wide / 2) / step), 6)) * step
    return rim + wide / 2 if rim > NEAR else None


def _walls(at: Seen, across: int, bottom: Face, play: Number) -> tuple[Number, Number]:
    """Return the walls of the groove: the upper one on the strip, the lower one a play under it."""
    low, high = at.low[across], at.high[across]
    return (low, high + play) if bottom.side else (low - play, high)


def goes_on(cut: Dado, side: Part, other: Part) -> Dado | None:
    """Return the same groove in another part of the box, whose pins or fingers stand in its way; None where nothing does."""
    at = seen(side, other)
    if at is None:
        return None
    room = _room(cut, side)
    corners = [_from_to(side, other, corner) for corner in zip(*room, strict=True)]
    both = [(min(a, b), max(a, b)) for a, b in zip(*corners, strict=True)]
    within = [(max(low, 0), min(high, size)) for (low, high), size in zip(both, other.size, strict=True)]
    if any(high - low <= NEAR for low, high in within) or not _wood(other, within):
        return None
    face, along = at.host_face(cut.face), at.axis[cut.along]
    low, high = within[third(along, face.axis)]
    ends = (None if within[along][0] <= NEAR else within[along][0],
            None if within[along][1] >= other.size[along] - NEAR else within[along][1])  # fmt: skip
    deep = other.size[face.axis] - within[face.axis][0] if face.side else within[face.axis][1]
    return Dado(face, along, low, high, deep, *ends, round_end=cut.round_end, label=cut.label, fit=cut.fit, onward=True)


def _room(cut: Dado, side: Part) -> Room:
    """Return the room that a groove takes in its own part, inside that part's box."""
    spans: dict[int, tuple[Number, Number]] = {
        cut.along: (cut.start or 0, side.size[cut.along] if cut.stop is None else cut.stop),
        third(cut.along, cut.face.axis): (cut.low, cut.high),
    }
    ends = sorted((level(side, cut.face), inside(side, cut.face, cut.depth)))
    spans[cut.face.axis] = (ends[0], ends[1])
    return spans[0], spans[1], spans[2]


def _from_to(one: Part, other: Part, point: tuple[Number, Number, Number]) -> tuple[Number, Number, Number]:
    """Return a point of one part in the axes of another."""
    x, y, z = (float(c) for c in point)
    q = other.frame.inverse().point(one.frame.point((x, y, z)))
    return settled(q[0]), settled(q[1]), settled(q[2])


def _wood(part: Part, room: list[tuple[Number, Number]]) -> bool:
    """Tell whether any wood is left of a part in a room of its box: between the tails of a corner there is none."""
    cutters = [cut.shape for feature in part.features for cut in feature.made.cuts]
    ways = ([float(low) + float(high - low) * share for share in SAMPLES] for low, high in room)
    points: list[Vec] = [(x, y, z) for x, y, z in product(*ways)]
    return any(not any(holds(shape, p) for shape in cutters) for p in points)
