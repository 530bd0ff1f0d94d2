"""Outlines and lines cut to a rectangle, as tiles of a large sheet need them; arcs stay true arcs."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from docgen.geometry.outlines import Box2, flatten, on_circle, pieces, ring_outline, sweep
from docgen.geometry.shapes import Edge, Outline, Vec2

SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Path:
    """An open run of edges from `start`."""

    start: Vec2
    edges: tuple[Edge, ...]

    @property
    def end(self) -> Vec2:
        """Where the run ends."""
        return self.edges[-1].end


def clip_outline(outline: Outline, box: Box2) -> tuple[Path, ...]:
    """Return the runs of `outline` that lie in the rectangle, in order; sub-arcs keep their centre.

    What lies on the rectangle's own sides counts as inside. An outline wholly inside is one run that closes.
    """
    kept: list[Path] = []
    for start, edge in pieces(outline):
        for path in _edge_inside(start, edge, box):
            if kept and math.dist(kept[-1].end, path.start) < SAME:
                kept[-1] = Path(kept[-1].start, kept[-1].edges + path.edges)
            else:
                kept.append(path)
    if len(kept) > 1 and math.dist(kept[-1].end, kept[0].start) < SAME:
        kept[0] = Path(kept[-1].start, kept[-1].edges + kept[0].edges)
        kept.pop()
    return tuple(kept)


def clip_polyline(points: Sequence[Vec2], box: Box2) -> tuple[tuple[Vec2, ...], ...]:
    """Return the runs of a polyline that lie in the rectangle."""
    runs: list[list[Vec2]] = []
    for a, b in itertools.pairwise(points):
        for path in _edge_inside(a, Edge(b), box):
            if runs and math.dist(runs[-1][-1], path.start) < SAME:
                runs[-1].append(path.end)
            else:
                runs.append([path.start, path.end])
    return tuple(tuple(r) for r in runs)


def clip_area(outline: Outline, box: Box2) -> tuple[Outline, ...]:
    """Return the areas common to `outline` and the rectangle, flattened; none when they do not meet."""
    (x0, y0), (x1, y1) = box
    common = shapely.Polygon(flatten(outline)).intersection(shapely.box(x0, y0, x1, y1))
    parts = [g for g in getattr(common, "geoms", [common]) if isinstance(g, shapely.Polygon) and not g.is_empty]
    return tuple(ring_outline(list(p.exterior.coords)) for p in parts)


def _edge_inside(start: Vec2, edge: Edge, box: Box2) -> list[Path]:
    """Return the parts of one edge inside the rectangle, cut where it crosses the four sides."""
    stops = sorted({0.0, 1.0, *_crossings(start, edge, box)})
    found: list[Path] = []
    for low, high in itertools.pairwise(stops):
        if high - low < SAME or not _within(_place(start, edge, (low + high) / 2), box):
            continue
        a, b = _place(start, edge, low), _place(start, edge, high)
        if found and math.dist(found[-1].end, a) < SAME:  # it only touched the side there
            found[-1] = Path(found[-1].start, (Edge(b, edge.centre, edge.ccw),))
        else:
            found.append(Path(a, (Edge(b, edge.centre, edge.ccw),)))
    return found


def _place(start: Vec2, edge: Edge, t: float) -> Vec2:
    if t <= 0.0:
        return start
    if t >= 1.0:
        return edge.end
    if edge.centre is None:
        return (start[0] + t * (edge.end[0] - start[0]), start[1] + t * (edge.end[1] - start[1]))
    radius, a0, turn = sweep(start, edge)
    return on_circle(edge.centre, radius, a0 + t * turn)


def _crossings(start: Vec2, edge: Edge, box: Box2) -> list[float]:
    found: list[float] = []
    for axis in (0, 1):
        for level in (box[0][axis], box[1][axis]):
            if edge.centre is None:
                run = edge.end[axis] - start[axis]
                if run:
                    found.append((level - start[axis]) / run)
            else:
                found.extend(_on_arc(start, edge, axis, level))
    return [t for t in found if 0.0 < t < 1.0]


def _on_arc(start: Vec2, edge: Edge, axis: int, level: float) -> list[float]:
    radius, a0, turn = sweep(start, edge)
    assert edge.centre is not None
    reach = (level - edge.centre[axis]) / radius
    if abs(reach) >= 1:
        return []
    angle = math.acos(reach) if axis == 0 else math.asin(reach)
    angles = (angle, -angle) if axis == 0 else (angle, math.pi - angle)
    return [((a - a0) % math.tau if turn > 0 else (a0 - a) % math.tau) / abs(turn) for a in angles]


def _within(p: Vec2, box: Box2) -> bool:
    return all(box[0][i] - SAME <= p[i] <= box[1][i] + SAME for i in (0, 1))
