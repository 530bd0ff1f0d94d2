"""The signs of a template: centres to prick, centres that are only checked, and break lines."""

from __future__ import annotations

import math

from docgen.drawing.records import Arc, Line, Path, Pen, Point
from docgen.drawing.tiling.ink import Ink

CROSS = 4.0  # mm that a centre mark reaches beyond its hole
OPEN = 1.2  # mm about a centre that stay free where nothing is to be pricked
QUARTERS = ((1, 0), (0, 1), (-1, 0), (0, -1))
ZIG = 4.0  # mm of a break line's tooth


def centre_mark(at: Point, radius: float, sunk: float) -> list[Ink]:
    """Return a hole's circle and that of its counterbore or countersink, with a cross through both."""
    reach = max(radius, sunk) + CROSS
    x, y = at
    return [
        *(Arc(at, r, 0.0, 360.0, Pen.THIN) for r in (radius, sunk) if r),
        Line((x - reach, y), (x + reach, y), Pen.THIN),
        Line((x, y - reach), (x, y + reach), Pen.THIN),
    ]


def check_mark(at: Point, radius: float) -> list[Ink]:
    """Return a dashed circle with a cross that is open in the middle: there is nothing to prick."""
    x, y = at
    near, far = max(OPEN, 0.4 * radius), radius + CROSS
    spokes = [Line((x + i * near, y + j * near), (x + i * far, y + j * far), Pen.THIN) for i, j in QUARTERS]
    return [Arc(at, max(radius, 2 * OPEN), 0.0, 360.0, Pen.HIDDEN), *spokes]


def zigzag(a: Point, b: Point) -> Path:
    """Return a break line from `a` to `b` with two teeth in the middle."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length

    def at(along: float, across: float) -> Point:
        return (a[0] + along * ux - across * uy, a[1] + along * uy + across * ux)

    m, z = length / 2, min(ZIG, length / 6)
    return Path((at(0, 0), at(m - z, 0), at(m - z / 2, z), at(m + z / 2, -z), at(m + z, 0), at(length, 0)), Pen.BREAK)
