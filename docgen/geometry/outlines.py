"""Measuring, moving and flattening flat outlines; arcs stay true arcs wherever they can."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

import shapely
from shapely.validation import explain_validity

from docgen.geometry.shapes import Edge, Outline, Vec2

Box2: TypeAlias = tuple[Vec2, Vec2]

SAG = 0.01  # mm between an arc and its chords: a tenth of the finest line on paper
LEAST_ROUND = 96  # segments of a full circle; area then 0.07 % under the true one
ROUND_PART = 8.0  # mm; from this radius on a full circle takes 96 chords at least
LEAST_HOLE = 32  # chords of the smallest hole
SAME_POINT = 1e-9  # mm; two ends closer than this are one point


def pieces(outline: Outline) -> Iterator[tuple[Vec2, Edge]]:
    """Yield (start, edge) for each piece of `outline` in order."""
    start = outline.edges[-1].end
    for edge in outline.edges:
        yield start, edge
        start = edge.end


def sweep(start: Vec2, edge: Edge) -> tuple[float, float, float]:
    """Return (radius mm, angle of the start, signed angle swept), both in radians; ValueError for a straight edge."""
    if edge.centre is None:
        raise ValueError("a straight edge sweeps no angle")
    cx, cy = edge.centre
    a0 = math.atan2(start[1] - cy, start[0] - cx)
    radius = math.hypot(start[0] - cx, start[1] - cy)
    if math.dist(start, edge.end) < SAME_POINT:
        return radius, a0, math.tau if edge.ccw else -math.tau
    a1 = math.atan2(edge.end[1] - cy, edge.end[0] - cx)
    turn = (a1 - a0) % math.tau
    return radius, a0, turn if edge.ccw else turn - math.tau


def on_circle(centre: Vec2, radius: float, angle: float) -> Vec2:
    """Return the point of a circle at `angle` radians, exact at the quarters."""
    quarter = angle / (math.pi / 2)
    if abs(quarter - round(quarter)) < 1e-12:
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    else:
        c, s = math.cos(angle), math.sin(angle)
    return (centre[0] + radius * c, centre[1] + radius * s)


def segments(radius: float, sag: float, least: int) -> int:
    """Return how many chords a full circle takes: a multiple of 4, at least `least`, within `sag` mm of the arc."""
    if radius <= sag:
        return max(4, least + (-least) % 4)
    count = math.ceil(math.pi / math.acos(1 - sag / radius) - 1e-9)
    count = max(count, least)
    return count + (-count) % 4


def flatten_edge(start: Vec2, edge: Edge, sag: float = SAG, least: int = LEAST_ROUND) -> list[Vec2]:
    """Return the points of one edge after `start`, the last being exactly ``edge.end``.

    A part of a circle is broken at the quarters that it passes, so that its extremes are kept; elsewhere
    its chords follow `sag` alone, never coarser than 24 to the full round.
    """
    if edge.centre is None:
        return [edge.end]
    radius, a0, turn = sweep(start, edge)
    if abs(abs(turn) - math.tau) < 1e-12:
        n = segments(radius, sag, least)
        inner = [on_circle(edge.centre, radius, a0 + turn * i / n) for i in range(1, n)]
        return [*inner, edge.end]
    step = math.tau / segments(radius, sag, 24)
    angles: list[float] = []
    stops = _stops(a0, turn)
    for low, high in pairwise(stops):
        n = max(1, math.ceil(abs(high - low) / step - 1e-9))
        angles.extend(low + (high - low) * i / n for i in range(1, n + 1))
    return [*(on_circle(edge.centre, radius, a) for a in angles[:-1]), edge.end]


def least_chords(radius: float) -> int:
    """Return how many chords a full circle of a solid takes at least."""
    return LEAST_ROUND if radius >= ROUND_PART else LEAST_HOLE


def seams(start: Vec2, edge: Edge) -> list[float]:
    """Return the angles about an arc's centre at which the wall of a solid breaks it, degrees, rising."""
    if edge.centre is None:
        raise ValueError("a straight edge has no centre")
    radius, a0, turn = sweep(start, edge)
    cx, cy = edge.centre
    low = a0 if turn > 0 else a0 + turn
    found = [low, low + abs(turn)]
    for x, y in flatten_edge(start, edge, SAG, least_chords(radius))[:-1]:
        angle = math.atan2(y - cy, x - cx)
        found.append(low + (angle - low) % math.tau)
    return [math.degrees(a) for a in sorted(found)]


