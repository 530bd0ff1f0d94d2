"""What a solid's mesh stands for: flat faces with rings, edges with their two faces, true curved surfaces."""

from __future__ import annotations

from dataclasses import dataclass, field
from weakref import WeakKeyDictionary

import numpy as np

from docgen.geometry.bulges import bulges
from docgen.geometry.shapes import Vec
from docgen.geometry.solids import Solid
from docgen.geometry.surfaces import Floats, Ints, Surface

SHARP, SMOOTH, TANGENT = 0, 1, 2  # kinds of edge: sharp, inside a curved surface, where two surfaces run on smoothly

TANGENT_COS = float(np.cos(np.radians(1.0)))  # true normals closer than 1° are one run of surface
WELD = 1e-5  # mm: points that are nearer along each axis are one
FLAT_COS = 1 - 1e-9  # flat neighbours closer than 2.6e-3 degrees are one face
SAME_HEIGHT = 1e-4  # mm along the axis within which both ends of an edge lie on one circle


@dataclass(frozen=True, slots=True)
class Circle:
    """A true circle on which edges lie: centre, unit axis, radius in mm."""

    centre: Vec
    axis: Vec
    radius: float


@dataclass(frozen=True, slots=True, eq=False)
class Topology:
    """Points, triangles, faces and edges of one shape, in its own axes; arrays are never written to.

    A face is flat and connected: a true flat face, or one facet of a curved surface. `edge_faces` names the
    face on the left of the edge first, seen from outside. Edges of one `edge_curve` run along the meeting of the
    same two surfaces.
    """

    points: Floats  # (n, 3) mm
    triangles: Ints  # (m, 3)
    triangle_face: Ints  # (m,)
    normals: Floats  # (f, 3) outward
    face_surface: Ints  # (f,) index into surfaces, -1 flat
    surfaces: tuple[Surface, ...]
    edges: Ints  # (e, 2) points
    edge_faces: Ints  # (e, 2)
    edge_kind: Ints  # (e,) SHARP, SMOOTH or TANGENT
    edge_curve: Ints  # (e,)
    edge_circle: Ints  # (e,) index into circles, -1 none
    circles: tuple[Circle, ...]
    face_area: Floats  # (f,) mm²
    bulging: Ints  # (b,) edges whose true curve lies farther off than the cutters' own chords do
    bulge: Floats  # (b, 3) from the middle of such an edge to the curve, mm
    _rings: dict[int, tuple[tuple[int, ...], ...]] = field(default_factory=dict, repr=False)

    def rings(self, face: int) -> tuple[Floats, ...]:
        """Return the rings (k, 3) round a face, wood on their left seen from outside; outer ones and holes alike."""
        return tuple(self.points[list(ring)] for ring in self.ring_points(face))

    def ring_points(self, face: int) -> tuple[tuple[int, ...], ...]:
        """Return the rings round a face as numbers of points, worked out once."""
        if face not in self._rings:
            self._rings[face] = _rings(self.edges, self.edge_faces, face)
        return self._rings[face]

    def area(self, face: int) -> float:
        """Return the area of a face in mm²."""
        return float(self.face_area[face])


_made: WeakKeyDictionary[Solid, Topology] = WeakKeyDictionary()


def topology(solid: Solid) -> Topology:
    """Return the topology of `solid`, worked out once for each solid."""
    found = _made.get(solid)
    if found is None:
        found = _made[solid] = _worked_out(solid)
    return found


