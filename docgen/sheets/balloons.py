"""Part numbers in balloons: a point of each part that is seen, a place in the clear, leaders that do not cross."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Point, Record
from docgen.geometry.lines import View
from docgen.sheets.whole import Whole

Floats = NDArray[np.float64]

SAMPLES = 24  # points tried on each part
DEPTH = 0.05  # mm: a face this much nearer covers
CLEAR = 3.5  # mm around a balloon
TURNS = tuple(range(0, 360, 15))


@dataclass(frozen=True, slots=True)
class Scene:
    """All triangles of the piece as one view sees them: corners (n, 3, 2), depth (n, 3), owner (n,)."""

    corners: Floats
    depth: Floats
    owner: NDArray[np.int64]


def scene(whole: Whole, view: View) -> Scene:
    """Return the triangles that look at the viewer, by the part's place in the piece's list."""
    right, up, toward = (np.array(v) for v in (view.right, view.up, view.toward))
    corners, depths, owners = [], [], []
    for number, part in enumerate(whole.piece.parts):
        vertices, triangles = whole.solids.solid(part.path).moved(part.frame).mesh()
        points = vertices[triangles]
        normal = np.cross(points[:, 1] - points[:, 0], points[:, 2] - points[:, 0])
        facing = points[normal @ toward > 1e-9]
        corners.append(np.stack([facing @ right, facing @ up], axis=-1))
        depths.append(facing @ toward)
        owners.append(np.full(len(facing), number, dtype=np.int64))
    return Scene(np.concatenate(corners), np.concatenate(depths), np.concatenate(owners))


def seen_points(whole: Whole, view: View) -> dict[str, list[Point]]:
    """Return, for each part of which something is seen, points of it that nothing covers, view mm."""
    told = scene(whole, view)
    out: dict[str, list[Point]] = {}
    for number, part in enumerate(whole.piece.parts):
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
    a, b, c = (told.corners[None, :, k] for k in range(3))
    p = points[:, None, :]
    whole = (b - a)[..., 0] * (c - a)[..., 1] - (b - a)[..., 1] * (c - a)[..., 0]
    u = ((p - a)[..., 0] * (c - a)[..., 1] - (p - a)[..., 1] * (c - a)[..., 0]) / whole
    v = ((b - a)[..., 0] * (p - a)[..., 1] - (b - a)[..., 1] * (p - a)[..., 0]) / whole
    inside = (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9)
    d0, d1, d2 = (told.depth[None, :, k] for k in range(3))
    top: Floats = np.where(inside, d0 + u * (d1 - d0) + v * (d2 - d0), -np.inf).max(axis=1)
    return top


def clearest(points: Sequence[Point], engine: Engine) -> Point:
    """Return, on paper, the point that lies furthest from every line and text of the view."""
    lines = [(a, b) for a, b, _ in engine.occupied.lines]

    def room(p: Point) -> float:
        return min((_away(p, a, b) for a, b in lines), default=math.inf)

    return max((engine.paper(p) for p in points), key=lambda p: (round(room(p), 3), -p[0], p[1]))


def _away(p: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    n = dx * dx + dy * dy
    t = 0.0 if n == 0 else max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / n))
    return math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)


def place(wanted: Sequence[tuple[int, Point]], engine: Engine, height: float) -> tuple[list[Record], list[int]]:
    """Return the balloons for (number, point on paper) outside the view, and the numbers that found no place."""
    records: list[Record] = []
    missed: list[int] = []
    for number, at in sorted(wanted, key=lambda w: (_reach(w[1], engine.outline), w[0])):
        centre = _centre(at, engine, symbols.balloon_radius(height))
        if centre is None:
            missed.append(number)
            continue
        radius = symbols.balloon_radius(height)
        long = math.dist(at, centre)
        rim = tuple(c + (p - c) * radius / long for c, p in zip(centre, at, strict=True))
        engine.occupied.add_line(at, (rim[0], rim[1]), "leader")
        engine.occupied.add_box(Box(centre[0], centre[1], radius, radius))
        records += [Line(at, (rim[0], rim[1]), Pen.THIN), *symbols.dot(at), *symbols.balloon(centre, number, height)]
    return records, missed


def _reach(p: Point, outline: Bounds) -> float:
    """Return how far a point lies inside the outline: those near the rim are placed first."""
    return round(min(p[0] - outline[0], outline[2] - p[0], p[1] - outline[1], outline[3] - p[1]), 3)


def _centre(at: Point, engine: Engine, radius: float) -> Point | None:
    x0, y0, x1, y1 = engine.outline
    best: Point | None = None
    price = math.inf
    for long in (12.0 + 5.0 * k for k in range(50)):
        if 0.25 * long >= price:
            break
        for turn in TURNS:
            c = (at[0] + long * math.cos(math.radians(turn)), at[1] + long * math.sin(math.radians(turn)))
            if x0 - radius - CLEAR < c[0] < x1 + radius + CLEAR and y0 - radius - CLEAR < c[1] < y1 + radius + CLEAR:
                continue
            cost = 0.25 * long + (0.5 if turn % 90 == 0 else 0.0)
            if cost < price and engine.occupied.free(Box(c[0], c[1], radius, radius), CLEAR - 1.5):
                crossed = engine.occupied.crossed(at, c)
                struck = engine.occupied.strikes(at, c, 0.6) or "leader" in crossed
                along = engine.occupied.doubled(at, c, 1.0, ("view", "dimension", "extension", "leader"))
                cost += 0.4 * crossed.count("view") + 4.0 * (len(crossed) - crossed.count("view"))
                if not struck and not along and cost < price:
                    best, price = c, cost
    return best
