"""Boxes that lean: how far apart two parts' own boxes stand, by the fifteen axes that can part two boxes."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.geometry.make import cross
from docgen.geometry.shapes import Frame, Vec

PARALLEL = 1e-9


@dataclass(frozen=True, slots=True)
class Oriented:
    """A box by its middle, the directions of its three edges and half their lengths, mm."""

    middle: Vec
    axes: tuple[Vec, Vec, Vec]
    half: Vec

    @staticmethod
    def of(low: Vec, high: Vec, frame: Frame) -> Oriented:
        """Return the box between two corners in the inner axes of `frame`, where the frame places it."""
        middle = frame.point(((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2))
        r = frame.rotation
        axes = ((r[0][0], r[1][0], r[2][0]), (r[0][1], r[1][1], r[2][1]), (r[0][2], r[1][2], r[2][2]))
        return Oriented(middle, axes, ((high[0] - low[0]) / 2, (high[1] - low[1]) / 2, (high[2] - low[2]) / 2))

    def moved(self, frame: Frame) -> Oriented:
        """Return the box placed once more."""
        a, b, c = self.axes
        axes = (frame.direction(a), frame.direction(b), frame.direction(c))
        return Oriented(frame.point(self.middle), axes, self.half)

    def bounds(self) -> tuple[Vec, Vec]:
        """Return the low and high corners of the upright box around this one."""
        (ax, bx, cx), (h0, h1, h2), m = self.axes, self.half, self.middle
        reach = [abs(ax[i]) * h0 + abs(bx[i]) * h1 + abs(cx[i]) * h2 for i in range(3)]
        low = (m[0] - reach[0], m[1] - reach[1], m[2] - reach[2])
        return low, (m[0] + reach[0], m[1] + reach[1], m[2] + reach[2])


def apart(a: Oriented, b: Oriented) -> float:
    """Return how far two boxes stand apart, mm, along the axis that parts them best; below 0 they run into each other.

    Between corners it is less than the true distance, never more; from 0 on the boxes do not share any room.
    """
    between = (b.middle[0] - a.middle[0], b.middle[1] - a.middle[1], b.middle[2] - a.middle[2])
    best = -float("inf")
    for axis in (*a.axes, *b.axes):
        best = max(best, _gap(a, b, between, axis))
    if best > 0:
        return best
    for p in a.axes:
        for q in b.axes:
            axis = cross(p, q)
            size = axis[0] * axis[0] + axis[1] * axis[1] + axis[2] * axis[2]
            if size > PARALLEL:
                by = size**-0.5
                best = max(best, _gap(a, b, between, (axis[0] * by, axis[1] * by, axis[2] * by)))
    return best


def _gap(a: Oriented, b: Oriented, between: Vec, axis: Vec) -> float:
    x, y, z = axis
    reach = 0.0
    for box in (a, b):
        p, q, r = box.axes
        h = box.half
        reach += abs(p[0] * x + p[1] * y + p[2] * z) * h[0]
        reach += abs(q[0] * x + q[1] * y + q[2] * z) * h[1]
        reach += abs(r[0] * x + r[1] * y + r[2] * z) * h[2]
    return abs(between[0] * x + between[1] * y + between[2] * z) - reach
