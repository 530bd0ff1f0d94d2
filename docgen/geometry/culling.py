"""What lies wholly behind one large flat face, found before any line is cut: it is hidden and hides nothing more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from docgen.geometry.scene import EDGE_ON, Candidates, Scene, contours
from docgen.geometry.shapes import Frame
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import Topology

FEW = 6000  # lines to be tested up to which culling costs more than it saves
LEAST, MOST = 60, 400  # faces that are tried as covers, the largest on paper: half as many as items, within these
CLEAR = 0.05  # mm that a thing must lie behind a face to be culled by it


@dataclass(frozen=True, slots=True, eq=False)
class _Covers:
    """Large looking faces on paper, and their heights as p·x + q·y + r."""

    shapes: NDArray[np.object_]
    planes: Floats  # (k, 3)


def culled(scene: Scene, items: Sequence[tuple[Topology, Frame]], found: Candidates) -> tuple[Scene, Candidates]:
    """Return the scene without the triangles and contours that lie behind one face, and its candidates told hidden."""
    if (~found.back).sum() <= FEW:
        return scene, found
    covers = _covers(scene, items)
    if not len(covers.shapes):
        return scene, found
    item = _items_behind(covers, scene, items)
    edge = item[scene.edge_owner]
    asked = np.zeros(len(edge), dtype=bool)
    asked[found.edge[~found.back]] = True
    asked[contours(scene)] = True
    _curves_behind(covers, scene, edge, asked)
    open_edge = np.flatnonzero(~edge & asked)
    edge[open_edge] = _lines_behind(covers, scene.points[scene.edges[open_edge]])
    triangle = ~item[scene.triangle_owner]
    t = scene.points[scene.triangles[triangle]]
    triangle[triangle] = ~_boxes_behind(covers, t.min(axis=1), t.max(axis=1))
    return replace(
        scene,
        triangles=scene.triangles[triangle],
        triangle_face=scene.triangle_face[triangle],
        triangle_owner=scene.triangle_owner[triangle],
        buried=edge,
    ), Candidates(found.edge, found.back | edge[found.edge])


def _items_behind(covers: _Covers, scene: Scene, items: Sequence[tuple[Topology, Frame]]) -> Bools:
    stops = np.cumsum([len(t.points) for t, _ in items])[:-1]
    boxes = np.array([(p.min(axis=0), p.max(axis=0)) for p in np.split(scene.points, stops)])
    return _boxes_behind(covers, boxes[:, 0], boxes[:, 1])


def _curves_behind(covers: _Covers, scene: Scene, edge: Bools, asked: Bools) -> None:
    """Mark in `edge` the asked edges of those curves that lie behind one cover with all their chords."""
    left = np.flatnonzero(~edge & asked)
    names, group = np.unique(scene.edge_curve[left], return_inverse=True)
    low, high = _extents(scene.points[scene.edges[left]], group.reshape(-1), len(names))
    edge[left] = _boxes_behind(covers, low, high)[group.reshape(-1)]


def _covers(scene: Scene, items: Sequence[tuple[Topology, Frame]]) -> _Covers:
    """Return the largest looking flat faces; holes in them stay holes."""
    found: list[tuple[float, int, int]] = []
    first = 0
    for k, (shape, _) in enumerate(items):
        area = shape.face_area * scene.slant[first : first + len(shape.normals)]
        able = np.flatnonzero((shape.face_surface < 0) & (scene.slant[first : first + len(area)] > 100 * EDGE_ON))
        found.extend((-float(area[f]), k, int(f)) for f in able)
        first += len(shape.normals)
    shapes: list[shapely.Geometry] = []
    planes: list[tuple[float, float, float]] = []
    starts = np.r_[0, np.cumsum([len(t.points) for t, _ in items])]
    for _, k, f in sorted(found)[: min(MOST, max(LEAST, len(items) // 2))]:
        rings = [scene.points[starts[k] + np.array(r)] for r in items[k][0].ring_points(f)]
        made = _polygon(rings)
        if made is not None:
            shapes.append(made)
            planes.append(_plane(max(rings, key=len)))
    return _foremost(np.array(shapes, dtype=np.object_), np.array(planes).reshape(-1, 3))


def _foremost(shapes: NDArray[np.object_], planes: Floats) -> _Covers:
    """Return the covers without those that lie behind another one: rows of equal parts would else match for ever."""
    j, i = shapely.STRtree(shapes).query(shapes, predicate="covers")
    other = i != j
    i, j = i[other], j[other]
    box = shapely.bounds(shapes[i])
    p, q, r = (planes[j] - planes[i]).T
    least = np.minimum(p * box[:, 0], p * box[:, 2]) + np.minimum(q * box[:, 1], q * box[:, 3]) + r
    keep = np.ones(len(shapes), dtype=bool)
    keep[i[least > CLEAR]] = False
    return _Covers(shapes[keep], planes[keep])


def _polygon(rings: list[Floats]) -> shapely.Geometry | None:
    """Return the face on paper; None when its rings touch so that they make no simple polygon."""
    flat = [shapely.Polygon(r[:, :2]) for r in rings]
    outer = max(range(len(flat)), key=lambda i: flat[i].area)
    holes = [rings[i][:, :2] for i in range(len(flat)) if i != outer]
    made = shapely.Polygon(rings[outer][:, :2], holes)
    return made if made.is_valid else None


def _plane(ring: Floats) -> tuple[float, float, float]:
    """Return the height of a flat face as p·x + q·y + r, from its longest ring (Newell's normal)."""
    after = np.roll(ring, -1, axis=0)
    nx, ny, nz = np.cross(ring, after).sum(axis=0).tolist()
    x, y, z = ring.mean(axis=0).tolist()
    p, q = -nx / nz, -ny / nz
    return p, q, z - p * x - q * y


def _extents(ends: Floats, group: Ints, count: int) -> tuple[Floats, Floats]:
    """Return the boxes (count, 3) low and high around the lines (k, 2, 3) of each group."""
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    np.minimum.at(low, group, ends.min(axis=1))
    np.maximum.at(high, group, ends.max(axis=1))
    return low, high


def _boxes_behind(covers: _Covers, low: Floats, high: Floats) -> Bools:
    """Return which boxes (k, 3) lie within one cover on paper and behind its lowest height over them."""
    result = np.zeros(len(low), dtype=bool)
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    j, i = tree.query(covers.shapes, predicate="covers")
    p, q, r = covers.planes[j].T
    least = np.minimum(p * low[i, 0], p * high[i, 0]) + np.minimum(q * low[i, 1], q * high[i, 1]) + r
    result[i[least > high[i, 2] + CLEAR]] = True
    return result


def _lines_behind(covers: _Covers, ends: Floats) -> Bools:
    result = np.zeros(len(ends), dtype=bool)
    tree = shapely.STRtree(shapely.linestrings(ends[:, :, :2]))
    j, i = tree.query(covers.shapes, predicate="contains")
    p, q, r = covers.planes[j].T
    gap = [p * ends[i, e, 0] + q * ends[i, e, 1] + r - ends[i, e, 2] for e in (0, 1)]
    result[i[np.minimum(gap[0], gap[1]) > CLEAR]] = True
    return result
