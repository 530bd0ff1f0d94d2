"""What of a view lies uncovered: places on faces for leaders, and stretches of lines that are drawn between things."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from docgen.geometry.covering import covered
from docgen.geometry.hidden import seen_scene
from docgen.geometry.lines import View
from docgen.geometry.shapes import Frame, Vec, Vec2
from docgen.geometry.surfaces import Bools, Floats
from docgen.geometry.topology import Topology

FACETS = 6  # triangles of an item that are looked at, the largest on paper
WITHIN = np.array([[1, 1, 1], [4, 1, 1], [1, 4, 1], [1, 1, 4]], dtype=np.float64)
MORE = np.array([[5, 5, 1], [5, 1, 5], [1, 5, 5]], dtype=np.float64)
"""Near the middles of edges: at the ends of long strips, in the middle of faces of two triangles."""
PIECES = 40  # into which a line is cut
HALF = 0.01  # mm: half the dash that stands for a place
FAR = 1e6  # mm behind everything

Items = Sequence[tuple[Topology, Frame]]


def places(items: Items, view: View) -> list[list[Vec2]]:
    """Return for each item places of it that nothing covers, view mm; none for one that is not seen."""
    return _free(items, view, WITHIN)


def places_near_edges(items: Items, view: View) -> list[list[Vec2]]:
    """Return for each item uncovered places near the edges of its faces, view mm, also where only slivers of it are seen."""
    return _free(items, view, MORE)


def _free(items: Items, view: View, weights: Floats) -> list[list[Vec2]]:
    scene = seen_scene(items, view)
    corners = scene.points[scene.triangles]
    u, v = corners[:, 1, :2] - corners[:, 0, :2], corners[:, 2, :2] - corners[:, 0, :2]
    area = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    order = np.lexsort((np.arange(len(area)), -np.round(area, 3), scene.triangle_owner))
    owner = scene.triangle_owner[order]
    first = np.searchsorted(owner, np.arange(len(items)))
    rank = np.arange(len(order)) - first[owner] if len(order) else order
    order, owner = order[rank < FACETS], owner[rank < FACETS]
    weights = weights / weights.sum(axis=1, keepdims=True)
    spots = np.einsum("wk,nkc->nwc", weights, corners[order]).reshape(-1, 3)
    owner = np.repeat(owner, len(weights))
    aside = np.array([HALF, 0.0, 0.0])
    free = ~_covered(items, view, spots - aside, spots + aside)
    out: list[list[Vec2]] = [[] for _ in items]
    for k, p in zip(owner[free].tolist(), spots[free].tolist(), strict=True):
        out[k].append((p[0], p[1]))
    return out


def bare(items: Items, view: View, points: Sequence[Vec2]) -> list[bool]:
    """Return for points of a view, view mm, whether it shows nothing of any item there."""
    spots = np.array([(x, y, -FAR) for x, y in points], dtype=np.float64).reshape(-1, 3)
    aside = np.array([HALF, 0.0, 0.0])
    return [not c for c in _covered(items, view, spots - aside, spots + aside).tolist()]


def _covered(items: Items, view: View, start: Floats, end: Floats) -> Bools:
    ends = np.stack([start, end], axis=1)
    return covered(seen_scene(items, view), ends, np.full((len(ends), 2), -1))


def in_sight(items: Items, view: View, lines: Sequence[tuple[Vec, Vec]]) -> list[list[tuple[Vec2, Vec2]]]:
    """Return for each line in the piece's axes what is seen of it between the items, view mm, from its beginning on."""
    turn = np.array([view.right, view.up, view.toward])
    ends = np.array(lines, dtype=np.float64).reshape(-1, 2, 3) @ turn.T
    long = np.hypot(*(ends[:, 1] - ends[:, 0])[:, :2].T) > 1e-3
    share = np.linspace(0.0, 1.0, PIECES + 1)[None, :, None]
    steps = ends[long, :1] + share * (ends[long, 1:] - ends[long, :1])
    hidden = _covered(items, view, steps[:, :-1].reshape(-1, 3), steps[:, 1:].reshape(-1, 3)).reshape(-1, PIECES)
    out: list[list[tuple[Vec2, Vec2]]] = [[] for _ in lines]
    for of, line, gone in zip(np.flatnonzero(long).tolist(), steps[:, :, :2].tolist(), hidden.tolist(), strict=True):
        start: int | None = None
        for k, away in enumerate([*gone, True]):
            if not away and start is None:
                start = k
            elif away and start is not None:
                out[of].append(((line[start][0], line[start][1]), (line[k][0], line[k][1])))
                start = None
    return out