def _stops(a0: float, turn: float) -> list[float]:
    """Return the angles at which an arc starts, passes a quarter and ends."""
    low, high = min(a0, a0 + turn), max(a0, a0 + turn)
    quarter = math.pi / 2
    first = math.ceil(low / quarter - 1e-9)
    inside = [k * quarter for k in range(first, math.floor(high / quarter + 1e-9) + 1)]
    inside = [a for a in inside if low + 1e-9 < a < high - 1e-9]
    return [a0, *(inside if turn > 0 else inside[::-1]), a0 + turn]


def flatten(outline: Outline, sag: float = SAG, least: int = LEAST_ROUND) -> tuple[Vec2, ...]:
    """Return the corners of a polygon within `sag` mm of `outline`, in its own turning sense.

    A full circle takes a multiple of 4 chords and at least `least`. The first corner is not repeated.
    """
    points: list[Vec2] = []
    for start, edge in pieces(outline):
        points.extend(flatten_edge(start, edge, sag, least))
    return tuple(points)


def bounds(outline: Outline) -> Box2:
    """Return the low and high corners of the box around `outline`; arcs by their true extremes."""
    points: list[Vec2] = []
    for start, edge in pieces(outline):
        points.append(edge.end)
        if edge.centre is not None:
            radius, a0, turn = sweep(start, edge)
            points.extend(on_circle(edge.centre, radius, a) for a in _stops(a0, turn)[1:-1])
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


def signed_area(outline: Outline) -> float:
    """Return the exact area in mm², positive when `outline` runs counter-clockwise."""
    total = 0.0
    for (x0, y0), edge in pieces(outline):
        x1, y1 = edge.end
        total += (x0 * y1 - x1 * y0) / 2
        if edge.centre is not None:
            radius, _, turn = sweep((x0, y0), edge)
            total += radius * radius * (turn - math.sin(turn)) / 2  # the segment between chord and arc
    return total


def area(outline: Outline) -> float:
    """Return the exact area in mm²."""
    return abs(signed_area(outline))


def edge_length(start: Vec2, edge: Edge) -> float:
    """Return the length of one edge in mm."""
    if edge.centre is None:
        return math.dist(start, edge.end)
    radius, _, turn = sweep(start, edge)
    return radius * abs(turn)


def length(outline: Outline) -> float:
    """Return the length all round in mm."""
    return sum(edge_length(start, edge) for start, edge in pieces(outline))


def point_at(outline: Outline, run: float) -> tuple[Vec2, Vec2]:
    """Return the point `run` mm along `outline` from its start, and the direction there (length one).

    `run` wraps round the outline.
    """
    rest = run % length(outline)
    start, edge = outline.edges[-1].end, outline.edges[-1]
    for start, edge in pieces(outline):
        this = edge_length(start, edge)
        if rest <= this and this > 0:
            break
        rest -= this
    if edge.centre is None:
        n = math.dist(start, edge.end)
        d = ((edge.end[0] - start[0]) / n, (edge.end[1] - start[1]) / n)
        return (start[0] + d[0] * rest, start[1] + d[1] * rest), d
    radius, a0, turn = sweep(start, edge)
    sign = math.copysign(1.0, turn)
    angle = a0 + sign * rest / radius
    return on_circle(edge.centre, radius, angle), (-sign * math.sin(angle), sign * math.cos(angle))


def moved(outline: Outline, dx: float, dy: float) -> Outline:
    """Return `outline` shifted."""
    return Outline(
        tuple(
            Edge(
                (e.end[0] + dx, e.end[1] + dy),
                None if e.centre is None else (e.centre[0] + dx, e.centre[1] + dy),
                e.ccw,
            )
            for e in outline.edges
        )
    )


