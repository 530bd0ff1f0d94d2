"""Lines cut to a rectangle."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from docgen.geometry.outlines import Box2
from docgen.geometry.shapes import Vec2

SAME = 1e-9


def clip_polyline(points: Sequence[Vec2], box: Box2) -> tuple[tuple[Vec2, ...], ...]:
    """Return the runs of a polyline that lie in the rectangle; what lies on its own sides counts as inside."""
    runs: list[list[Vec2]] = []
    for a, b in itertools.pairwise(points):
        inside = _inside(a, b, box)
        if inside is None:
            continue
        start, end = inside
        if runs and math.dist(runs[-1][-1], start) < SAME:
            runs[-1].append(end)
        else:
            runs.append([start, end])
    return tuple(tuple(r) for r in runs)


def _inside(a: Vec2, b: Vec2, box: Box2) -> tuple[Vec2, Vec2] | None:
    """Return the stretch of a straight line inside the rectangle, None where it has no length there."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        run = b[axis] - a[axis]
        if abs(run) < SAME:
            if not box[0][axis] - SAME <= a[axis] <= box[1][axis] + SAME:
                return None
            continue
        first, last = sorted((box[k][axis] - a[axis]) / run for k in (0, 1))
        low, high = max(low, first), min(high, last)
    return (_place(a, b, low), _place(a, b, high)) if high - low > SAME else None


def _place(a: Vec2, b: Vec2, t: float) -> Vec2:
    if t in (0.0, 1.0):
        return b if t else a
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
