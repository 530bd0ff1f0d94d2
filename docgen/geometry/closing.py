"""Lines of a view that end in the air, a little short of another: what stood between went with lines too close to draw."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely

from docgen.geometry.lines import Drawn, Stroke
from docgen.geometry.shapes import Vec2
from docgen.geometry.surfaces import Floats

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
    for k, end in _in_the_air(lines, tree, reach, range(len(lines))):
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
    short = {k for k, s in enumerate(lines) if math.dist(s.a, s.b) < reach * TICK}
    ticks = {k for k, _ in _in_the_air(lines, shapely.STRtree(_shapes(lines)), reach, short)} if short else set()
    return Drawn(tuple(s for k, s in enumerate(lines) if k not in ticks), drawn.hidden)


def _in_the_air(
    lines: Sequence[Stroke], tree: shapely.STRtree, reach: float, which: Collection[int]
) -> list[tuple[int, int]]:
    """Return the loose ends of straight lines, of those in `which`: the line, and 0 for where it begins, 1 for where it ends."""
    ends = Counter(p for s in lines for p in (s.a, s.b))
    alone = [
        (k, end, p)
        for k, s in enumerate(lines)
        if s.arc is None and s.chain < 0 and k in which
        for end, p in enumerate((s.a, s.b))
        if ends[p] == 1
    ]
    points = np.array([p for *_, p in alone], dtype=np.float64).reshape(-1, 2)
    point, line = tree.query(shapely.points(points), predicate="dwithin", distance=reach * TOUCH)
    met = {n for n, k in zip(point.tolist(), line.tolist(), strict=True) if alone[n][0] != k}
    return [(k, end) for n, (k, end, _) in enumerate(alone) if n not in met]


def _shapes(lines: Sequence[Stroke]) -> Floats:
    ends = np.array([(s.a, s.b) for s in lines], dtype=np.float64)
    return np.asarray(shapely.linestrings(ends))


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
