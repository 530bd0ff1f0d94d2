"""Break lines, and long members drawn shorter by what has nothing on it; figures stay true."""

from __future__ import annotations

import math

from docgen.drawing.records import Path, Pen, Point

ZIG = 2.0  # mm: height of a zigzag
ZAG = 1.4  # mm: half its length
OVER = 1.5  # mm: a break line reaches past the outline
APART = 28.0  # mm between the zigzags of one line


def zigzag(a: Point, b: Point, over: float = OVER) -> list[Path]:
    """Return the thin continuous line with zigzags that ends what is broken off from `a` to `b` (ISO 128-2, line 01.1.19)."""
    long = math.dist(a, b)
    if long < 1e-6:
        return []
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long

    def at(along: float, square: float) -> Point:
        return (a[0] + along * ux - square * uy, a[1] + along * uy + square * ux)

    points = [at(-over, 0.0)]
    count = max(1, round(long / APART))
    for k in range(count):
        middle = long * (k + 0.5) / count
        zag = min(ZAG, long / (3 * count))
        points += [at(middle - zag, 0.0), at(middle - zag / 3, ZIG), at(middle + zag / 3, -ZIG), at(middle + zag, 0.0)]
    points.append(at(long + over, 0.0))
    return [Path(tuple(points), Pen.BREAK)]
