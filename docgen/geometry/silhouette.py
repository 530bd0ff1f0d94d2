"""What a part's face looks like: its outline with true arcs, the openings in it, and the edges seen within."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from docgen.geometry.hidden import draw
from docgen.geometry.lines import Stroke, View
from docgen.geometry.make import frame_along
from docgen.geometry.outlines import SAG as CUT_SAG
from docgen.geometry.outlines import flatten, nested, on_circle, ring_outline
from docgen.geometry.shapes import Edge, Frame, Outline, Vec, Vec2
from docgen.geometry.solids import Solid
from docgen.geometry.topology import Topology

Segment = tuple[Vec2, Vec2]

SAME = 2e-3  # mm: corners of a shadow that lie closer are one, as where a round runs smoothly into a wall
STRAIGHT = 2e-5  # mm: a corner this near to the line of its neighbours is none
ON_CIRCLE = 6e-4  # mm by which a corner may miss the circle of an arc
WIDEST = math.radians(15.5)  # of one chord: cutters break a round into 24 or more
CHORD_SAG = 1.2 * CUT_SAG  # mm between a chord and its circle: what is wider is a side that happens to lie on one
CHORDS = 3  # that an arc has at least
LEAST = 1e-3  # mm²: what encloses less is no opening
SLIVER = 1.0  # mm²: less is no waste worth hatching
BESIDE = 0.03  # mm: an edge this near to the outline is the outline
SAG = 0.05  # mm: chords of round edges within the face


@dataclass(frozen=True, slots=True)
class FaceShape:
    """A face in its two in-plane axes in rising order: what it covers, the openings in it, edges seen within."""

    outside: Outline
    openings: tuple[Outline, ...]
    lines: tuple[Segment, ...]


def face_shape(solid: Solid, edges: Topology, axis: int, side: int) -> FaceShape:
    """Return the shape of a part as it is seen on its face `axis`, `side` (0 low, 1 high), in the part's own axes.

    What stands out beyond the face, such as a tongue, counts as covered. Arcs are found again in the chords of the solid,
    within 0.0002 mm of its corners. Of several pieces the largest is told.
    """
    u, v = (i for i in range(3) if i != axis)
    toward = frame_along((0.0, 0.0, 0.0), _unit(axis, 1.0), _unit(u, 1.0))
    turned = solid.moved(toward.inverse())
    flip = -1.0 if toward.direction((0.0, 1.0, 0.0))[v] < 0 else 1.0
    rings = [_clean([(float(p[0]), float(p[1]) * flip) for p in ring]) for ring in turned.shadow()]
    outside, openings = nested([with_arcs(ring) for ring in rings if len(ring) > 2 and abs(_area(ring)) > LEAST])[0]
    return FaceShape(outside, openings, _within(edges, axis, side, (outside, *openings)))


def _unit(axis: int, length: float) -> Vec:
    x, y, z = (length if i == axis else 0.0 for i in range(3))
    return (x, y, z)


def _clean(ring: Sequence[Vec2]) -> list[Vec2]:
    """Return the ring counter-clockwise, without corners that are none, from its least corner."""
    points: list[Vec2] = []
    for p in ring:
        if not points or math.dist(points[-1], p) > SAME:
            points.append((round(p[0], 6) + 0.0, round(p[1], 6) + 0.0))
    while len(points) > 1 and math.dist(points[0], points[-1]) <= SAME:
        points.pop()
    kept = [p for k, p in enumerate(points) if _off(points[k - 1], p, points[(k + 1) % len(points)]) > STRAIGHT]
    if len(kept) < 3:
        return kept
    if _area(kept) < 0:
        kept.reverse()
    first = kept.index(min(kept))
    return kept[first:] + kept[:first]


def _off(a: Vec2, p: Vec2, b: Vec2) -> float:
    """Return how far `p` lies off the line from `a` to `b`, mm."""
    long = math.dist(a, b)
    if long < SAME:
        return math.dist(a, p)
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / long


def _area(ring: Sequence[Vec2]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)) / 2


def with_arcs(ring: Sequence[Vec2]) -> Outline:
    """Return the outline through the corners of `ring`, runs of short chords on one circle as the arcs they stand for."""
    points = list(ring)
    count = len(points)
    whole = _run(points, 0, count)
    if whole is not None and whole[0] == count:
        centre, radius = whole[1], math.dist(whole[1], points[0])
        return Outline((Edge(on_circle(centre, radius, 0.0), centre, _turn(points, 0) > 0),))
    start = next((k for k in range(count) if _run(points, k - 1, count) is None or not _goes_on(points, k)), 0)
    edges: list[Edge] = []
    done = 0
    while done < count:
        at = start + done
        run = _run(points, at, count - done)
        if run is None:
            done += 1
            edges.append(Edge(points[(at + 1) % count]))
        else:
            done += run[0]
            edges.append(Edge(points[(at + run[0]) % count], run[1], _turn(points, at) > 0))
    return Outline(tuple(edges))


def _goes_on(points: Sequence[Vec2], k: int) -> bool:
    """Return whether the chords before and after a corner lie on one circle."""
    n = len(points)
    circle = _circle(points[k - 2], points[k - 1], points[k % n])
    return circle is not None and _on(points[(k + 1) % n], points[k % n], circle)


def _run(points: Sequence[Vec2], first: int, most: int) -> tuple[int, Vec2] | None:
    """Return how many chords from the corner `first` lie on one circle, and its centre; None for fewer than an arc has."""
    n = len(points)
    a, b, c = (points[(first + i) % n] for i in range(3))
    circle = _circle(a, b, c)
    if circle is None or not (_on(b, a, circle) and _on(c, b, circle)):
        return None
    turn = _turn(points, first)
    chords = 2
    while chords < most:
        here, after = points[(first + chords) % n], points[(first + chords + 1) % n]
        if not _on(after, here, circle) or _turn(points, first + chords - 1) * turn <= 0:
            break
        chords += 1
        # The farther the corners apart, the truer the circle.
        wide = _circle(a, points[(first + chords // 2) % n], after) if chords < n else None
        circle = wide or circle
    return (chords, circle[0]) if chords >= CHORDS else None


def _turn(points: Sequence[Vec2], k: int) -> float:
    n = len(points)
    a, b, c = (points[(k + i) % n] for i in range(3))
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _circle(a: Vec2, b: Vec2, c: Vec2) -> tuple[Vec2, float] | None:
    """Return centre and radius of the circle through three points, None when they lie on a line."""
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    d = 2 * (bx * cy - by * cx)
    if abs(d) < 1e-9:
        return None
    x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d
    y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d
    return (a[0] + x, a[1] + y), math.hypot(x, y)


def _on(p: Vec2, before: Vec2, circle: tuple[Vec2, float]) -> bool:
    """Return whether `p` lies on the circle, no farther from the corner before than a cutter's chord is wide."""
    centre, radius = circle
    half = math.dist(p, before) / 2
    if abs(math.dist(p, centre) - radius) >= ON_CIRCLE or half > radius * math.sin(WIDEST / 2):
        return False
    return radius - math.sqrt(radius**2 - half**2) < CHORD_SAG


