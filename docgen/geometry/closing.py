"""Lines of a view that end in the air, a little short of another: what stood between went with lines too close to draw."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely

from docgen.geometry.lines import Drawn, Stroke
from docgen.geometry.shapes import Vec2
from docgen.geometry.surfaces import Bools, Floats

TOUCH = 0.15  # of the reach: an end that lies so near to another line meets it
TICK = 0.35  # of the reach: a line so short with an end in the air shows nothing
ASIDE = 0.06  # of the reach: a line whose end lies so near beside the way is met there


def closed(drawn: Drawn, reach: float) -> Drawn:
    """Return a view whose visible straight lines run on, up to `reach` mm, to the line that they stop short of.

    So the arris of an edge runs past the mouth of a groove that is too narrow to be drawn. What is short and ends in the air
    even so is left out.
    """
    if not drawn.visible:
        return drawn
    lines = list(drawn.visible)
    tree = shapely.STRtree(_shapes(lines))
    for k, end in _in_the_air(lines, reach):
        s = lines[k]
        a, b = (s.b, s.a) if end == 0 else (s.a, s.b)
        long = math.dist(a, b)
        way = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
        ray = shapely.LineString([b, (b[0] + reach * way[0], b[1] + reach * way[1])])
        others = [lines[n] for n in tree.query(ray).tolist() if n != k]
        far = min(_hits(b, way, others, reach * ASIDE), default=math.inf)
        if far <= reach:
            tip = (b[0] + far * way[0], b[1] + far * way[1])
            lines[k] = replace(s, a=tip) if end == 0 else replace(s, b=tip)
    left = _loose(lines, shapely.STRtree(_shapes(lines)), reach * TOUCH)
    kept = (s for s, ends in zip(lines, left, strict=True) if not ends.any() or math.dist(s.a, s.b) >= reach * TICK)
    return Drawn(tuple(kept), drawn.hidden)


def _in_the_air(lines: Sequence[Stroke], reach: float) -> list[tuple[int, int]]:
    """Return the loose ends: the line, and 0 for where it begins, 1 for where it ends."""
    loose = _loose(lines, shapely.STRtree(_shapes(lines)), reach * TOUCH)
    return [(int(k), int(end)) for k, end in np.argwhere(loose)]


def _shapes(lines: Sequence[Stroke]) -> Floats:
    ends = np.array([(s.a, s.b) for s in lines], dtype=np.float64)
    return np.asarray(shapely.linestrings(ends))


def _loose(lines: Sequence[Stroke], tree: shapely.STRtree, near: float) -> Bools:
    """Return for both ends of each line, shape (n, 2), whether it is a straight one and no other comes `near` that end."""
    ends = np.array([(s.a, s.b) for s in lines], dtype=np.float64).reshape(-1, 2)
    point, line = tree.query(shapely.points(ends), predicate="dwithin", distance=near)
    met = np.zeros(len(ends), dtype=np.bool_)
    met[point[line != point // 2]] = True
    straight = np.array([s.arc is None and s.chain < 0 for s in lines])
    out: Bools = ~met.reshape(-1, 2) & straight[:, None]
    return out


def _hits(p: Vec2, way: Vec2, lines: Iterable[Stroke], aside: float) -> Iterator[float]:
    """Yield how far along a ray from `p` it meets each line, or passes its end no further than `aside`."""
    for s in lines:
        (u, v), (x, y) = (_along(q, p, way) for q in (s.a, s.b))
        ends = [t for t, off in ((u, v), (x, y)) if abs(off) <= aside]
        if not ends and v * y < 0:
            ends = [u + (x - u) * v / (v - y)]
        yield from (t for t in ends if t >= 0)


def _along(q: Vec2, p: Vec2, way: Vec2) -> Vec2:
    """Return how far a point lies along a way from `p`, and off it to the right."""
    x, y = q[0] - p[0], q[1] - p[1]
    return x * way[0] + y * way[1], x * way[1] - y * way[0]