def _worked_out(solid: Solid) -> Topology:
    marked = solid.marked
    points, triangles, facet = _welded(*_in_order(marked.vertices, marked.triangles, marked.facet))
    sides = _sides(triangles)
    surface_of = marked.facet_surface[facet]
    face = _faces(points, triangles, facet, surface_of, sides)
    count = int(face.max()) + 1
    normals = _normals(points, triangles, face, count)
    face_surface = np.full(count, -1, dtype=np.int64)
    face_surface[face] = surface_of
    edges, edge_faces = _edges(triangles, face, sides)
    side = np.where(face_surface < 0, np.arange(count) + len(marked.surfaces), face_surface)
    edges, edge_faces = _straightened(points, edges, edge_faces)
    kind = _kinds(points, edges, edge_faces, normals, face_surface, marked.surfaces)
    circle, circles = _circles(points, edges, edge_faces, face_surface, marked.surfaces)
    pair = np.sort(side[edge_faces], axis=1)
    _, curve = np.unique(pair, axis=0, return_inverse=True)
    bulging, bulge = bulges(points, edges, edge_faces, circle, normals, face_surface, marked.surfaces)
    return Topology(
        points, triangles, face, normals, face_surface, marked.surfaces,
        edges, edge_faces, kind, curve.reshape(-1).astype(np.int64), circle, circles, _areas(points, triangles, face, count),
        bulging, bulge,
    )  # fmt: skip


def _rings(edges: Ints, edge_faces: Ints, face: int) -> tuple[tuple[int, ...], ...]:
    follow: dict[int, list[int]] = {}
    for a, b in edges[edge_faces[:, 0] == face].tolist():
        follow.setdefault(a, []).append(b)
    for a, b in edges[edge_faces[:, 1] == face].tolist():
        follow.setdefault(b, []).append(a)
    found: list[tuple[int, ...]] = []
    while follow:
        at = min(follow)
        ring: list[int] = []
        while at in follow:
            ring.append(at)
            after = follow[at].pop()
            if not follow[at]:
                del follow[at]
            at = after
        found.append(tuple(ring))
    return tuple(found)


def _areas(points: Floats, triangles: Ints, face: Ints, count: int) -> Floats:
    t = points[triangles]
    n = np.cross(t[:, 1] - t[:, 0], t[:, 2] - t[:, 0])
    size = np.sqrt(np.einsum("ij,ij->i", n, n)) / 2
    return np.bincount(face, weights=size, minlength=count).astype(np.float64)


def _in_order(points: Floats, triangles: Ints, facet: Ints) -> tuple[Floats, Ints, Ints]:
    """Return the mesh with points and triangles sorted by place, whatever order the kernel had them in."""
    used = np.unique(triangles)
    rounded = np.round(points[used], 6) + 0.0
    order = np.lexsort((rounded[:, 2], rounded[:, 1], rounded[:, 0]))
    rank = np.full(len(points), -1, dtype=np.int64)
    rank[used[order]] = np.arange(len(used))
    t = rank[triangles]
    first = np.argmin(t, axis=1)
    t = np.stack([t[np.arange(len(t)), (first + k) % 3] for k in range(3)], axis=1)
    by_place = np.lexsort((t[:, 2], t[:, 1], t[:, 0]))
    return np.ascontiguousarray(points[used[order]]), t[by_place], facet[by_place]


def _welded(points: Floats, triangles: Ints, facet: Ints) -> tuple[Floats, Ints, Ints]:
    """Return the mesh without slivers: points at one place are one, and triangles that have thereby no width are gone.

    Where a round cutter ends tangent on a plane, rounding leaves a face of some 1e-7 mm between them, whose sides would be
    drawn as lines.
    """
    first = _first(points)
    if np.array_equal(first, np.arange(len(points))):
        return points, triangles, facet
    moved = first[triangles]
    wide = (moved[:, 0] != moved[:, 1]) & (moved[:, 1] != moved[:, 2]) & (moved[:, 2] != moved[:, 0])
    kept = np.unique(moved[wide])
    rank = np.full(len(points), -1, dtype=np.int64)
    rank[kept] = np.arange(len(kept))
    return points[kept], rank[moved[wide]], facet[wide]


