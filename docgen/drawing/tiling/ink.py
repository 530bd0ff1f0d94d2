"""What a true-size drawing is made of: lines, paths, arcs and areas on endless paper, in millimetres.

Text is no ink: it is placed anew on each tile, so that it is never cut.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

from docgen.drawing.placing import Bounds, arc_bounds, around, point_bounds
from docgen.drawing.records import Arc, Area, Line, Path, Pen, Point
from docgen.geometry.shapes import Outline

Ink: TypeAlias = Line | Path | Arc | Area
Segment: TypeAlias = tuple[Point, Point]

SAG = 0.02  # mm by which a chord may leave its arc where only room is looked for


def on_arc(arc: Arc, degrees: float) -> Point:
    """Return the point of the arc's circle at `degrees`."""
    a = math.radians(degrees)
    return (arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a))


def segments(ink: Ink, sag: float = SAG) -> Iterator[Segment]:
    """Yield the straight pieces of `ink`; arcs as chords that leave them by at most `sag`."""
    if isinstance(ink, Line):
        yield ink.a, ink.b
    elif isinstance(ink, Path):
        yield from zip(ink.points, ink.points[1:], strict=False)
        if ink.closed and len(ink.points) > 1:
            yield ink.points[-1], ink.points[0]
    elif isinstance(ink, Arc):
        sweep = ink.end - ink.start
        step = 2 * math.degrees(math.acos(max(0.0, 1 - sag / ink.radius))) if ink.radius > sag else 90.0
        n = max(1, math.ceil(sweep / step))
        points = [on_arc(ink, ink.start + sweep * i / n) for i in range(n + 1)]
        yield from itertools.pairwise(points)
    else:
        for ring in ink.rings:
            yield from zip(ring, ring[1:] + ring[:1], strict=True)


def bounds_of(inks: Iterable[Ink]) -> Bounds:
    """Return the exact bounds of `inks`; ValueError when there are none."""
    return around(
        arc_bounds(ink) if isinstance(ink, Arc) else point_bounds(p for s in segments(ink) for p in s) for ink in inks
    )


def outline_ink(outline: Outline, pen: Pen = Pen.VISIBLE) -> tuple[Line | Arc, ...]:
    """Return the outline's sides in order as lines and counter-clockwise arcs."""
    out: list[Line | Arc] = []
    start = outline.edges[-1].end
    for edge in outline.edges:
        if edge.centre is None:
            if edge.end != start:
                out.append(Line(start, edge.end, pen))
        else:
            out.append(_arc(start, edge.end, edge.centre, edge.ccw, pen))
        start = edge.end
    return tuple(out)


def _arc(start: Point, end: Point, centre: Point, ccw: bool, pen: Pen) -> Arc:
    radius = math.hypot(start[0] - centre[0], start[1] - centre[1])
    a = math.degrees(math.atan2(start[1] - centre[1], start[0] - centre[0]))
    b = math.degrees(math.atan2(end[1] - centre[1], end[0] - centre[0]))
    if math.hypot(end[0] - start[0], end[1] - start[1]) < 1e-9:
        return Arc(centre, radius, 0.0, 360.0, pen)
    low, high = (a, b) if ccw else (b, a)
    low %= 360.0
    high %= 360.0
    return Arc(centre, radius, low, high if high > low else high + 360.0, pen)


def inside(point: Point, boundary: Sequence[Segment]) -> bool:
    """Return whether `point` lies within the closed curves made of `boundary` (even-odd)."""
    x, y = point
    odd = False
    for (ax, ay), (bx, by) in boundary:
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def off(p: Point, chords: Sequence[Segment]) -> float:
    """Return how far a point lies from the nearest of the chords, mm."""
    best = math.inf
    for (ax, ay), (bx, by) in chords:
        dx, dy = bx - ax, by - ay
        long = dx * dx + dy * dy
        t = min(1.0, max(0.0, ((p[0] - ax) * dx + (p[1] - ay) * dy) / long)) if long else 0.0
        best = min(best, math.dist(p, (ax + t * dx, ay + t * dy)))
    return best