def backward(outline: Outline) -> Outline:
    """Return the same outline run the other way round, from the same start."""
    starts = list(pieces(outline))
    return Outline(tuple(Edge(start, e.centre, not e.ccw) for start, e in reversed(starts)))


def mirrored(outline: Outline, axis: int = 0, at: float = 0.0) -> Outline:
    """Return `outline` with x (`axis` 0) or y (`axis` 1) reflected in the line at `at`.

    The turning sense is kept: what bounded material still runs counter-clockwise.
    """

    def flip(p: Vec2) -> Vec2:
        return (2 * at - p[0], p[1]) if axis == 0 else (p[0], 2 * at - p[1])

    flipped = Outline(
        tuple(Edge(flip(e.end), None if e.centre is None else flip(e.centre), not e.ccw) for e in outline.edges)
    )
    return backward(flipped)


def faults(outline: Outline) -> tuple[str, ...]:
    """Return what is wrong with `outline` in words: arcs that miss their end, no area, crossing itself."""
    told: list[str] = []
    if not outline.edges:
        return ("it has no edges",)
    for start, edge in pieces(outline):
        if edge.centre is not None:
            off = abs(math.dist(start, edge.centre) - math.dist(edge.end, edge.centre))
            if off > 1e-4:
                told.append(f"the arc to ({edge.end[0]:.3f}, {edge.end[1]:.3f}) misses its end by {off:.4f} mm")
        elif math.dist(start, edge.end) < SAME_POINT:
            told.append(f"the edge to ({edge.end[0]:.3f}, {edge.end[1]:.3f}) has no length")
    if told:
        return tuple(told)
    points = flatten(outline)
    if len(points) < 3 or area(outline) < 1e-9:
        return ("it encloses no area",)
    polygon = shapely.Polygon(points)
    if not polygon.is_valid:
        told.append("it crosses itself: " + explain_validity(polygon))
    return tuple(told)


def valid(outline: Outline) -> bool:
    """Return True when `outline` is closed by true arcs, has area and does not cross itself."""
    return not faults(outline)


def contains(outline: Outline, point: Vec2, margin: float = 0.0) -> bool:
    """Return True when `point` lies inside by at least `margin` mm (a negative margin reaches outside)."""
    polygon = shapely.Polygon(flatten(outline))
    p = shapely.Point(point)
    deep = float(polygon.exterior.distance(p))
    return (deep if polygon.covers(p) else -deep) >= margin


def offset(outline: Outline, distance: float) -> tuple[Outline, ...]:
    """Return the outlines `distance` mm outside (negative: inside), flattened, corners rounded; may be none."""
    grown = shapely.Polygon(flatten(outline)).buffer(distance, quad_segs=32)
    parts = grown.geoms if isinstance(grown, shapely.MultiPolygon) else [grown]
    return tuple(ring_outline(list(p.exterior.coords)) for p in parts if not p.is_empty)


def ring_outline(points: Sequence[Vec2]) -> Outline:
    """Return the counter-clockwise outline through `points`; a repeated first point is dropped."""
    ring = list(points[:-1] if math.dist(points[0], points[-1]) < SAME_POINT else points)
    made = Outline.polygon([(p[0], p[1]) for p in ring])
    return made if signed_area(made) > 0 else backward(made)


def nested(outlines: Sequence[Outline]) -> tuple[tuple[Outline, tuple[Outline, ...]], ...]:
    """Return each outer outline with the holes in it; outlines that do not cross, any turning sense."""
    polygons = [shapely.Polygon(flatten(o)) for o in outlines]
    order = sorted(range(len(outlines)), key=lambda i: (-polygons[i].area, i))
    around = {i: [j for j in order if j != i and polygons[j].contains(polygons[i])] for i in order}
    found: list[tuple[Outline, tuple[Outline, ...]]] = []
    for i in order:
        if len(around[i]) % 2 == 0:
            holes = [k for k in order if len(around[k]) == len(around[i]) + 1 and i in around[k]]
            found.append((outlines[i], tuple(outlines[k] for k in holes)))
    return tuple(found)
