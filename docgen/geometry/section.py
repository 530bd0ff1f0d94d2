"""Cuts through solids: the rings that lie in a plane, and what stands behind it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

import numpy as np
import shapely

from docgen.geometry.lines import View
from docgen.geometry.make import cross, frame_along
from docgen.geometry.outlines import Box2, flatten, nested, ring_outline
from docgen.geometry.shapes import HalfSpace, Outline, Vec, Vec2
from docgen.geometry.solids import Solid, SolidFault, cut

Ring: TypeAlias = tuple[Vec2, ...]

TWICE = 3e-6  # mm: points nearer than this are one
TOUCHING = 0.01  # mm: pieces of a cut that lie nearer have one line where they are broken off
LEAST_RING = 1e-6  # mm²; what encloses less is a touch, not a cut


@dataclass(frozen=True, slots=True)
class Hatched:
    """One piece of a cut face, in the plane's x and y: its outside and the holes in it."""

    outside: Outline
    holes: tuple[Outline, ...]


def section_view(normal: Vec, x: Vec) -> View:
    """Return the view square to a cutting plane: `normal` points to the viewer, `x` to the right."""
    frame = frame_along((0.0, 0.0, 0.0), normal, x)
    right, toward = frame.direction((1.0, 0.0, 0.0)), frame.direction((0.0, 0.0, 1.0))
    return View(right, cross(toward, right))


def section(solid: Solid, point: Vec, normal: Vec, x: Vec) -> tuple[Ring, ...]:
    """Return the rings of the cut of `solid` by the plane through `point`.

    Coordinates are those of `section_view`: the origin of the axes stays the origin of the paper, so that rings and
    strokes of one section lie on each other. Outsides run counter-clockwise, holes clockwise; sorted by their
    least corner. A plane that misses gives none; one that grazes a face gives what lies just behind it.
    """
    frame = frame_along((0.0, 0.0, 0.0), normal, x)
    flat = solid.moved(frame.inverse())
    height = frame.inverse().point(point)[2]
    rings: list[Ring] = []
    for raw in flat.sliced(height):
        ring = _from_least(_corners([(round(float(p[0]), 6) + 0.0, round(float(p[1]), 6) + 0.0) for p in raw]))
        if abs(_area(ring)) > LEAST_RING:
            rings.append(ring)
    return tuple(sorted(rings))


def hatched(rings: tuple[Ring, ...]) -> tuple[Hatched, ...]:
    """Return the pieces of a cut face with their holes."""
    return tuple(Hatched(o, h) for o, h in nested([ring_outline(r) for r in rings]))


@dataclass(frozen=True, slots=True)
class Windowed:
    """A piece of a cut face as far as a window shows it: its rings, its true edges, and where the window breaks it off."""

    rings: tuple[Ring, ...]
    edges: tuple[Ring, ...]
    broken: tuple[tuple[Vec2, Vec2], ...]


def windowed(rings: tuple[Ring, ...], window: Box2) -> tuple[Windowed, ...]:
    """Return what a window shows of the rings of a cut; nothing where it shows none."""
    (x0, y0), (x1, y1) = window
    frame = shapely.box(x0, y0, x1, y1)
    out: list[Windowed] = []
    for whole in (polygon for piece in hatched(rings) for polygon in _sound(piece)):
        if frame.contains(whole):
            shown = [whole]
        elif frame.intersects(whole):
            common = whole.intersection(frame)
            shown = [
                g for g in getattr(common, "geoms", [common]) if isinstance(g, shapely.Polygon) and g.area > LEAST_RING
            ]
        else:
            shown = []
        out += [_shown(polygon, window) for polygon in shown]
    return tuple(out)


def broken(shown: Iterable[Windowed]) -> list[tuple[Vec2, Vec2]]:
    """Return where a window breaks off pieces of a cut, in one line as far as they lie against one another."""
    sides: dict[tuple[int, float], list[tuple[float, float]]] = {}
    for a, b in (ends for piece in shown for ends in piece.broken):
        i = 0 if abs(a[0] - b[0]) < abs(a[1] - b[1]) else 1
        low, high = sorted((a[1 - i], b[1 - i]))
        sides.setdefault((i, round(a[i], 6)), []).append((low, high))
    out: list[tuple[Vec2, Vec2]] = []
    for (i, level), spans in sorted(sides.items()):
        runs: list[tuple[float, float]] = []
        for low, high in sorted(spans):
            if runs and low - runs[-1][1] < TOUCHING:
                runs[-1] = (runs[-1][0], max(runs[-1][1], high))
            else:
                runs.append((low, high))
        out += [((level, u), (level, v)) if i == 0 else ((u, level), (v, level)) for u, v in runs]
    return out


def share_within(shown: Sequence[Windowed], room: Box2) -> float:
    """Return how much of the pieces of a cut lies in a room, as a share of their area; 0 where nothing is shown."""
    box = shapely.box(*room[0], *room[1])
    found = _polygons(shown)
    every = sum(polygon.area for polygon in found)
    return float(sum(polygon.intersection(box).area for polygon in found) / every) if every else 0.0


