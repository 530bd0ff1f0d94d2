"""Which points of each part a view shows uncovered: where a leader may point."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from docgen.drawing.records import Point
from docgen.geometry.lines import View
from docgen.piece.model import Piece
from docgen.piece.solids import Solids

Floats = NDArray[np.float64]

SAMPLES = 24  # points tried on each part
DEPTH = 0.05  # mm: a face this much nearer covers
HAIR = 1e-6  # mm: no sample on a triangle's rim is lost
LEAST = 8.0  # mm² twice over: slivers of rounded edges neither carry a leader nor cover its end to the eye


@dataclass(frozen=True, slots=True)
class Scene:
    """All triangles of the piece as one view sees them: corners (n, 3, 2), depth (n, 3), owner (n,).

    `boxes` (4, n) are left, low, right and high of each, a hair wider.
    """

    corners: Floats
    depth: Floats
    owner: NDArray[np.int64]
    boxes: Floats


def scene(piece: Piece, solids: Solids, view: View) -> Scene:
    """Return the triangles that look at the viewer, by the part's place in the piece's list."""
    right, up, toward = (np.array(v) for v in (view.right, view.up, view.toward))
    corners, depths, owners = [], [], []
    for number, part in enumerate(piece.parts):
        vertices, triangles = solids.solid(part.path).moved(part.frame).mesh()
        points = vertices[triangles]
        normal = np.cross(points[:, 1] - points[:, 0], points[:, 2] - points[:, 0])
        facing = points[normal @ toward > LEAST]
        corners.append(np.stack([facing @ right, facing @ up], axis=-1))
        depths.append(facing @ toward)
        owners.append(np.full(len(facing), number, dtype=np.int64))
    every = np.concatenate(corners)
    boxes = np.concatenate([every.min(axis=1).T - HAIR, every.max(axis=1).T + HAIR])
    return Scene(every, np.concatenate(depths), np.concatenate(owners), boxes)


def seen_points(piece: Piece, solids: Solids, view: View) -> dict[str, list[Point]]:
    """Return, for each part of which something is seen, points of it that nothing covers, view mm."""
    told = scene(piece, solids, view)
    out: dict[str, list[Point]] = {}
    for number, part in enumerate(piece.parts):
        mine = told.owner == number
        samples, depth = _samples(told.corners[mine], told.depth[mine])
        top = _top(samples, told)
        free = [(float(p[0]), float(p[1])) for p, d, t in zip(samples, depth, top, strict=True) if d >= t - DEPTH]
        if free:
            out[part.path] = free
    return out


def _samples(corners: Floats, depth: Floats) -> tuple[Floats, Floats]:
    """Return points within the largest triangles, with their depth."""
    if not len(corners):
        return np.zeros((0, 2)), np.zeros(0)
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
    largest = np.argsort(-area, kind="stable")[: SAMPLES // 4]
    weights = np.array([[1, 1, 1], [4, 1, 1], [1, 4, 1], [1, 1, 4]], dtype=np.float64)
    weights /= weights.sum(axis=1, keepdims=True)
    points = np.einsum("wk,nkc->nwc", weights, corners[largest]).reshape(-1, 2)
    return points, np.einsum("wk,nk->nw", weights, depth[largest]).reshape(-1)


def _top(points: Floats, told: Scene) -> Floats:
    """Return the depth of the nearest triangle over each point; −inf where there is none."""
    if not len(points):
        return np.zeros(0)
    x, y = points[:, :1], points[:, 1:]
    left, low, right, high = told.boxes
    at, over = np.nonzero((x >= left) & (x <= right) & (y >= low) & (y <= high))
    a, b, c = (told.corners[over, k] for k in range(3))
    p = points[at] - a
    b, c = b - a, c - a
    whole = b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0]
    u = (p[:, 0] * c[:, 1] - p[:, 1] * c[:, 0]) / whole
    v = (b[:, 0] * p[:, 1] - b[:, 1] * p[:, 0]) / whole
    inside = (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9)
    d0, d1, d2 = (told.depth[over, k] for k in range(3))
    top: Floats = np.full(len(points), -np.inf)
    np.maximum.at(top, at[inside], (d0 + u * (d1 - d0) + v * (d2 - d0))[inside])
    return top
