"""Which stretches of the candidate edges are seen: cut at contours, then one test for each piece.

More cuts than needed do no harm; a piece is hidden only if it is covered on both of its sides.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from docgen.geometry.covering import DEPTH, covered
from docgen.geometry.scene import Candidates, Scene, boxes
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import components

NEAR_END = 2e-3  # mm; a cut closer to an end of an edge is a cut at that end
ON_LINE = 5e-3  # mm off an edge within which the end of a contour cuts it


@dataclass(frozen=True, slots=True, eq=False)
class Stretches:
    """Stretches of candidate edges: ends (k, 2, 3) in view axes, the edge, and whether it is seen."""

    ends: Floats
    edge: Ints
    seen: Bools


def stretches(scene: Scene, found: Candidates, contour: Ints) -> Stretches:
    """Return all candidates cut up, where `contour` edges pass, into stretches seen or hidden from end to end."""
    open_edge = found.edge[~found.back]
    cut = _cuts(scene, open_edge, contour)
    part = _parts(scene, open_edge, cut)
    piece = _pieces(scene, open_edge, part, cut)
    seen = _seen(scene, open_edge, part, piece)
    back = found.edge[found.back]
    ends = np.concatenate([part.ends, scene.points[scene.edges[back]]])
    edge = np.concatenate([open_edge[part.of], back])
    return _run_together(Stretches(ends, edge, np.concatenate([seen, np.zeros(len(back), dtype=bool)])))


@dataclass(frozen=True, slots=True, eq=False)
class _Cuts:
    """Where candidates are cut: row, place along it (0 to 1), rows in order; and ends at which something passes."""

    row: Ints
    at: Floats
    broken: Bools  # (candidates, 2)


@dataclass(frozen=True, slots=True, eq=False)
class _Parts:
    """Parts of candidates between cuts: row `of`, ends (k, 2, 3), whether they begin or end their candidate."""

    of: Ints
    ends: Floats
    first: Bools
    last: Bools


@dataclass(frozen=True, slots=True, eq=False)
class _Columns:
    """Lines by columns, so that pairs of them gather no more than a condition asks: start, way, length on paper."""

    x: Floats
    y: Floats
    z: Floats
    dx: Floats
    dy: Floats
    dz: Floats
    size: Floats
    points: Ints  # (k, 2): the numbers of both ends

    @staticmethod
    def of(ends: Floats, points: Ints) -> _Columns:
        x, y, z = np.ascontiguousarray(ends[:, 0].T)
        dx, dy, dz = np.ascontiguousarray((ends[:, 1] - ends[:, 0]).T)
        return _Columns(x, y, z, dx, dy, dz, np.sqrt(dx * dx + dy * dy), points)


def _cuts(scene: Scene, edge: Ints, contour: Ints) -> _Cuts:
    ends = scene.points[scene.edges[edge]]
    own = _Columns.of(ends, scene.edges[edge])
    rows: list[Ints] = []
    ats: list[Floats] = []
    if len(edge) and len(contour):
        lines = scene.points[scene.edges[contour]]
        other = _Columns.of(lines, scene.edges[contour])
        tree = shapely.STRtree(boxes(lines, 0.0))
        i, j = tree.query(boxes(ends, ON_LINE))
        deep = np.minimum(ends[:, 0, 2], ends[:, 1, 2]) - DEPTH
        high = np.maximum(lines[:, 0, 2], lines[:, 1, 2])
        near = (edge[i] != contour[j]) & (high[j] > deep[i])
        i, j = i[near], j[near]
        wx, wy = other.x[j] - own.x[i], other.y[j] - own.y[i]
        for row, at in (
            _crossings(own, other, i, j, wx, wy),
            _met_ends(own, other, i, j, wx, wy),
            _pierced(scene, edge, ends),
        ):
            rows.append(row)
            ats.append(at)
    return _sorted_cuts(np.concatenate([np.zeros(0, np.int64), *rows]), np.concatenate([np.zeros(0), *ats]), own.size)


def _crossings(own: _Columns, other: _Columns, i: Ints, j: Ints, wx: Floats, wy: Floats) -> tuple[Ints, Floats]:
    """Return (candidate, place) where a contour that is not behind crosses a candidate; they share no point.

    `wx` and `wy` lead from the candidate's start to the contour's. Each condition is asked of what the last has left.
    """
    dx, dy, ex, ey = own.dx[i], own.dy[i], other.dx[j], other.dy[j]
    den = dx * ey - dy * ex
    size = own.size[i]
    k = np.flatnonzero(np.abs(den) > 1e-7 * size * other.size[j])
    s = (wx[k] * ey[k] - wy[k] * ex[k]) / den[k]
    slack = NEAR_END / size[k]
    inside = (s > -slack) & (s < 1 + slack)
    k, s = k[inside], s[inside]
    t = (wx[k] * dy[k] - wy[k] * dx[k]) / den[k]
    slack = NEAR_END / other.size[j[k]]
    inside = (t > -slack) & (t < 1 + slack)
    k, s, t = k[inside], s[inside], t[inside]
    u, v = i[k], j[k]
    before = other.z[v] + t * other.dz[v] > own.z[u] + s * own.dz[u] - DEPTH
    share = (own.points[u][:, :, None] == other.points[v][:, None, :]).any(axis=(1, 2))
    hit = before & ~share
    return u[hit], s[hit]


def _met_ends(own: _Columns, other: _Columns, i: Ints, j: Ints, wx: Floats, wy: Floats) -> tuple[Ints, Floats]:
    """Return (candidate, place) where an end of a contour that is not behind lies on a candidate."""
    size = own.size[i]
    ux, uy = own.dx[i] / size, own.dy[i] / size
    rows: list[Ints] = []
    ats: list[Floats] = []
    for end in (0, 1):
        px, py = (wx, wy) if end == 0 else (wx + other.dx[j], wy + other.dy[j])
        k = np.flatnonzero(np.abs(px * uy - py * ux) < ON_LINE)
        run = px[k] * ux[k] + py[k] * uy[k]
        on = (run > -NEAR_END) & (run < size[k] + NEAR_END)
        k, run = k[on], run[on]
        u, v = i[k], j[k]
        at = run / size[k]
        before = other.z[v] + end * other.dz[v] > own.z[u] + at * own.dz[u] - DEPTH
        met = other.points[v, end]
        hit = before & (met != own.points[u, 0]) & (met != own.points[u, 1])
        rows.append(u[hit])
        ats.append(at[hit])
    return np.concatenate(rows), np.concatenate(ats)


def _pierced(scene: Scene, edge: Ints, ends: Floats) -> tuple[Ints, Floats]:
    """Return (candidate, place) where a candidate passes through the plane of another item's face."""
    i, j = _near_each_other(scene, edge, ends)
    if not len(i):
        return np.zeros(0, np.int64), np.zeros(0)
    t = scene.points[scene.triangles[j]]
    n = np.cross(t[:, 1] - t[:, 0], t[:, 2] - t[:, 0])
    n /= np.maximum(np.sqrt(np.einsum("ij,ij->i", n, n)), 1e-12)[:, None]
    g0 = np.einsum("ij,ij->i", ends[i, 0] - t[:, 0], n)
    g1 = np.einsum("ij,ij->i", ends[i, 1] - t[:, 0], n)
    through = (g0 * g1 < 0) & (np.minimum(np.abs(g0), np.abs(g1)) > DEPTH)
    return i[through], (g0 / np.where(through, g0 - g1, 1.0))[through]


