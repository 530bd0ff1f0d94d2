"""From stretches to strokes: nearest first, visible before hidden, joined, true circles as arcs."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import shapely

from docgen.geometry.lines import ArcOf, Drawn, Stroke
from docgen.geometry.scene import Scene
from docgen.geometry.shapes import Vec2
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import SHARP
from docgen.geometry.visibility import Stretches, boxes

CHORD_MERGE = 0.02  # mm; twice the sag, so that equal circles cut up differently are one
PARALLEL = 0.12  # sine; chords of two cuttings of one circle lean no more than this to each other
STRAIGHT = 1e-4  # sine below which two strokes that meet run straight on
GRID = 1e3  # ends that agree to 1/1000 mm meet


@dataclass(frozen=True, slots=True)
class _Group:
    """Strokes that stand or fall together: one alone, or the chords of a curve in order."""

    seen: bool
    strokes: tuple[Stroke, ...]

    def key(self) -> tuple[object, ...]:
        first = self.strokes[0]
        arc = first.arc
        circle = (arc.centre, arc.radius, arc.start_deg, arc.end_deg) if arc else ()
        return (first.a, first.b, circle, len(self.strokes), first.owner, first.kind)


def drawn(scene: Scene, found: Stretches, merge: float) -> Drawn:
    """Return the strokes of a view; lines closer to each other than `merge` mm become one, the nearest."""
    left = uncovered(scene, found, merge)
    circle = scene.edge_circle[left.edge]
    round_ = (circle >= 0) & scene.square[circle] if len(scene.square) else np.zeros(len(circle), dtype=bool)
    groups = [*_arcs(scene, _only(left, round_)), *_lines(scene, _only(left, ~round_))]
    groups.sort(key=_Group.key)
    return Drawn(_numbered(g for g in groups if g.seen), _numbered(g for g in groups if not g.seen))


def uncovered(scene: Scene, s: Stretches, merge: float) -> Stretches:
    """Return what is left of the stretches where another one that goes before lies within `merge` mm.

    Seen goes before hidden, then the nearer to the viewer, then the item that comes first.
    """
    if not len(s.edge):
        return s
    depth = np.round(s.ends[:, :, 2].mean(axis=1), 2)
    order = np.lexsort((np.arange(len(s.edge)), scene.edge_owner[s.edge], -depth, ~s.seen))
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    tree = shapely.STRtree(boxes(s.ends, 0.0))
    b, a = tree.query(boxes(s.ends, max(merge, CHORD_MERGE)))
    before = rank[a] < rank[b]
    a, b = a[before], b[before]
    chord = scene.edge_circle[s.edge] >= 0
    near = np.where(chord[a] | chord[b], CHORD_MERGE, merge)
    pair, low, high = _common(s.ends[a], s.ends[b], near)
    row, start, stop = _rest(len(s.edge), b[pair], low, high)
    from_, way = s.ends[row, 0], s.ends[row, 1] - s.ends[row, 0]
    size = np.hypot(way[:, 0], way[:, 1])
    keep = ((stop - start) * size > CHORD_MERGE) | (stop - start > 1 - 1e-9)
    ends = np.stack([from_ + start[:, None] * way, from_ + stop[:, None] * way], axis=1)
    return Stretches(ends[keep], s.edge[row][keep], s.seen[row][keep])


def _common(a: Floats, b: Floats, near: Floats) -> tuple[Ints, Floats, Floats]:
    """Return (pair, from, to): where on `b` (0 to 1) the line `a` runs alongside within `near` mm."""
    da, db = a[:, 1, :2] - a[:, 0, :2], b[:, 1, :2] - b[:, 0, :2]
    la, lb = np.hypot(da[:, 0], da[:, 1]), np.hypot(db[:, 0], db[:, 1])
    ua, ub = da / la[:, None], db / lb[:, None]
    aligned = np.abs(ua[:, 0] * ub[:, 1] - ua[:, 1] * ub[:, 0]) < PARALLEL
    use_a = la >= lb
    base, way = np.where(use_a[:, None], a[:, 0, :2], b[:, 0, :2]), np.where(use_a[:, None], ua, ub)
    short = np.where(use_a[:, None, None], b[:, :, :2], a[:, :, :2])
    w = short - base[:, None]
    run = w[:, :, 0] * way[:, None, 0] + w[:, :, 1] * way[:, None, 1]
    off = np.abs(w[:, :, 0] * way[:, None, 1] - w[:, :, 1] * way[:, None, 0]).max(axis=1)
    # on a: where 0 and la lie on b; on b: the runs themselves
    span = np.where(np.abs(run[:, 1] - run[:, 0]) < 1e-12, 1.0, run[:, 1] - run[:, 0])
    t0 = np.where(use_a, -run[:, 0] / span, run[:, 0] / lb)
    t1 = np.where(use_a, (la - run[:, 0]) / span, run[:, 1] / lb)
    low, high = np.clip(np.minimum(t0, t1), 0, 1), np.clip(np.maximum(t0, t1), 0, 1)
    pair = np.flatnonzero(aligned & (off <= near) & (high > low))
    return pair, low[pair], high[pair]


def _rest(count: int, row: Ints, low: Floats, high: Floats) -> tuple[Ints, Floats, Floats]:
    """Return (row, from, to) of what the intervals leave of [0, 1] in each of `count` rows."""
    every = np.arange(count)
    row = np.concatenate([every, row, every])
    low = np.concatenate([np.zeros(count), low, np.ones(count)])
    high = np.concatenate([np.zeros(count), high, np.ones(count)])
    order = np.lexsort((low, row))
    row, low, high = row[order], low[order], high[order]
    reach = np.maximum.accumulate(row * 2.0 + high) - row * 2.0
    gap = np.flatnonzero((row[1:] == row[:-1]) & (low[1:] > reach[:-1] + 1e-9))
    return row[gap], reach[gap], low[gap + 1]


def _only(s: Stretches, which: Bools) -> Stretches:
    return Stretches(s.ends[which], s.edge[which], s.seen[which])


def _arcs(scene: Scene, s: Stretches) -> list[_Group]:
    """Return the arcs that stretches on circles seen square make up."""
    circle = scene.edge_circle[s.edge]
    rel = s.ends[:, :, :2] - scene.circle_centre[circle][:, None, :2]
    angle = np.degrees(np.arctan2(rel[:, :, 1], rel[:, :, 0]))
    turn = (angle[:, 1] - angle[:, 0] + 180) % 360 - 180
    start = np.where(turn >= 0, angle[:, 0], angle[:, 1]) % 360
    runs: dict[tuple[int, bool], list[tuple[float, float]]] = {}
    for c, seen, a, span in zip(circle.tolist(), s.seen.tolist(), start.tolist(), np.abs(turn).tolist(), strict=True):
        runs.setdefault((c, seen), []).append((a, a + span))
    owner = dict(zip(circle.tolist(), scene.edge_owner[s.edge].tolist(), strict=True))
    groups: list[_Group] = []
    for (c, seen), spans in runs.items():
        x, y = scene.circle_centre[c, :2].tolist()
        radius = float(scene.circle_radius[c])
        for low, high in _joined(spans, math.degrees(2 * CHORD_MERGE / radius)):
            arc = ArcOf((_r(x), _r(y)), _r(radius), _r(low), _r(high))
            ends = [_at(arc, arc.start_deg), _at(arc, arc.end_deg)]
            groups.append(_Group(seen, (Stroke(ends[0], ends[1], owner[c], "sharp", arc),)))
    return groups


def _joined(spans: list[tuple[float, float]], slack: float) -> list[tuple[float, float]]:
    """Return angular intervals joined where they touch, round the circle too; a full round is (0, 360)."""
    spans = sorted(spans)
    made = [spans[0]]
    for low, high in spans[1:]:
        if low <= made[-1][1] + slack:
            made[-1] = (made[-1][0], max(made[-1][1], high))
        else:
            made.append((low, high))
    first, last = made[0], made[-1]
    if last[1] + slack >= first[0] + 360:
        if len(made) == 1:
            return [(0.0, 360.0)]
        made = [*made[1:-1], (last[0], max(last[1], first[1] + 360))]
    return made


def _at(arc: ArcOf, degrees: float) -> Vec2:
    a = math.radians(degrees)
    return (_r(arc.centre[0] + arc.radius * math.cos(a)), _r(arc.centre[1] + arc.radius * math.sin(a)))


def _lines(scene: Scene, s: Stretches) -> list[_Group]:
    """Return straight strokes, joined where they run on, and the chords of curves in order."""
    group = [
        (bool(seen), int(owner), "sharp" if kind == SHARP else "smooth")
        for seen, owner, kind in zip(s.seen, scene.edge_owner[s.edge], scene.edge_kind[s.edge], strict=True)
    ]
    ends = np.round(s.ends[:, :, :2], 6) + 0.0
    lines: list[tuple[Vec2, Vec2]] = [(_v(e[0]), _v(e[1])) for e in ends.tolist()]
    curve = scene.edge_curve[s.edge].tolist()
    straight = _links([(*g, 0) for g in group], lines, straight=True)
    runs = [(path, _through(path, lines)) for path in _paths(len(lines), straight)]
    head = [path[0] for path, _ in runs]
    whole = [(points[0], points[-1]) for _, points in runs]
    bent = _links([(*group[k], curve[k]) for k in head], whole, straight=False)
    groups: list[_Group] = []
    for path in _paths(len(whole), bent):
        seen, owner, kind = group[head[path[0]]]
        points = _settled(_through(path, whole))
        chain = 0 if len(points) > 2 else -1
        strokes = [Stroke(a, b, owner, kind, None, chain) for a, b in pairwise(points)]
        groups.append(_Group(seen, tuple(strokes)))
    return groups


def _links(
    group: list[tuple[bool, int, str, int]], lines: list[tuple[Vec2, Vec2]], *, straight: bool
) -> dict[tuple[int, int], tuple[int, int]]:
    """Return which end (line, 0 or 1) runs on into which other end; two lines of a group that meet at a point.

    `straight` asks that they go on in one line; else that no third line of the group is there.
    """
    meeting: dict[tuple[object, ...], list[tuple[int, int]]] = {}
    for k, line in enumerate(lines):
        for e in (0, 1):
            x, y = line[e]
            meeting.setdefault((*group[k], round(x * GRID), round(y * GRID)), []).append((k, e))
    links: dict[tuple[int, int], tuple[int, int]] = {}
    for met in meeting.values():
        if straight:
            for i, p in enumerate(met):
                for q in met[i + 1 :]:
                    if p not in links and q not in links and p[0] != q[0] and _goes_on(lines, p, q):
                        links[p], links[q] = q, p
        elif len(met) == 2 and met[0][0] != met[1][0]:
            links[met[0]], links[met[1]] = met[1], met[0]
    return links


def _goes_on(lines: list[tuple[Vec2, Vec2]], p: tuple[int, int], q: tuple[int, int]) -> bool:
    ux, uy = _outward(lines[p[0]], p[1])
    vx, vy = _outward(lines[q[0]], q[1])
    return ux * vx + uy * vy < 0 and abs(ux * vy - uy * vx) < STRAIGHT


def _outward(line: tuple[Vec2, Vec2], end: int) -> Vec2:
    a, b = line[end], line[1 - end]
    n = math.dist(a, b)
    return ((b[0] - a[0]) / n, (b[1] - a[1]) / n)


def _paths(count: int, links: dict[tuple[int, int], tuple[int, int]]) -> list[list[int]]:
    """Return the lines in runs along the links; each run is a list of line numbers, loops begin at their least."""
    paths: list[list[int]] = []
    used = [False] * count
    starts = [k for k in range(count) if (k, 0) not in links or (k, 1) not in links]
    for k in [*starts, *range(count)]:
        if used[k]:
            continue
        end = 0 if (k, 0) not in links else 1  # enter by the loose end, leave by the other
        path = [k]
        used[k] = True
        at = (k, 1 - end)
        while at in links:
            nxt = links[at]
            if used[nxt[0]]:
                break
            path.append(nxt[0])
            used[nxt[0]] = True
            at = (nxt[0], 1 - nxt[1])
        paths.append(path)
    return paths


def _through(path: list[int], lines: list[tuple[Vec2, Vec2]]) -> list[Vec2]:
    """Return the points along a run of lines, each turned so that it starts where the one before ended."""
    first = lines[path[0]]
    if len(path) == 1:
        return [first[0], first[1]]
    then = lines[path[1]]
    gap = [min(math.dist(first[e], then[0]), math.dist(first[e], then[1])) for e in (0, 1)]
    points = [first[0], first[1]] if gap[1] <= gap[0] else [first[1], first[0]]
    for k in path[1:]:
        a, b = lines[k]
        points.append(b if math.dist(points[-1], a) <= math.dist(points[-1], b) else a)
    return points


def _settled(points: list[Vec2]) -> list[Vec2]:
    """Return the run in a direction, and a loop from a start, that depend on its places alone."""
    if len(points) > 3 and math.dist(points[0], points[-1]) < 1 / GRID:
        ring = points[:-1]
        k = ring.index(min(ring))
        ring = ring[k:] + ring[:k]
        if ring[-1] < ring[1]:
            ring = [ring[0], *ring[:0:-1]]
        return [*ring, ring[0]]
    return points if points[0] <= points[-1] else points[::-1]


def _numbered(groups: Iterable[_Group]) -> tuple[Stroke, ...]:
    made: list[Stroke] = []
    chain = 0
    for g in groups:
        if g.strokes[0].chain < 0:
            made.extend(g.strokes)
        else:
            made.extend(replace(s, chain=chain) for s in g.strokes)
            chain += 1
    return tuple(made)


def _r(x: float) -> float:
    return round(float(x), 6) + 0.0


def _v(p: list[float]) -> Vec2:
    return (p[0], p[1])