def without(shown: Sequence[Windowed], taken: Sequence[Windowed], window: Box2) -> tuple[Windowed, ...]:
    """Return pieces of a cut without what other pieces take of them."""
    room = shapely.union_all(_polygons(taken))
    out: list[Windowed] = []
    for polygon in _polygons(shown):
        left = polygon.difference(room)
        parts = [g for g in getattr(left, "geoms", [left]) if isinstance(g, shapely.Polygon) and g.area > LEAST_RING]
        out += [_shown(shapely.geometry.polygon.orient(part), window) for part in parts]
    return tuple(out)


def distance(one: Sequence[Windowed], other: Sequence[Windowed]) -> float:
    """Return how far the pieces of two cuts lie apart; infinity where one shows nothing."""
    found = (a.distance(b) for a in _polygons(one) for b in _polygons(other))
    return float(min(found, default=math.inf))


def own_drawn(piece: Windowed, others: Sequence[Windowed]) -> tuple[float, float, float]:
    """Return how long the edges of a piece are that lie on no edge of the others, and how far they reach across and up, mm."""
    there = shapely.MultiLineString([run for other in others for run in other.edges])
    own = shapely.MultiLineString(piece.edges).difference(there.buffer(TOUCHING))
    if own.is_empty:
        return (0.0, 0.0, 0.0)
    x0, y0, x1, y1 = own.bounds
    return (float(own.length), float(x1 - x0), float(y1 - y0))


def _polygons(shown: Sequence[Windowed]) -> list[shapely.Polygon]:
    return [shapely.Polygon(w.rings[0], w.rings[1:]) for w in shown]


def _sound(piece: Hatched) -> list[shapely.Polygon]:
    """Return a piece of a cut face as polygons that do not cross themselves.

    A plane that grazes facets may leave a ring that touches or crosses itself by a hair.
    """
    whole = shapely.Polygon(flatten(piece.outside), [flatten(h) for h in piece.holes])
    if whole.is_valid:
        return [whole]
    made = shapely.make_valid(whole)
    return [g for g in getattr(made, "geoms", [made]) if isinstance(g, shapely.Polygon) and g.area > LEAST_RING]


def _shown(polygon: shapely.Polygon, window: Box2) -> Windowed:
    rings: list[Ring] = []
    edges: list[Ring] = []
    broken: list[tuple[Vec2, Vec2]] = []
    for line in (polygon.exterior, *polygon.interiors):
        ring: Ring = tuple((float(x), float(y)) for x, y in line.coords)
        rings.append(ring[:-1])
        run: list[Vec2] = [ring[0]]
        for a, b in pairwise(ring):
            if _on_side(a, b, window):
                broken.append((a, b))
                if len(run) > 1:
                    edges.append(tuple(run))
                run = [b]
            else:
                run.append(b)
        if len(run) > 1:
            edges.append(tuple(run))
    return Windowed(tuple(rings), tuple(edges), tuple(broken))


def _on_side(a: Vec2, b: Vec2, window: Box2) -> bool:
    """Return True when a line runs along one side of the window."""
    return any(abs(p - a[i]) < 1e-7 and abs(p - b[i]) < 1e-7 for i in (0, 1) for p in (window[0][i], window[1][i]))


def behind(solid: Solid, point: Vec, normal: Vec) -> Solid | None:
    """Return what is left when all on the viewer's side of the plane is taken away; None when nothing is."""
    low, high = np.array(solid.bounds)
    corners = np.array([[(low, high)[i >> k & 1][k] for k in range(3)] for i in range(8)])
    side = (corners - np.array(point)) @ np.array(normal)
    if (side <= 0).all():
        return solid
    if (side >= 0).all():
        return None
    try:
        return cut(solid, [HalfSpace(point, normal)])
    except SolidFault as fault:
        if fault.code == "empty":
            return None
        raise


def _corners(ring: list[Vec2]) -> list[Vec2]:
    """Return the ring without the points that lie on the straight line between their neighbours.

    A corner that stands twice, as at the seam of a ring, stays once: each would lie on the line to the other.
    """
    ring = [p for k, p in enumerate(ring) if math.dist(p, ring[k - 1]) > TWICE] or ring[:1]
    kept: list[Vec2] = []
    for k, p in enumerate(ring):
        a, b = kept[-1] if kept else ring[-1], ring[(k + 1) % len(ring)]
        long = max(math.dist(a, b), 1e-9)
        off = abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / long
        if off > 2e-6:
            kept.append(p)
    return kept or ring[:1]


def _from_least(ring: list[Vec2]) -> Ring:
    k = ring.index(min(ring))
    return tuple(ring[k:] + ring[:k])


def _area(ring: Ring) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)) / 2