def _near_each_other(scene: Scene, edge: Ints, ends: Floats) -> tuple[Ints, Ints]:
    """Return (candidate, triangle): lines of one item and triangles of another where the boxes of the two overlap."""
    if not len(scene.meeting):
        return np.zeros(0, np.int64), np.zeros(0, np.int64)
    corners = scene.points[scene.triangles]
    line = _extents(ends @ scene.turn)
    triangle = _extents(corners @ scene.turn)
    starts = np.arange(len(scene.boxes) + 1)
    by_line = np.searchsorted(scene.edge_owner[edge], starts)
    by_triangle = np.searchsorted(scene.triangle_owner, starts)
    rows: list[Ints] = []
    columns: list[Ints] = []
    for a, b in scene.meeting.tolist():
        low = np.maximum(scene.boxes[a, 0], scene.boxes[b, 0]) - ON_LINE  # a face at the very end of an item counts
        high = np.minimum(scene.boxes[a, 1], scene.boxes[b, 1]) + ON_LINE
        mine = by_line[a] + _meet(line[:, by_line[a] : by_line[a + 1]], low, high)
        theirs = by_triangle[b] + _meet(triangle[:, by_triangle[b] : by_triangle[b + 1]], low, high)
        rows.append(np.repeat(mine, len(theirs)))
        columns.append(np.tile(theirs, len(mine)))
    i, j = np.concatenate(rows), np.concatenate(columns)
    near = ((line[0, i] <= triangle[1, j] + ON_LINE) & (line[1, i] >= triangle[0, j] - ON_LINE)).all(axis=1)
    return i[near], j[near]


def _extents(points: Floats) -> Floats:
    """Return the boxes (2, k, 3) around the points (k, n, 3) of lines or triangles."""
    return np.stack([points.min(axis=1), points.max(axis=1)])


