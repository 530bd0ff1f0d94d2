"""Rectangles at any angle on paper, and what touches them. Millimetres, degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.drawing.records import Point

EPS = 1e-9


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle about (`x`, `y`), `half_w` to both sides along `angle` and `half_h` square to it."""

    x: float
    y: float
    half_w: float
    half_h: float
    angle: float = 0.0

    @property
    def upright(self) -> bool:
        """True when its sides are level and plumb."""
        return self.angle % 90 == 0

    @staticmethod
    def between(x0: float, y0: float, x1: float, y1: float) -> Box:
        """Return the upright rectangle between two corners."""
        return Box((x0 + x1) / 2, (y0 + y1) / 2, abs(x1 - x0) / 2, abs(y1 - y0) / 2)

    def grown(self, by: float) -> Box:
        """Return the rectangle made larger by `by` on all sides."""
        return Box(self.x, self.y, self.half_w + by, self.half_h + by, self.angle)

    def point(self, along: float, square: float) -> Point:
        """Return the point at (`along`, `square`) from the middle, in the rectangle's own directions."""
        if self.angle == 0:
            return (self.x + along, self.y + square)
        c, s = cosine(self.angle), cosine(self.angle - 90)
        return (self.x + along * c - square * s, self.y + along * s + square * c)

    def inside(self, p: Point) -> Point:
        """Return `p` as seen from the middle, in the rectangle's own directions."""
        if self.angle == 0:
            return (p[0] - self.x, p[1] - self.y)
        c, s = cosine(self.angle), cosine(self.angle - 90)
        dx, dy = p[0] - self.x, p[1] - self.y
        return (dx * c + dy * s, dy * c - dx * s)

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return the corners, counter-clockwise from the lower left."""
        w, h = self.half_w, self.half_h
        return (self.point(-w, -h), self.point(w, -h), self.point(w, h), self.point(-w, h))

    def bounds(self) -> tuple[float, float, float, float]:
        """Return (x low, y low, x high, y high) of the upright rectangle around it."""
        if self.upright:
            x, y, w, h = self.x, self.y, self.half_w, self.half_h
            if self.angle % 180:
                w, h = h, w
            return (x - w, y - h, x + w, y + h)
        xs = [p[0] for p in self.corners()]
        ys = [p[1] for p in self.corners()]
        return (min(xs), min(ys), max(xs), max(ys))


def cosine(degrees: float) -> float:
    """Return the cosine, exact at the quarter turns so that upright things stay upright."""
    quarter = degrees % 360
    if quarter % 90 == 0:
        return (1.0, 0.0, -1.0, 0.0)[int(quarter // 90) % 4]  # a hair under 0 leaves 360
    return math.cos(math.radians(degrees))


def overlap(a: Box, b: Box) -> bool:
    """Return True when two rectangles share more than a line (separating axes)."""
    if a.upright and b.upright:
        p, q = a.bounds(), b.bounds()
        level = min(p[2], q[2]) - max(p[0], q[0]) > EPS
        return level and min(p[3], q[3]) - max(p[1], q[1]) > EPS
    for first, second in ((a, b), (b, a)):
        seen = [first.inside(p) for p in second.corners()]
        if max(p[0] for p in seen) <= -first.half_w + EPS or min(p[0] for p in seen) >= first.half_w - EPS:
            return False
        if max(p[1] for p in seen) <= -first.half_h + EPS or min(p[1] for p in seen) >= first.half_h - EPS:
            return False
    return True


def inside_length(box: Box, a: Point, b: Point, grown: float = 0.0) -> float:
    """Return how much of the line from `a` to `b` runs inside the rectangle made larger by `grown`, mm.

    By Liang and Barsky's clipping.
    """
    w, h = box.half_w + grown, box.half_h + grown
    if box.angle % 90 == 0:
        x, y = box.x, box.y
        if box.angle % 180:
            w, h = h, w
        return _clipped(a, b, x - w, y - h, x + w, y + h)
    return _clipped(box.inside(a), box.inside(b), -w, -h, w, h)


def _clipped(a: Point, b: Point, low_x: float, low_y: float, high_x: float, high_y: float) -> float:
    (x0, y0), (x1, y1) = a, b
    if (x0 < low_x and x1 < low_x) or (x0 > high_x and x1 > high_x):
        return 0.0
    if (y0 < low_y and y1 < low_y) or (y0 > high_y and y1 > high_y):
        return 0.0
    dx, dy = x1 - x0, y1 - y0
    t0, t1 = 0.0, 1.0
    for p, q in ((-dx, x0 - low_x), (dx, high_x - x0), (-dy, y0 - low_y), (dy, high_y - y0)):
        if abs(p) < EPS:
            if q <= EPS:
                return 0.0
        elif p < 0:
            t0 = max(t0, q / p)
        else:
            t1 = min(t1, q / p)
    return (t1 - t0) * math.hypot(dx, dy) if t1 > t0 else 0.0


def crossing(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Return True when two lines cross at a point inside both, not when they only touch or run together."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    if (ux * (cy - ay) - uy * (cx - ax)) * (ux * (dy - ay) - uy * (dx - ax)) >= -EPS:
        return False
    return (vx * (ay - cy) - vy * (ax - cx)) * (vx * (by - cy) - vy * (bx - cx)) < -EPS


def together(a: Point, b: Point, c: Point, d: Point, near: float) -> bool:
    """Return True when two lines run side by side, closer than `near`, over more than `near` of their length."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    n = math.hypot(dx, dy)
    m = math.hypot(d[0] - c[0], d[1] - c[1])
    if n < EPS or m < EPS:
        return False
    ux, uy = dx / n, dy / n
    if abs(ux * (d[1] - c[1]) - uy * (d[0] - c[0])) > 0.05 * m:
        return False
    cx, cy, dx, dy = c[0] - a[0], c[1] - a[1], d[0] - a[0], d[1] - a[1]
    if abs(ux * cy - uy * cx) > near and abs(ux * dy - uy * dx) > near:
        return False
    low, high = ux * cx + uy * cy, ux * dx + uy * dy
    if low > high:
        low, high = high, low
    return min(n, high) - max(0.0, low) > near


def readable(degrees: float) -> float:
    """Return the angle, turned by half a turn if need be, at which text reads from below or from the right."""
    angle = degrees % 180
    return angle - 180 if angle > 90 + 1e-6 else angle
