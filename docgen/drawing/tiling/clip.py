"""Ink cut exactly at a rectangle: lines stay lines, arcs stay arcs of the same circle."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from docgen.drawing.placing import Bounds
from docgen.drawing.records import Arc, Area, Line, Path, Point
from docgen.drawing.tiling.ink import Ink, on_arc, segments

TOUCH = 1e-9  # mm: what lies on the rectangle's side counts as inside


def clip(inks: Iterable[Ink], window: Bounds) -> list[Ink]:
    """Return the parts of `inks` that lie in `window` (x low, y low, x high, y high), in their order."""
    out: list[Ink] = []
    for ink in inks:
        if isinstance(ink, Line):
            kept = clip_segment(ink.a, ink.b, window)
            if kept:
                out.append(replace(ink, a=kept[0], b=kept[1]))
        elif isinstance(ink, Path):
            out.extend(_clip_path(ink, window))
        elif isinstance(ink, Arc):
            out.extend(clip_arc(ink, window))
        else:
            rings = tuple(r for r in (_clip_ring(ring, window) for ring in ink.rings) if len(r) > 2)
            if rings:
                out.append(Area(rings, ink.tone))
    return out


def clip_segment(a: Point, b: Point, window: Bounds) -> tuple[Point, Point] | None:
    """Return the part of the straight line from `a` to `b` within `window`, None if there is none.

    Parametric clipping against the four sides in turn (Liang and Barsky, from memory).
    """
    low, high = 0.0, 1.0
    d = (b[0] - a[0], b[1] - a[1])
    for axis in (0, 1):
        first, last = window[axis] - TOUCH, window[axis + 2] + TOUCH
        if d[axis] == 0:
            if not first <= a[axis] <= last:
                return None
            continue
        enter, leave = sorted(((first - a[axis]) / d[axis], (last - a[axis]) / d[axis]))
        low, high = max(low, enter), min(high, leave)
    if low > high:
        return None
    start = a if low == 0.0 else (a[0] + low * d[0], a[1] + low * d[1])
    end = b if high == 1.0 else (a[0] + high * d[0], a[1] + high * d[1])
    if math.dist(start, end) <= 2 * TOUCH < math.dist(a, b):
        return None  # touches a corner only
    return start, end


def _clip_path(path: Path, window: Bounds) -> list[Ink]:
    chains: list[list[Point]] = []
    for a, b in segments(path):
        kept = clip_segment(a, b, window)
        if kept is None:
            continue
        if chains and chains[-1][-1] == kept[0]:
            chains[-1].append(kept[1])
        else:
            chains.append([kept[0], kept[1]])
    if path.closed and len(chains) == 1 and chains[0] == [*path.points, path.points[0]]:
        return [path]
    if path.closed and len(chains) > 1 and chains[-1][-1] == chains[0][0]:
        chains[0] = chains.pop() + chains[0][1:]
    return [replace(path, points=tuple(c), closed=False) for c in chains]


def crossings(arc: Arc, axis: int, at: float) -> list[float]:
    """Return the angles within the arc at which its coordinate on `axis` equals `at`."""
    ratio = (at - arc.centre[axis]) / arc.radius
    if abs(ratio) > 1:
        return []
    base = math.degrees(math.acos(ratio)) if axis == 0 else math.degrees(math.asin(ratio))
    both = (base, -base) if axis == 0 else (base, 180.0 - base)
    out = []
    for angle in both:
        turned = angle + 360.0 * math.ceil((arc.start - angle) / 360.0)
        while turned <= arc.end:
            out.append(turned)
            turned += 360.0
    return out


def clip_arc(arc: Arc, window: Bounds) -> list[Arc]:
    """Return the parts of `arc` within `window`; a full circle that is cut comes back as open arcs."""
    cuts = {arc.start, arc.end}
    for side in range(4):
        cuts.update(crossings(arc, side % 2, window[side]))
    angles = sorted(cuts)
    spans: list[list[float]] = []
    for a, b in itertools.pairwise(angles):
        x, y = on_arc(arc, (a + b) / 2)
        if not (window[0] - TOUCH <= x <= window[2] + TOUCH and window[1] - TOUCH <= y <= window[3] + TOUCH):
            continue
        if spans and spans[-1][1] == a:
            spans[-1][1] = b
        else:
            spans.append([a, b])
    whole_turn = arc.end - arc.start >= 360.0 - 1e-12
    if whole_turn and len(spans) > 1 and spans[0][0] == arc.start and spans[-1][1] == arc.end:
        spans[0][0] = spans.pop()[0] - 360.0
    return [arc if (a, b) == (arc.start, arc.end) else replace(arc, start=a, end=b) for a, b in spans]


def _clip_ring(ring: Sequence[Point], window: Bounds) -> tuple[Point, ...]:
    """Cut a polygon by the four sides in turn (Sutherland and Hodgman, from memory)."""
    points = list(ring)
    for side in range(4):
        axis, low = side % 2, side < 2
        limit = window[side]

        def within(p: Point, axis: int = axis, low: bool = low, limit: float = limit) -> bool:
            return p[axis] >= limit if low else p[axis] <= limit

        kept: list[Point] = []
        for a, b in zip(points, points[1:] + points[:1], strict=True):
            if within(a):
                kept.append(a)
            if within(a) != within(b):
                t = (limit - a[axis]) / (b[axis] - a[axis])
                kept.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
        points = kept
        if not points:
            return ()
    return tuple(points)