def _first(points: Floats) -> Ints:
    """Return for each point the first one at its place: along each axis what follows closer than `WELD` stands level."""
    place = np.zeros(len(points), dtype=np.int64)
    for axis in range(3):
        along = points[:, axis]
        order = np.argsort(along, kind="stable")
        level = np.zeros(len(points), dtype=np.int64)
        level[order[1:]] = np.cumsum(np.diff(along[order]) > WELD)
        place = place * (int(level.max(initial=0)) + 1) + level
    _, first, which = np.unique(place, return_index=True, return_inverse=True)
    return np.asarray(first[which.reshape(-1)], dtype=np.int64)


def _sides(triangles: Ints) -> Ints:
    """Return (k, 4): each edge's two points in the sense of its left triangle, left and right triangle."""
    half = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    owner = np.tile(np.arange(len(triangles)), 3)
    rising = half[:, 0] < half[:, 1]
    low, high = half.min(axis=1), half.max(axis=1)
    order_up = np.lexsort((high[rising], low[rising]))
    order_down = np.lexsort((high[~rising], low[~rising]))
    up, down = half[rising][order_up], half[~rising][order_down]
    if not np.array_equal(up, down[:, ::-1]):
        raise ValueError("the mesh is not closed")
    return np.asarray(np.c_[up, owner[rising][order_up], owner[~rising][order_down]], dtype=np.int64)


def _faces(points: Floats, triangles: Ints, facet: Ints, surface: Ints, sides: Ints) -> Ints:
    """Return the face of each triangle: neighbours of one facet, or flat and in one plane, belong together."""
    n = _normals(points, triangles, facet, int(facet.max()) + 1)
    left, right = sides[:, 2], sides[:, 3]
    fl, fr = facet[left], facet[right]
    flat = (surface[left] < 0) & (surface[right] < 0)
    same = (fl == fr) | (flat & (np.einsum("ij,ij->i", n[fl], n[fr]) > FLAT_COS))
    label = components(len(triangles), left[same], right[same])
    return np.asarray(np.unique(label, return_inverse=True)[1].reshape(-1), dtype=np.int64)


def components(count: int, a: Ints, b: Ints) -> Ints:
    """Return for each of `count` nodes the least node that links (a, b) join it to."""
    label: Ints = np.arange(count, dtype=np.int64)
    while True:
        low = np.minimum(label[a], label[b])
        after: Ints = label.copy()
        np.minimum.at(after, label[a], low)
        np.minimum.at(after, label[b], low)
        while True:
            jumped: Ints = after[after]
            if np.array_equal(jumped, after):
                break
            after = jumped
        if np.array_equal(after, label):
            return np.asarray(label, dtype=np.int64)
        label = after


def _normals(points: Floats, triangles: Ints, face: Ints, count: int) -> Floats:
    t = points[triangles]
    n = np.cross(t[:, 1] - t[:, 0], t[:, 2] - t[:, 0])
    total = np.stack([np.bincount(face, weights=n[:, k], minlength=count) for k in range(3)], axis=1)
    size = np.sqrt(np.einsum("ij,ij->i", total, total))
    return np.asarray(total / np.maximum(size, 1e-30)[:, None], dtype=np.float64)


def _edges(triangles: Ints, face: Ints, sides: Ints) -> tuple[Ints, Ints]:
    left, right = face[sides[:, 2]], face[sides[:, 3]]
    between = left != right
    return sides[between][:, :2], np.stack([left[between], right[between]], axis=1)


def _straightened(points: Floats, edges: Ints, faces: Ints) -> tuple[Ints, Ints]:
    """Join edges of the same two faces that run straight on: the two planes meet in one line anyway."""
    key, inverse = np.unique(np.sort(faces, axis=1), axis=0, return_inverse=True)
    inverse = inverse.reshape(-1)
    several = np.flatnonzero(np.bincount(inverse, minlength=len(key))[inverse] > 1)
    if not len(several):
        return edges, faces
    keep = np.ones(len(edges), dtype=bool)
    made: list[tuple[int, int, int, int]] = []
    groups: dict[int, list[int]] = {}
    for e in several.tolist():
        groups.setdefault(int(inverse[e]), []).append(e)
    for group in groups.values():
        runs = _runs([(*edges[e].tolist(), *faces[e].tolist()) for e in group])
        if len(runs) < len(group):
            keep[group] = False
            made.extend(runs)
    added = np.array(made, dtype=np.int64).reshape(-1, 4)
    return np.concatenate([edges[keep], added[:, :2]]), np.concatenate([faces[keep], added[:, 2:]])


