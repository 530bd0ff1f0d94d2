"""Shapes as plain data: flat outlines with true arcs, and the solids that cutters sweep.

Everything is in millimetres, in whatever frame the owner says (for cutters: the part's own axes).
No kernel is called here, so that records can hold a shape, compare it and print it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

Vec: TypeAlias = tuple[float, float, float]
Vec2: TypeAlias = tuple[float, float]
Rows: TypeAlias = tuple[Vec, Vec, Vec]


@dataclass(frozen=True, slots=True)
class Frame:
    """A rigid placement: ``p_outer = rotation · p_inner + origin``.

    `rotation` is given by its rows; its columns are the inner axes as the outer frame sees them.
    """

    rotation: Rows = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    origin: Vec = (0.0, 0.0, 0.0)

    def point(self, p: Vec) -> Vec:
        """Return the inner point `p` in the outer frame."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.rotation
        (x, y, z), o = p, self.origin
        return (ax * x + ay * y + az * z + o[0], bx * x + by * y + bz * z + o[1], cx * x + cy * y + cz * z + o[2])

    def direction(self, d: Vec) -> Vec:
        """Return the inner direction `d` in the outer frame."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.rotation
        x, y, z = d
        return (ax * x + ay * y + az * z, bx * x + by * y + bz * z, cx * x + cy * y + cz * z)

    def inverse(self) -> Frame:
        """Return the placement that undoes this one."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.rotation
        x, y, z = self.origin
        return Frame(
            ((ax, bx, cx), (ay, by, cy), (az, bz, cz)),
            (-(ax * x + bx * y + cx * z), -(ay * x + by * y + cy * z), -(az * x + bz * y + cz * z)),
        )

    def after(self, inner: Frame) -> Frame:
        """Return the placement that first places by `inner`, then by this one."""
        a, b = self.rotation, inner.rotation
        r = tuple(tuple(sum(a[i][k] * b[k][j] for k in range(3)) for j in range(3)) for i in range(3))
        return Frame(r, self.point(inner.origin))  # type: ignore[arg-type]


def turned(axis: int, degrees: float, about: Vec) -> Frame:
    """Return the rotation by `degrees` about the line through `about` along axis 0, 1 or 2 (right-handed)."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    j, k = (axis + 1) % 3, (axis + 2) % 3
    rows = [[0.0] * 3 for _ in range(3)]
    rows[axis][axis] = 1.0
    rows[j][j], rows[j][k], rows[k][j], rows[k][k] = c, -s, s, c
    rotation: Rows = tuple(tuple(r) for r in rows)  # type: ignore[assignment]
    moved = Frame(rotation).point(about)
    return Frame(rotation, tuple(about[i] - moved[i] for i in range(3)))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Edge:
    """One piece of an outline, ending at `end`; an arc when `centre` is given.

    An arc runs from the end of the piece before, `ccw` or not, around `centre`; a start equal to
    the end is a full circle.
    """

    end: Vec2
    centre: Vec2 | None = None
    ccw: bool = True


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed flat outline: starts at ``edges[-1].end``; counter-clockwise when it bounds material."""

    edges: tuple[Edge, ...]

    @staticmethod
    def polygon(points: tuple[Vec2, ...] | list[Vec2]) -> Outline:
        """Return the outline with straight sides through `points` in order."""
        return Outline(tuple(Edge(p) for p in points))

    @staticmethod
    def rectangle(x0: float, y0: float, x1: float, y1: float) -> Outline:
        """Return the axis-parallel rectangle, counter-clockwise."""
        return Outline.polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])

    @staticmethod
    def circle(centre: Vec2, radius: float) -> Outline:
        """Return the full circle, counter-clockwise, as one edge."""
        return Outline((Edge((centre[0] + radius, centre[1]), centre, True),))


@dataclass(frozen=True, slots=True)
class Extrusion:
    """An outline in the xy plane of `frame`, swept along its z from `low` to `high`.

    `holes` lie within the outline and are left out: a cutter that takes all but what lies in them.
    """

    outline: Outline
    frame: Frame
    low: float
    high: float
    holes: tuple[Outline, ...] = ()


@dataclass(frozen=True, slots=True)
class Revolution:
    """A profile in the xz plane of `frame` (x >= 0), turned about its z: a full round, or over the angles `stops`.

    Stops rise, in degrees from the frame's x toward its y; each is a seam of the facets, so that they can be made to meet
    those of a wall. 360 degrees between the first and the last are a full round.
    """

    profile: Outline
    frame: Frame
    stops: tuple[float, ...] = ()

    @property
    def whole(self) -> bool:
        """True for a full round."""
        return not self.stops or self.stops[-1] - self.stops[0] > 360.0 - 1e-9


@dataclass(frozen=True, slots=True)
class HalfSpace:
    """All that lies beyond the plane through `point`, on the side where `normal` points."""

    point: Vec
    normal: Vec


Shape: TypeAlias = Extrusion | Revolution | HalfSpace
