"""When a piece tips. Lengths in mm, masses in kg, forces in N, angles in degrees. Statics of a rigid body."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from docgen.trade.beams import GRAVITY

Vec2: TypeAlias = tuple[float, float]
Vec3: TypeAlias = tuple[float, float, float]


def centre_of_gravity(masses: Iterable[tuple[float, Vec3]]) -> tuple[float, Vec3]:
    """Return (mass, centre) of (mass, centre) pairs; ValueError when nothing weighs anything."""
    items = list(masses)
    total = sum(m for m, _ in items)
    if total <= 0:
        raise ValueError("nothing to weigh")
    x, y, z = (sum(m * c[i] for m, c in items) / total for i in range(3))
    return total, (x, y, z)


def hull(points: Iterable[Vec2]) -> tuple[Vec2, ...]:
    """Return the convex hull counter-clockwise, without points that lie on its sides (monotone chain)."""
    order = sorted(set(points))
    if len(order) < 3:
        return tuple(order)

    def chain(run: Iterable[Vec2]) -> list[Vec2]:
        out: list[Vec2] = []
        for p in run:
            while len(out) > 1 and _turn(out[-2], out[-1], p) <= 0:
                out.pop()
            out.append(p)
        return out[:-1]

    return tuple(chain(order) + chain(reversed(order)))


def _turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


@dataclass(frozen=True, slots=True)
class Tipping:
    """The side over which a body tips first.

    `distance` from the centre's plumb line to that side, mm (below 0: it tips by itself); `angle` to which the
    body or the floor may lean, degrees; `edge` the side; `outward` the direction in which it tips.
    """

    distance: float
    angle: float
    edge: tuple[Vec2, Vec2]
    outward: Vec2


def _edges(feet: Sequence[Vec2]) -> list[tuple[Vec2, Vec2]]:
    corners = hull(feet)
    if len(corners) < 3:
        raise ValueError("fewer than three feet that are not in a line")
    return list(zip(corners, corners[1:] + corners[:1], strict=True))


def tipping_over(centre: Vec3, feet: Sequence[Vec2]) -> Tipping:
    """Return how near a body with `centre` (height above the floor last) is to tipping over its `feet`.

    Angle = atan(distance / height). ValueError for fewer than three feet, or a centre at or under the floor.
    """
    if centre[2] <= 0:
        raise ValueError("the centre of gravity lies at or under the floor")
    found: list[Tipping] = []
    for a, b in _edges(feet):
        n = math.hypot(b[0] - a[0], b[1] - a[1])
        out = ((b[1] - a[1]) / n, -(b[0] - a[0]) / n)
        distance = _turn(a, b, (centre[0], centre[1])) / n
        found.append(Tipping(distance, math.degrees(math.atan2(distance, centre[2])), (a, b), out))
    return min(found, key=lambda t: t.angle)


def push_to_tip(mass: float, distance: float, height: float) -> float:
    """Return the level push at `height` that tips the body, N: m · g · distance / height; 0 when it tips by itself."""
    return max(mass * GRAVITY * distance / height, 0.0)
