"""What two drawings of one view differ in, and who is right: the topmost surface on both sides of a line."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
import shapely

from docgen.geometry.hidden import Stroke, View
from docgen.geometry.make import unit
from docgen.geometry.solids import Solid

AWAY = 1e4


def polylines(strokes: Sequence[Stroke]) -> list[np.ndarray]:
    found = []
    for s in strokes:
        if s.arc is None:
            found.append(np.array([s.a, s.b]))
            continue
        arc = s.arc
        step = min(2.0, 2 * math.degrees(math.acos(1 - min(1.0, 0.003 / arc.radius))))  # chords within 3 µm
        n = max(2, math.ceil((arc.end_deg - arc.start_deg) / step) + 1)
        t = np.radians(np.linspace(arc.start_deg, arc.end_deg, n))
        found.append(np.c_[arc.centre[0] + arc.radius * np.cos(t), arc.centre[1] + arc.radius * np.sin(t)])
    return found


def inked(lines: Sequence[np.ndarray], width: float = 0.05) -> float:
    """Length of the union of the lines, measured by the ink that a fine pen leaves."""
    drawn = shapely.unary_union([shapely.LineString(p).buffer(width, cap_style="flat") for p in lines if len(p) > 1])
    return drawn.area / (2 * width)


def strays(from_: Sequence[np.ndarray], to: Sequence[np.ndarray], within: float, step: float = 0.7) -> np.ndarray:
    """Points (k, 2) sampled along the lines `from_` that lie further than `within` mm from all lines of `to`."""
    ends = np.array([(a, b) for p in from_ for a, b in itertools.pairwise(p)]).reshape(-1, 2, 2)
    if not len(ends):
        return np.zeros((0, 2))
    long = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    counts = np.maximum(1, np.ceil(long / step)).astype(int)
    which = np.repeat(np.arange(len(ends)), counts)
    share = (np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts) + 0.5) / counts[which]
    points = ends[which, 0] + share[:, None] * (ends[which, 1] - ends[which, 0])
    tree = shapely.STRtree([shapely.LineString(p) for p in to])
    spots = shapely.points(points)
    _, gap = tree.query_nearest(spots, return_distance=True, all_matches=False)
    return points[gap > within]


def top(solids: Sequence[Solid], view: View, at: tuple[float, float]) -> tuple[int, float, tuple[float, float, float]]:
    """The topmost surface at a place of the paper: item (−1 none), height, normal (rounded)."""
    r, u, w = view.right, view.up, view.toward
    start = [r[i] * at[0] + u[i] * at[1] + AWAY * w[i] for i in range(3)]
    end = [start[i] - 2 * AWAY * w[i] for i in range(3)]
    best = (-1, -AWAY, (0.0, 0.0, 0.0))
    for k, solid in enumerate(solids):
        for hit in solid._manifold.ray_cast(start, end):
            z = AWAY - hit.distance * 2 * AWAY
            if z > best[1]:
                n = unit(tuple(hit.normal))
                best = (k, z, n)
    return best


def line_belongs(solids: Sequence[Solid], view: View, at: tuple[float, float], reach: float = 0.05) -> bool:
    """Whether the topmost surface changes around a place: by item, by height, or by more than 12° of slope."""
    seen = [
        top(solids, view, (at[0] + reach * math.cos(a), at[1] + reach * math.sin(a)))
        for a in (k * math.tau / 12 + 0.1 for k in range(12))
    ]
    items = {s[0] for s in seen}
    if len(items) > 1:
        return True
    heights = [s[1] for s in seen]
    if max(heights) - min(heights) > 0.5:
        return True
    return any(
        sum(a * b for a, b in zip(p[2], q[2], strict=True)) < math.cos(math.radians(12)) for p in seen for q in seen
    )