def _within(edges: Topology, axis: int, side: int, rings: Sequence[Outline]) -> tuple[Segment, ...]:
    """Return the edges that are seen on the face and are not its outline."""
    u, v = (i for i in range(3) if i != axis)
    up = _unit(v, 1.0)
    view = View(_unit(u, 1.0), up)
    mirrored = view.toward[axis] * (1.0 if side else -1.0) < 0
    if mirrored:
        view = View(_unit(u, 1.0), _unit(v, -1.0))
    border = shapely.MultiLineString([[*(pts := flatten(ring, 0.005)), pts[0]] for ring in rings])
    out: list[Segment] = []
    for stroke in draw([(edges, Frame())], view, hidden=False).visible:
        for a, b in _chords(stroke):
            middle = shapely.Point((a[0] + b[0]) / 2, (-1 if mirrored else 1) * (a[1] + b[1]) / 2)
            if border.distance(middle) > BESIDE:
                out.append(((a[0], -a[1]), (b[0], -b[1])) if mirrored else (a, b))
    return tuple(out)


def _chords(stroke: Stroke) -> list[Segment]:
    arc = stroke.arc
    if arc is None:
        return [(stroke.a, stroke.b)]
    step = 2 * math.degrees(math.acos(max(0.5, 1 - SAG / max(arc.radius, SAG))))
    count = max(2, math.ceil((arc.end_deg - arc.start_deg) / step))
    turns = [math.radians(arc.start_deg + (arc.end_deg - arc.start_deg) * k / count) for k in range(count + 1)]
    points = [on_circle(arc.centre, arc.radius, t) for t in turns]
    return list(itertools.pairwise(points))


def left_over(box: tuple[Vec2, Vec2], outside: Outline) -> tuple[Outline, ...]:
    """Return what goes when `outside` is cut from the rectangle between two corners; arcs as chords, slivers left out."""
    whole = shapely.box(*box[0], *box[1])
    rest = whole.difference(shapely.Polygon(flatten(outside, 0.005)))
    parts = rest.geoms if hasattr(rest, "geoms") else [rest]
    kept = [p for p in parts if isinstance(p, shapely.Polygon) and p.area > SLIVER]
    return tuple(ring_outline(list(p.exterior.coords)) for p in sorted(kept, key=lambda p: p.bounds))
