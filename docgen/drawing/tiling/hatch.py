"""Hatching of flat areas with true arcs: lines at an angle, ending exactly on the boundary."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from docgen.drawing.records import Arc, Line, Pen
from docgen.drawing.tiling.ink import inside, outline_ink, segments
from docgen.geometry.shapes import Outline

LEAST = 0.2  # mm: shorter hatch lines are left out


def hatch(outlines: Sequence[Outline], spacing: float = 3.0, degrees: float = 45.0) -> list[Line]:
    """Return hatch lines `spacing` mm apart within `outlines` (even-odd, so holes stay free).

    The lines lie on one lattice through the origin, so that neighbouring areas hatch alike.
    """
    sides = [side for outline in outlines for side in outline_ink(outline)]
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    reach = [_reach(side, -s, c) for side in sides]
    if not reach:
        return []
    # Half a step off the lattice: corners at round distances are then not touched by a line.
    first = math.ceil(min(r[0] for r in reach) / spacing - 0.5)
    last = math.floor(max(r[1] for r in reach) / spacing - 0.5)
    chords = [chord for side in sides for chord in segments(side)]
    out: list[Line] = []
    for k in range(first, last + 1):
        level = (k + 0.5) * spacing
        near = [side for side, r in zip(sides, reach, strict=True) if r[0] <= level <= r[1]]
        hits = sorted({h for side in near for h in _hits(side, level, c, s)})
        for a, b in pairwise(hits):
            middle = ((a + b) / 2 * c - level * s, (a + b) / 2 * s + level * c)
            if b - a > LEAST and inside(middle, chords):
                out.append(
                    Line((a * c - level * s, a * s + level * c), (b * c - level * s, b * s + level * c), Pen.HATCH)
                )
    return out


def _reach(side: Line | Arc, nx: float, ny: float) -> tuple[float, float]:
    """Return the least and greatest distance of a side along the direction (nx, ny)."""
    if isinstance(side, Line):
        a, b = side.a[0] * nx + side.a[1] * ny, side.b[0] * nx + side.b[1] * ny
        return min(a, b), max(a, b)
    middle = side.centre[0] * nx + side.centre[1] * ny
    return middle - side.radius, middle + side.radius


def _hits(side: Line | Arc, level: float, c: float, s: float) -> list[float]:
    """Return where the hatch line at `level` meets the side, measured along the hatch line."""
    if isinstance(side, Line):
        (ua, va), (ub, vb) = ((p[0] * c + p[1] * s, p[1] * c - p[0] * s) for p in (side.a, side.b))
        if va == vb or not min(va, vb) <= level <= max(va, vb):
            return []
        return [ua + (level - va) * (ub - ua) / (vb - va)]
    u, v = side.centre[0] * c + side.centre[1] * s, side.centre[1] * c - side.centre[0] * s
    square = side.radius**2 - (level - v) ** 2
    if square <= 0:
        return []
    out = []
    turn = math.degrees(math.atan2(s, c))
    for along in (-math.sqrt(square), math.sqrt(square)):
        angle = math.degrees(math.atan2(level - v, along)) + turn
        angle += 360.0 * math.ceil((side.start - angle) / 360.0)
        if angle <= side.end:
            out.append(u + along)
    return out
