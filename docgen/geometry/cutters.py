"""Shapes as closed meshes whose triangles know the flat facet and the curved surface that they stand for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import manifold3d
import numpy as np
import shapely

from docgen.geometry.make import frame_along
from docgen.geometry.outlines import (
    LEAST_HOLE,
    SAG,
    backward,
    flatten_edge,
    least_chords,
    pieces,
    segments,
    signed_area,
    sweep,
)
from docgen.geometry.shapes import Edge, Extrusion, Frame, HalfSpace, Outline, Revolution, Shape, Vec, Vec2
from docgen.geometry.surfaces import Floats, Ints, Surface

SNAP = 6  # decimals of a millimetre that vertices keep


class SolidFault(Exception):
    """A shape that cannot be made or leaves nothing; `code` is stable, `message` says what."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message


@dataclass(frozen=True, slots=True)
class Facets:
    """A closed mesh whose triangles know their flat facet, and whose facets know their curved surface.

    `vertices` (n, 3) mm; `triangles` (m, 3) counter-clockwise seen from outside; `facet` (m,);
    `facet_surface` gives for each facet an index into `surfaces`, or −1 when it is flat.
    """

    vertices: Floats
    triangles: Ints
    facet: Ints
    facet_surface: tuple[int, ...]
    surfaces: tuple[Surface, ...]


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of a flattened outline and the edge of the outline on which the chord to it lies."""

    point: Vec2
    edge: int


def facets(shape: Shape, low: Vec, high: Vec) -> Facets:
    """Return the mesh of `shape`; half spaces reach past the box from `low` to `high`.

    Raises SolidFault when an outline crosses itself or has no area.
    """
    if isinstance(shape, Extrusion):
        return extruded(shape)
    if isinstance(shape, Revolution):
        return revolved(shape)
    return extruded(_half_box(shape, low, high))


def box_facets(low: Vec, high: Vec) -> Facets:
    """Return the mesh of the box between two corners; SolidFault when it has no volume."""
    if not all(h - s > 1e-9 for s, h in zip(low, high, strict=True)):
        raise SolidFault("no-volume", "the blank has no volume")
    return extruded(Extrusion(Outline.rectangle(low[0], low[1], high[0], high[1]), Frame(), low[2], high[2]))


def extruded(shape: Extrusion) -> Facets:
    """Return the mesh of a prism: bottom facet 0, top facet 1, then one facet a chord of the outline and its holes."""
    low, high = min(shape.low, shape.high), max(shape.low, shape.high)
    if high - low < 1e-9:
        raise SolidFault("no-volume", "the cutter has no depth")
    outlines = [_ccw(shape.outline), *(backward(_ccw(hole)) for hole in shape.holes)]
    rings = [_corners(outline) for outline in outlines]
    if len(rings) > 1:
        _check_holes(rings)
    flats = [np.array([c.point for c in ring]) for ring in rings]
    flat = np.concatenate(flats)
    n = len(flat)
    cap = np.asarray(manifold3d.triangulate(flats), dtype=np.int64)
    index = np.arange(n)
    starts = np.cumsum([0, *(len(ring) for ring in rings)])
    back = np.concatenate(  # a corner's chord starts at the corner before
        [np.roll(index[a:b], 1) for a, b in pairwise(starts.tolist())]
    )
    walls = np.concatenate(
        [np.stack([back, index, index + n], axis=1), np.stack([back, index + n, back + n], axis=1)], axis=0
    )
    triangles = np.concatenate([cap[:, ::-1], cap + n, walls])
    facet = np.concatenate([np.zeros(len(cap), np.int64), np.ones(len(cap), np.int64), index + 2, index + 2])
    local = np.concatenate([np.c_[flat, np.full(n, low)], np.c_[flat, np.full(n, high)]])
    surfaces: list[Surface] = []
    facet_surface = [-1, -1]
    for outline, ring in zip(outlines, rings, strict=True):
        own, of_edge = _wall_surfaces(outline, shape.frame)
        facet_surface += [of_edge[c.edge] + len(surfaces) if of_edge[c.edge] >= 0 else -1 for c in ring]
        surfaces += own
    return _placed(local, triangles, facet, tuple(facet_surface), tuple(surfaces), shape.frame)


def revolved(shape: Revolution) -> Facets:
    """Return the mesh of a turned profile; each facet is one flat quadrilateral, a whole flat ring, or an end."""
    profile = _ccw(shape.profile)
    corners = _corners(profile)
    points = np.array([c.point for c in corners])
    if points[:, 0].min() < -1e-6:
        raise SolidFault("profile-side", "the turned profile crosses its axis")
    turns = [math.radians(s) for s in shape.stops] or _even(float(points[:, 0].max()))
    count = len(turns) - 1 if shape.whole else len(turns)
    n = len(turns) - 1
    vertices, ring = _rings(points, turns[:count])
    surfaces, of_edge = _turned_surfaces(profile, shape.frame)
    triangles: list[tuple[int, int, int]] = []
    facet: list[int] = []
    facet_surface: list[int] = []
    for k, corner in enumerate(corners):
        a, b, surface = ring[k - 1], ring[k], of_edge[corner.edge]
        for i in range(n):
            j = (i + 1) % count
            halves = ((a[i], a[j], b[j]), (a[i], b[j], b[i]))
            kept = [t for t in halves if len(set(t)) == 3]  # on the axis a half or both vanish
            if surface >= 0 or i == 0:
                facet_surface.append(surface)
            triangles.extend(kept)
            facet.extend([len(facet_surface) - 1] * len(kept))
    if not shape.whole:
        cap = np.asarray(manifold3d.triangulate([points]), dtype=np.int64).tolist()
        for i, way in ((0, 1), (n, -1)):
            facet_surface.append(-1)
            triangles.extend((ring[a][i], ring[b][i], ring[c][i]) for a, b, c in (t[::way] for t in cap))
            facet.extend([len(facet_surface) - 1] * len(cap))
    return _placed(vertices, np.array(triangles), np.array(facet), tuple(facet_surface), surfaces, shape.frame)


def _even(radius: float) -> list[float]:
    """Return the seams of a full round, radians; the last is the first again."""
    n = segments(radius, SAG, least_chords(radius))
    return [math.tau * i / n for i in range(n + 1)]


def _half_box(shape: HalfSpace, low: Vec, high: Vec) -> Extrusion:
    frame = frame_along(shape.point, shape.normal)
    z = frame.direction((0.0, 0.0, 1.0))
    middle: Vec = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    away = sum((middle[i] - shape.point[i]) * z[i] for i in range(3))
    foot: Vec = (middle[0] - away * z[0], middle[1] - away * z[1], middle[2] - away * z[2])
    reach = math.ceil(math.dist(low, high) + 1.0)
    depth = reach + abs(away)
    return Extrusion(Outline.rectangle(-reach, -reach, reach, reach), Frame(frame.rotation, foot), 0.0, depth)


def _ccw(outline: Outline) -> Outline:
    return outline if signed_area(outline) > 0 else backward(outline)


def _corners(outline: Outline) -> list[_Corner]:
    """Return the corners of the flattened outline, without doubles; SolidFault when it is no simple polygon."""
    corners: list[_Corner] = []
    for k, (start, edge) in enumerate(pieces(outline)):
        least = LEAST_HOLE if edge.centre is None else least_chords(sweep(start, edge)[0])
        for p in flatten_edge(start, edge, SAG, least):
            q = (round(p[0], SNAP), round(p[1], SNAP))
            if not corners or math.dist(corners[-1].point, q) > 2e-6:
                corners.append(_Corner(q, k))
    while len(corners) > 1 and math.dist(corners[0].point, corners[-1].point) <= 2e-6:
        corners.pop()
    if len(corners) < 3:
        raise SolidFault("no-area", "the cutter's outline has no area")
    if not shapely.Polygon([c.point for c in corners]).is_valid:
        raise SolidFault("outline-crosses", "the cutter's outline crosses itself")
    return corners


def _check_holes(rings: list[list[_Corner]]) -> None:
    """Raise SolidFault unless the rings after the first lie within it and apart from one another."""
    around, *holes = ([c.point for c in ring] for ring in rings)
    if not shapely.Polygon(around, holes).is_valid:
        raise SolidFault("outline-crosses", "what the cutter leaves out does not lie within its outline")


def _wall_surfaces(outline: Outline, frame: Frame) -> tuple[tuple[Surface, ...], list[int]]:
    """Return the cylinders that the arcs of an outline sweep, and for each edge the index of its own (−1: flat)."""
    surfaces: list[Surface] = []
    of_edge: list[int] = []
    axis = frame.direction((0.0, 0.0, 1.0))
    for start, edge in pieces(outline):
        if edge.centre is None:
            of_edge.append(-1)
            continue
        made = Surface("cylinder", frame.point((*edge.centre, 0.0)), axis, math.dist(start, edge.centre))
        if made not in surfaces:
            surfaces.append(made)
        of_edge.append(surfaces.index(made))
    return tuple(surfaces), of_edge


def _turned_surfaces(profile: Outline, frame: Frame) -> tuple[tuple[Surface, ...], list[int]]:
    surfaces: list[Surface] = []
    of_edge: list[int] = []
    axis = frame.direction((0.0, 0.0, 1.0))
    for start, edge in pieces(profile):
        made = _turned(start, edge, frame, axis)
        of_edge.append(-1 if made is None else len(surfaces))
        if made is not None:
            surfaces.append(made)
    return tuple(surfaces), of_edge


def _turned(start: Vec2, edge: Edge, frame: Frame, axis: Vec) -> Surface | None:
    """Return the surface that one edge of a profile turns out; None for a flat ring or a piece of the axis."""
    if edge.centre is not None:
        at = frame.point((0.0, 0.0, edge.centre[1]))
        return Surface("torus", at, axis, edge.centre[0], math.dist(start, edge.centre))
    dx, dz = edge.end[0] - start[0], edge.end[1] - start[1]
    if abs(dz) < 1e-9 or max(start[0], edge.end[0]) < 1e-9:
        return None
    at = frame.point((0.0, 0.0, start[1]))
    if abs(dx) < 1e-9:
        return Surface("cylinder", at, axis, start[0])
    n = math.hypot(dx, dz)
    return Surface("cone", at, axis, start[0], normal=(dz / n, -dx / n))


def _rings(points: Floats, angles: list[float]) -> tuple[Floats, list[list[int]]]:
    """Return the vertices of a turned profile and for each corner its ring of vertex numbers (one on the axis)."""
    n = len(angles)
    turn = [(math.cos(a), math.sin(a)) for a in angles]
    vertices: list[Vec] = []
    ring: list[list[int]] = []
    for x, z in points:
        first = len(vertices)
        if x < 1e-6:
            vertices.append((0.0, 0.0, float(z)))
            ring.append([first] * n)
        else:
            vertices.extend((float(x) * c, float(x) * s, float(z)) for c, s in turn)
            ring.append(list(range(first, first + n)))
    return np.array(vertices), ring


def _placed(
    local: Floats,
    triangles: Ints,
    facet: Ints,
    facet_surface: tuple[int, ...],
    surfaces: tuple[Surface, ...],
    frame: Frame,
) -> Facets:
    vertices = np.round(local @ np.array(frame.rotation).T + np.array(frame.origin), SNAP)
    a, b, c = (vertices[triangles[:, i]] for i in range(3))
    if np.einsum("ij,ij->i", a, np.cross(b, c)).sum() < 0:
        triangles = triangles[:, ::-1]
    return Facets(vertices, triangles, facet, facet_surface, surfaces)
