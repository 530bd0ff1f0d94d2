"""What lies wholly behind one large flat face, found before any line is cut: it is hidden and hides nothing more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from docgen.geometry.scene import EDGE_ON, Scene
from docgen.geometry.shapes import Frame
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import Topology

FEW = 2500  # lines to be tested up to which culling costs more than it saves
MANY = 6000  # lines from which on it pays even where most coincide, and from which on each is tried alone
LEAST, MOST = 60, 2000  # faces that are tried as covers, the largest on paper: half as many as items, within these
CLEAR = 0.05  # mm that a thing must lie behind a face to be culled by it


@dataclass(frozen=True, slots=True, eq=False)
class _Covers:
    """Large looking faces on paper, and their heights as p·x + q·y + r."""

    shapes: NDArray[np.object_]
    planes: Floats  # (k, 3)


def culled(scene: Scene, items: Sequence[tuple[Topology, Frame]], line: Ints, tested: int) -> Scene:
    """Return the scene without the triangles that lie behind one face, and told which of the edges `line` do.

    Nothing is done where it would not pay: where few lines are to be `tested`, or few of many, since lines that coincide on
    paper are tested once and culled one by one.
    """
    asked = line[scene.looks[scene.edge_faces[line]].any(axis=1)]
    if tested <= FEW or (tested <= MANY and 2 * tested < len(asked)):
        return scene
    covers = _covers(scene, items)
    if not len(covers.shapes):
        return scene
    item = _items_behind(covers, scene, items)
    buried = item[scene.edge_owner]
    asked = asked[~buried[asked]]
    buried[asked] = _groups_behind(covers, scene.points[scene.edges[asked]], scene.edge_curve[asked])
    asked = asked[~buried[asked]]
    if len(asked) > MANY:
        buried[asked] = _lines_behind(covers, scene.points[scene.edges[asked]])
    left = np.flatnonzero(~item[scene.triangle_owner])
    group = scene.face_group[scene.triangle_face[left]]
    left = left[~_groups_behind(covers, scene.points[scene.triangles[left]], group)]
    return replace(
        scene,
        triangles=scene.triangles[left],
        triangle_face=scene.triangle_face[left],
        triangle_owner=scene.triangle_owner[left],
        buried=buried,
    )


def _groups_behind(covers: _Covers, corners: Floats, group: Ints) -> Bools:
    """Return which of the lines or triangles (k, c, 3) lie behind one cover together with all of their `group`."""
    order = np.argsort(group, kind="stable")
    named = group[order]
    first = np.flatnonzero(np.r_[True, named[1:] != named[:-1]][: len(named)])
    result = np.zeros(len(group), dtype=np.bool_)
    if len(first):
        p = corners[order]
        low, high = p[:, 0], p[:, 0]
        for k in range(1, corners.shape[1]):
            low, high = np.minimum(low, p[:, k]), np.maximum(high, p[:, k])
        behind = _boxes_behind(covers, np.minimum.reduceat(low, first), np.maximum.reduceat(high, first))
        result[order] = np.repeat(behind, np.diff(np.r_[first, len(order)]))
    return result


def _items_behind(covers: _Covers, scene: Scene, items: Sequence[tuple[Topology, Frame]]) -> Bools:
    stops = np.cumsum([len(t.points) for t, _ in items])[:-1]
    boxes = np.array([(p.min(axis=0), p.max(axis=0)) for p in np.split(scene.points, stops)])
    return _boxes_behind(covers, boxes[:, 0], boxes[:, 1])


def _covers(scene: Scene, items: Sequence[tuple[Topology, Frame]]) -> _Covers:
    """Return the largest looking flat faces; holes in them stay holes."""
    able = np.flatnonzero(scene.looks & (scene.face_size > 0) & (scene.normals[:, 2] > 100 * EDGE_ON))
    most = min(MOST, max(LEAST, len(items) // 2))
    face = able[np.lexsort((able, -np.round(scene.face_size[able], 3)))][:most]
    face_of, point_of = (
        np.cumsum([0, *n]) for n in zip(*((len(t.normals), len(t.points)) for t, _ in items), strict=True)
    )
    item = np.searchsorted(face_of, face, side="right") - 1
    rings = [
        (k, point_of[i] + np.array(ring))
        for k, (i, f) in enumerate(zip(item.tolist(), (face - face_of[item]).tolist(), strict=True))
        for ring in items[i][0].ring_points(f)
    ]
    return _polygons(scene, face, rings)


def _polygons(scene: Scene, face: Ints, rings: list[tuple[int, Ints]]) -> _Covers:
    """Return the faces on paper; without those whose rings touch so that they make no simple polygon.

    `rings` are the numbers of the points round each face, by the place of the face in `face`.
    """
    of = np.array([k for k, _ in rings], dtype=np.int64)
    point = np.concatenate([np.zeros(0, np.int64), *(r for _, r in rings)])
    ring = np.repeat(np.arange(len(rings)), [len(r) for _, r in rings])
    closed = shapely.linearrings(scene.points[point, :2], indices=ring)
    outer_first = np.lexsort((-shapely.area(shapely.polygons(closed)), of))
    shapes = np.asarray(shapely.polygons(closed[outer_first], indices=of[outer_first]), dtype=np.object_)
    normal, on = (
        scene.normals[face],
        scene.points[point[np.searchsorted(ring, np.searchsorted(of, np.arange(len(face))))]],
    )
    slope = -normal[:, :2] / normal[:, 2:]
    planes = np.c_[slope, on[:, 2] - np.einsum("ij,ij->i", slope, on[:, :2])]
    simple = shapely.is_valid(shapes)
    return _foremost(shapes[simple], planes[simple])


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