def _meet(boxes: Floats, low: Floats, high: Floats) -> Ints:
    """Return which of the boxes (2, k, 3) meet the one between two corners."""
    return np.flatnonzero(((boxes[0] <= high) & (boxes[1] >= low)).all(axis=1))


def _sorted_cuts(row: Ints, at: Floats, size: Floats) -> _Cuts:
    """Return the cuts in order; those at an end told apart, those closer than 0.002 mm to each other made one."""
    broken = np.zeros((len(size), 2), dtype=bool)
    run = at * size[row]
    broken[row[run < NEAR_END], 0] = True
    broken[row[run > size[row] - NEAR_END], 1] = True
    inner = (run >= NEAR_END) & (run <= size[row] - NEAR_END)
    row, at, run = row[inner], at[inner], run[inner]
    order = np.lexsort((run, row))
    row, at, run = row[order], at[order], run[order]
    fresh = np.r_[True, (row[1:] != row[:-1]) | (run[1:] - run[:-1] > NEAR_END / 2)][: len(row)]
    return _Cuts(row[fresh], at[fresh], broken)


def _parts(scene: Scene, edge: Ints, cut: _Cuts) -> _Parts:
    count = len(edge)
    row = np.concatenate([np.arange(count), cut.row])
    at = np.concatenate([np.zeros(count), cut.at])
    order = np.lexsort((at, row))
    row, start = row[order], at[order]
    last = np.r_[row[1:] != row[:-1], True][: len(row)]
    first = np.r_[True, last[:-1]][: len(row)]
    stop = np.where(last, 1.0, np.r_[start[1:], 1.0][: len(row)])
    a = scene.points[scene.edges[edge[row], 0]]
    d = scene.points[scene.edges[edge[row], 1]] - a
    return _Parts(row, np.stack([a + start[:, None] * d, a + stop[:, None] * d], axis=1), first, last)


def _pieces(scene: Scene, edge: Ints, part: _Parts, cut: _Cuts) -> Ints:
    """Return for each part its piece: chords of one curve go together until something passes between them."""
    looks = scene.looks[scene.edge_faces[edge]]
    side = np.where(scene.edge_faces[edge, 0] < scene.edge_faces[edge, 1], looks[:, 0], looks[:, 1])
    group = scene.edge_curve[edge] * 4 + 2 * looks.all(axis=1) + side
    rows, keys = [], []
    for k, flag in ((0, part.first), (1, part.last)):
        free = np.flatnonzero(flag)
        free = free[~cut.broken[part.of[free], k]]
        rows.append(free)
        keys.append(np.stack([scene.edges[edge[part.of[free]], k], group[part.of[free]]], axis=1))
    row, key = np.concatenate(rows), np.concatenate(keys)
    order = np.lexsort((row, key[:, 1], key[:, 0]))
    row, key = row[order], key[order]
    same = (key[1:] == key[:-1]).all(axis=1)
    padded = np.r_[False, same, False, False][: len(row) + 2]  # row k pairs with k + 1 where padded[k + 1]
    link = np.flatnonzero(padded[1:-1] & ~padded[:-2] & ~padded[2:])
    return components(len(part.of), row[link], row[link + 1])


def _seen(scene: Scene, edge: Ints, part: _Parts, piece: Ints) -> Bools:
    """Return for each part whether its piece is seen: one test at the middle of the piece's longest part."""
    if not len(part.of):
        return np.zeros(0, dtype=bool)
    flat = part.ends[:, 1, :2] - part.ends[:, 0, :2]
    size = np.sqrt(np.einsum("ij,ij->i", flat, flat))
    order = np.lexsort((np.arange(len(piece)), -np.round(size, 6), piece))
    first = np.r_[True, piece[order][1:] != piece[order][:-1]]
    probe = order[first]
    hidden = covered(scene, part.ends[probe], scene.edge_faces[edge[part.of[probe]]])
    verdict = np.zeros(len(piece), dtype=bool)
    verdict[piece[probe]] = ~hidden
    return verdict[piece]


def _run_together(s: Stretches) -> Stretches:
    """Return the stretches with neighbours on one edge that are both seen, or both hidden, made one."""
    if not len(s.edge):
        return s
    fresh = np.r_[True, (s.edge[1:] != s.edge[:-1]) | (s.seen[1:] != s.seen[:-1])]
    first = np.flatnonzero(fresh)
    last = np.r_[first[1:] - 1, len(s.edge) - 1]
    ends = np.stack([s.ends[first, 0], s.ends[last, 1]], axis=1)
    return Stretches(ends, s.edge[first], s.seen[first])
