"""Hatched ground on the paper: how much of a line would run over it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from docgen.drawing.records import Point

Ring = Sequence[Point]


class Shade:
    """The rings of hatched areas, paper mm, each area's apart (even-odd, so holes stay white)."""

    def __init__(self, areas: Iterable[Iterable[Ring]] = ()) -> None:
        self._areas = [[side for ring in rings for side in pairwise([*ring, ring[0]])] for rings in areas]

    def length(self, a: Point, b: Point) -> float:
        """Return how much of the line from `a` to `b` lies on hatching, mm; where areas overlap, each counts."""
        long = math.dist(a, b)
        return long * sum(_share(area, a, b) for area in self._areas) if long > 0 else 0.0


def _share(sides: Sequence[tuple[Point, Point]], a: Point, b: Point) -> float:
    """Return the share of a line that lies within one area."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    places = []
    for p, q in sides:
        u, v = (dx * (c[1] - a[1]) - dy * (c[0] - a[0]) for c in (p, q))  # off the line, times its length
        if (u > 0) != (v > 0):
            t = u / (u - v)
            x, y = p[0] + t * (q[0] - p[0]) - a[0], p[1] + t * (q[1] - p[1]) - a[1]
            places.append((x * dx + y * dy) / (dx * dx + dy * dy))
    places.sort()
    return sum(max(min(t, 1.0) - max(s, 0.0), 0.0) for s, t in zip(places[::2], places[1::2], strict=False))
