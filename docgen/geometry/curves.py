"""Curves as runs of true arcs and straight lines that meet without a corner: arcs through points, ellipses, smooth curves.

A solid's walls, a template's line and a drawing of the machine's size are then all made of arcs. A curve that is no
circle is followed by pairs of arcs (biarcs) within `TOLERANCE`. Millimetres; a run is the edges after its start.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from docgen.geometry.shapes import Edge, Outline, Vec2

TOLERANCE = 0.005
"""How far the arcs may leave the curve that they follow, mm: half of what flattening leaves."""

FLAT = 1e-4  # mm; an arc that rises less is drawn straight
DEEPEST = 12  # halvings of one piece of a curve
LOOKED = 8  # points of a piece that are compared with its arcs

Run: TypeAlias = tuple[Edge, ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """A curve by its point and its direction (not of length one) at each parameter from `low` to `high`."""

    point: Callable[[float], Vec2]
    direction: Callable[[float], Vec2]
    low: float = 0.0
    high: float = 1.0


def circle_through(a: Vec2, b: Vec2, c: Vec2) -> tuple[Vec2, float] | None:
    """Return the centre and radius of the circle through three points, None when they lie on a straight line."""
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    double = 2 * (bx * cy - by * cx)
    if abs(double) < 1e-9 * max(1.0, math.hypot(bx, by) * math.hypot(cx, cy)):
        return None
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    x, y = (cy * b2 - by * c2) / double, (bx * c2 - cx * b2) / double
    return (a[0] + x, a[1] + y), math.hypot(x, y)


def arc_through(a: Vec2, b: Vec2, c: Vec2) -> Run:
    """Return the arc from `a` over `b` to `c`; straight when they lie on a line."""
    found = circle_through(a, b, c)
    if found is None:
        return (Edge(c),)
    turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    return (Edge(c, found[0], turn > 0),)


def ellipse(centre: Vec2, half: Vec2, start: float, stop: float) -> Run:
    """Return the run on an axis-parallel ellipse with the half axes `half`, from one angle to another, degrees.

    Angles are those of the parameter: 0 on the +x axis, 90 on the +y axis. Equal half axes give true arcs.
    """
    (cx, cy), (rx, ry) = centre, half
    ccw = stop > start
    way = 1.0 if ccw else -1.0

    def point(t: float) -> Vec2:
        c, s = _turn(t)
        return (cx + rx * c, cy + ry * s)

    def direction(t: float) -> Vec2:
        c, s = _turn(t)
        return (-way * rx * s, way * ry * c)

    out: list[Edge] = []
    for low, high in pairwise(_quarters(start, stop)):
        if abs(rx - ry) < 1e-9:
            out.append(Edge(point(high), centre, ccw))
        else:
            out.extend(fitted(Curve(point, direction, low, high)))
    return tuple(out)


def ellipse_outline(centre: Vec2, half: Vec2) -> Outline:
    """Return the whole ellipse, counter-clockwise; a circle is one edge."""
    if abs(half[0] - half[1]) < 1e-9:
        return Outline.circle(centre, half[0])
    return Outline(ellipse(centre, half, 0.0, 360.0))


def bezier(a: Vec2, b: Vec2, c: Vec2, d: Vec2) -> Run:
    """Return the run along the cubic curve from `a` to `d` that is drawn toward `b` and comes in from `c`.

    Where all four lie on a line it is straight to `d`: what runs out on the line and back bounds nothing.
    """
    far = max((b, c, d), key=lambda p: math.dist(a, p))
    if max(_off(p, a, far) for p in (b, c, d)) < FLAT:
        return (Edge(d),)

    def point(t: float) -> Vec2:
        s = 1 - t
        w = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
        return tuple(w[0] * a[i] + w[1] * b[i] + w[2] * c[i] + w[3] * d[i] for i in (0, 1))  # type: ignore[return-value]

    def direction(t: float) -> Vec2:
        s = 1 - t
        x, y = (s * s * (b[i] - a[i]) + 2 * s * t * (c[i] - b[i]) + t * t * (d[i] - c[i]) for i in (0, 1))
        if math.hypot(x, y) > 1e-9:
            return (x, y)
        # A handle of no length: the curve starts or ends toward the other handle.
        return (c[0] - a[0], c[1] - a[1]) if t < 0.5 else (d[0] - b[0], d[1] - b[1])

    return fitted(Curve(point, direction))


def batten(points: Sequence[Vec2]) -> Run:
    """Return the run of a thin batten bent round pins: the natural cubic spline through `points` over their chords.

    A thin batten takes the shape of least bending; for slight bends that is the cubic spline with straight ends.
    Two points give a straight line.
    """
    if len(points) == 2:
        return (Edge(points[1]),)
    steps = [math.dist(a, b) for a, b in pairwise(points)]
    if min(steps) < 1e-6:
        raise ValueError("two points of the curve are one")
    slopes = tuple(zip(*(natural_slopes([p[i] for p in points], steps) for i in (0, 1)), strict=True))
    out: list[Edge] = []
    for k, h in enumerate(steps):
        a, d = points[k], points[k + 1]
        (ax, ay), (dx, dy) = slopes[k], slopes[k + 1]
        b: Vec2 = (a[0] + ax * h / 3, a[1] + ay * h / 3)
        c: Vec2 = (d[0] - dx * h / 3, d[1] - dy * h / 3)
        out.extend(bezier(a, b, c, d))
    return tuple(out)


def natural_slopes(values: Sequence[float], steps: Sequence[float]) -> list[float]:
    """Return the slopes at the points of the natural cubic spline through `values` (no bend at its ends)."""
    n = len(values)
    rise = [(values[k + 1] - values[k]) / steps[k] for k in range(n - 1)]
    # Slopes m: h₁·m₀ + 2(h₀+h₁)·m₁ + h₀·m₂ = 3(h₁·r₀ + h₀·r₁); at the ends 2·m₀ + m₁ = 3·r₀. Solved from top to bottom.
    low, main, high = [0.0] * n, [2.0] * n, [0.0] * n
    right = [0.0] * n
    high[0], right[0] = 1.0, 3 * rise[0]
    low[-1], right[-1] = 1.0, 3 * rise[-1]
    for k in range(1, n - 1):
        before, after = steps[k - 1], steps[k]
        low[k], main[k], high[k] = after, 2 * (before + after), before
        right[k] = 3 * (after * rise[k - 1] + before * rise[k])
    for k in range(1, n):
        w = low[k] / main[k - 1]
        main[k] -= w * high[k - 1]
        right[k] -= w * right[k - 1]
    out = [0.0] * n
    out[-1] = right[-1] / main[-1]
    for k in range(n - 2, -1, -1):
        out[k] = (right[k] - high[k] * out[k + 1]) / main[k]
    return out


def fitted(curve: Curve, tolerance: float = TOLERANCE) -> Run:
    """Return arcs and lines along `curve`, tangent to it at their joins, within `tolerance` mm."""
    return tuple(_fitted(curve, curve.low, curve.high, tolerance, DEEPEST))


def _fitted(curve: Curve, low: float, high: float, tolerance: float, left: int) -> list[Edge]:
    a, b = curve.point(low), curve.point(high)
    if math.dist(a, b) < 1e-6 and left < DEEPEST:
        return []
    pair = biarc(a, _unit(curve.direction(low)), b, _unit(curve.direction(high)))
    if left == 0 or (pair is not None and _near(curve, low, high, a, pair, tolerance)):
        return list(pair or (Edge(b),))
    middle = (low + high) / 2
    return [*_fitted(curve, low, middle, tolerance, left - 1), *_fitted(curve, middle, high, tolerance, left - 1)]


def biarc(a: Vec2, ta: Vec2, b: Vec2, tb: Vec2) -> Run | None:
    """Return two arcs from `a` along `ta` to `b` arriving along `tb` (unit vectors), None when there are none.

    Both arcs have equal tangent lengths d, from |b − a − d(ta + tb)| = 2d; they meet halfway between the tangents' tips.
    """
    v = (b[0] - a[0], b[1] - a[1])
    t = (ta[0] + tb[0], ta[1] + tb[1])
    vv, vt = v[0] * v[0] + v[1] * v[1], v[0] * t[0] + v[1] * t[1]
    k = 2 * (1 - (ta[0] * tb[0] + ta[1] * tb[1]))
    if k < 1e-12:
        along = v[0] * tb[0] + v[1] * tb[1]
        if along <= 1e-12:
            return None
        d = vv / (4 * along)
    else:
        root = vt * vt + k * vv
        d = (-vt + math.sqrt(root)) / k
    if d <= 1e-12:
        return None
    p = (a[0] + d * ta[0], a[1] + d * ta[1])
    q = (b[0] - d * tb[0], b[1] - d * tb[1])
    m = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    return _tangent_arc(a, ta, m), _tangent_arc(b, (-tb[0], -tb[1]), m, backward_to=b)


def _tangent_arc(start: Vec2, way: Vec2, end: Vec2, *, backward_to: Vec2 | None = None) -> Edge:
    """Return the arc that leaves `start` along `way` and ends at `end`; with `backward_to` run from `end` to `start`."""
    chord = (end[0] - start[0], end[1] - start[1])
    side = way[0] * chord[1] - way[1] * chord[0]
    length2 = chord[0] * chord[0] + chord[1] * chord[1]
    goal = end if backward_to is None else backward_to
    if abs(side) < min(4 * FLAT, 0.005 * math.sqrt(length2)):  # it rises side / 4, and turns by side / length
        return Edge(goal)
    radius = length2 / (2 * side)  # positive: the centre lies to the left
    centre = (start[0] - way[1] * radius, start[1] + way[0] * radius)
    ccw = radius > 0
    return Edge(goal, centre, ccw if backward_to is None else not ccw)


def _near(curve: Curve, low: float, high: float, a: Vec2, pair: Run, tolerance: float) -> bool:
    first, second = pair
    joint, end = first.end, second.end
    # Points are told to the arc on whose side of the joint they lie.
    across = (end[0] - a[0], end[1] - a[1])
    for k in range(1, LOOKED):
        p = curve.point(low + (high - low) * k / LOOKED)
        before = (p[0] - joint[0]) * across[0] + (p[1] - joint[1]) * across[1] < 0
        if _distance(p, a, first) > tolerance if before else _distance(p, joint, second) > tolerance:
            return False
    # An arc that turns far more than the curve goes the wrong way round.
    return _turning(a, first) + _turning(joint, second) < math.pi


def _distance(p: Vec2, start: Vec2, edge: Edge) -> float:
    if edge.centre is None:
        return _off(p, start, edge.end)
    return abs(math.dist(p, edge.centre) - math.dist(start, edge.centre))


def _turning(start: Vec2, edge: Edge) -> float:
    if edge.centre is None:
        return 0.0
    c = edge.centre
    a = math.atan2(start[1] - c[1], start[0] - c[0])
    b = math.atan2(edge.end[1] - c[1], edge.end[0] - c[0])
    return (b - a if edge.ccw else a - b) % math.tau


def _off(p: Vec2, a: Vec2, b: Vec2) -> float:
    """Return how far `p` lies from the line through `a` and `b`."""
    x, y = b[0] - a[0], b[1] - a[1]
    n = math.hypot(x, y)
    return math.dist(p, a) if n < 1e-12 else abs((p[0] - a[0]) * y - (p[1] - a[1]) * x) / n


def _unit(v: Vec2) -> Vec2:
    n = math.hypot(v[0], v[1])
    return (v[0] / n, v[1] / n)


def _turn(degrees: float) -> Vec2:
    """Return the cosine and sine of an angle, exact at the quarters."""
    quarter = degrees / 90
    if quarter == round(quarter):
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    return (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))


def _quarters(start: float, stop: float) -> list[float]:
    low, high = min(start, stop), max(start, stop)
    inside = [90.0 * k for k in range(math.ceil(low / 90), math.floor(high / 90) + 1) if low < 90.0 * k < high]
    every = [low, *inside, high]
    return every if stop > start else every[::-1]