def _runs(group: list[tuple[int, int, int, int]]) -> list[tuple[int, int, int, int]]:
    """Join (from, to, left, right) end to end, all turned so that the lower face is on the left."""
    turned = [(a, b, left, right) if left < right else (b, a, right, left) for a, b, left, right in group]
    follow = {a: b for a, b, _, _ in turned}
    if len(follow) < len(turned):
        return turned  # a point with two ways on: leave it alone
    left, right = turned[0][2:]
    runs: list[tuple[int, int, int, int]] = []
    for start in sorted(set(follow) - set(follow.values())):
        at = start
        while at in follow:
            at = follow[at]
        runs.append((start, at, left, right))
    return runs or turned


def _kinds(
    points: Floats, edges: Ints, faces: Ints, normals: Floats, face_surface: Ints, surfaces: tuple[Surface, ...]
) -> Ints:
    own = face_surface[faces]
    kind = np.full(len(edges), SHARP, dtype=np.int64)
    kind[(own[:, 0] >= 0) & (own[:, 0] == own[:, 1])] = SMOOTH
    mixed = np.flatnonzero((kind == SHARP) & ((own[:, 0] >= 0) | (own[:, 1] >= 0)))
    if not len(mixed):
        return kind
    middle = points[edges[mixed]].mean(axis=1)
    true = [_true_normals(middle, faces[mixed, k], normals, face_surface, surfaces) for k in (0, 1)]
    kind[mixed[np.einsum("ij,ij->i", true[0], true[1]) > TANGENT_COS]] = TANGENT
    return kind


def _true_normals(
    middle: Floats, faces: Ints, normals: Floats, face_surface: Ints, surfaces: tuple[Surface, ...]
) -> Floats:
    n = normals[faces].copy()
    own = face_surface[faces]
    for s in np.unique(own[own >= 0]).tolist():
        at = np.flatnonzero(own == s)
        true = surfaces[s].normals(middle[at])
        facing = np.einsum("ij,ij->i", true, n[at])
        n[at] = true * np.where(facing < 0, -1.0, 1.0)[:, None]
    return n


def _circles(
    points: Floats, edges: Ints, faces: Ints, face_surface: Ints, surfaces: tuple[Surface, ...]
) -> tuple[Ints, tuple[Circle, ...]]:
    """Return for each edge the true circle on which it lies: both ends at one height of a surface's axis."""
    circle = np.full(len(edges), -1, dtype=np.int64)
    circles: list[Circle] = []
    own = face_surface[faces]
    for s, surface in enumerate(surfaces):
        at = np.flatnonzero((circle < 0) & (own == s).any(axis=1))
        if not len(at):
            continue
        z0, r0, _ = surface.heights(points[edges[at, 0]])
        z1, r1, _ = surface.heights(points[edges[at, 1]])
        level = (np.abs(z0 - z1) < SAME_HEIGHT) & (np.minimum(r0, r1) > 1e-6)
        named: dict[tuple[int, int], int] = {}
        for e, z, r in zip(at[level].tolist(), z0[level].tolist(), np.maximum(r0, r1)[level].tolist(), strict=True):
            radius = surface.radius_at(z, r)
            key = (round(z * 1e3), round(radius * 1e2))
            if key not in named:
                named[key] = len(circles)
                p, d = surface.point, surface.axis
                circles.append(Circle((p[0] + z * d[0], p[1] + z * d[1], p[2] + z * d[2]), surface.axis, radius))
            circle[e] = named[key]
    return circle, tuple(circles)
