"""What lies over a spot of the paper: whether lines, asked at their middle, are covered on both of their sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely

from docgen.geometry.scene import Scene, boxes
from docgen.geometry.surfaces import Bools, Floats, Ints

HAIR = 3e-3  # mm to each side of a line where it is asked what covers it
DEPTH = 0.02  # mm; what lies less in front than this lies in the same place
KEPT = 4  # scenes of which that is kept: three views and one askew
BLOCK = 20_000  # lines of which it is asked at once what covers them, so that memory stays small


def covered(scene: Scene, ends: Floats, own_faces: Ints) -> Bools:
    """Return whether lines (k, 2, 3) are covered on both sides at their middle; `own_faces` (k, 2) never cover."""
    result: Bools = np.zeros(len(ends), dtype=np.bool_)
    if not len(scene.triangles) or not len(ends):
        return result
    tree, planes, wider = _indexed(scene)
    for start in range(0, len(ends), BLOCK):
        block = slice(start, start + BLOCK)
        result[block] = _covered(scene, tree, planes, wider, ends[block], own_faces[block])
    return result


@lru_cache(maxsize=KEPT)
def _indexed(scene: Scene) -> tuple[shapely.STRtree, Sequence[Planes], Sequence[Planes]]:
    """Return the triangles of a scene by their boxes, their heights and sides, and these a little wider.

    Kept, since one view is asked for its lines, for places of leaders, and for what lies between things.
    """
    corners = scene.points[scene.triangles]
    planes = (_heights(corners), *_sides(corners))
    wider = tuple(Planes(f.p, f.q, f.r + 2 * HAIR * np.hypot(f.p, f.q)) for f in planes)
    return shapely.STRtree(boxes(corners, HAIR)), planes, wider


def _covered(
    scene: Scene, tree: shapely.STRtree, planes: Sequence[Planes], wider: Sequence[Planes], ends: Floats, own: Ints
) -> Bools:
    middle = (ends[:, 0] + ends[:, 1]) / 2
    i, j = tree.query(shapely.points(middle[:, :2]))
    near = _over(wider, middle, middle[:, 2], i, j)  # few of the many whose boxes meet
    i, j = i[near], j[near]
    face = scene.triangle_face[j]
    other = (face != own[i, 0]) & (face != own[i, 1])
    i, j = i[other], j[other]
    d = ends[:, 1, :2] - ends[:, 0, :2]
    d /= np.hypot(d[:, 0], d[:, 1])[:, None]
    aside = HAIR * np.stack([-d[:, 1], d[:, 0]], axis=1)
    for spot in (middle[:, :2] + aside, middle[:, :2] - aside):
        over = _over(planes, spot, middle[:, 2], i, j)
        result: Bools = np.zeros(len(ends), dtype=np.bool_)
        result[i[over]] = True
        left = result[i]  # what is open on one side needs no second look
        i, j = i[left], j[left]
    return result


def _over(planes: Sequence[Planes], spot: Floats, above: Floats, i: Ints, j: Ints) -> Ints:
    """Return those pairs of a spot `i` and a triangle `j` in which the triangle lies over the spot.

    `planes` are the height and the three sides. One condition after the other, each asked of what the one before it has left.
    """
    x, y = np.ascontiguousarray(spot[:, 0]), np.ascontiguousarray(spot[:, 1])
    left = np.arange(len(i))
    for k, plane in enumerate(planes):
        u, v = i[left], j[left]
        value = plane.p[v] * x[u] + plane.q[v] * y[u] + plane.r[v]
        left = left[value > (0.0 if k else above[u])]
    return left


@dataclass(frozen=True, slots=True, eq=False)
class Planes:
    """One function p·x + q·y + r for each triangle."""

    p: Floats
    q: Floats
    r: Floats


def _heights(t: Floats) -> Planes:
    """Return the height of each looking triangle, less what counts as the same place."""
    n = np.cross(t[:, 1] - t[:, 0], t[:, 2] - t[:, 0])
    steep = np.maximum(n[:, 2], 1e-12)
    p, q = -n[:, 0] / steep, -n[:, 1] / steep
    r = t[:, 0, 2] - p * t[:, 0, 0] - q * t[:, 0, 1] - DEPTH - HAIR * np.hypot(p, q)
    return Planes(p, q, r)


def _sides(t: Floats) -> tuple[Planes, ...]:
    """Return for each side of the triangles, counter-clockwise on paper, what is above 0 within or a hair outside."""
    out: list[Planes] = []
    for k in range(3):
        a, b = t[:, k, :2], t[:, (k + 1) % 3, :2]
        p, q = a[:, 1] - b[:, 1], b[:, 0] - a[:, 0]
        out.append(Planes(p, q, 1e-6 * np.hypot(p, q) - p * a[:, 0] - q * a[:, 1]))
    return tuple(out)
