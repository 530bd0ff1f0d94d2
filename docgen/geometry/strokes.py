"""From stretches to strokes: nearest first, visible before hidden, joined, true circles as arcs."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from docgen.geometry.lines import ArcOf, Drawn, Stroke
from docgen.geometry.scene import Scene, boxes
from docgen.geometry.shapes import Vec2
from docgen.geometry.surfaces import Bools, Floats, Ints
from docgen.geometry.topology import SHARP, TANGENT
from docgen.geometry.visibility import Stretches

CHORD_MERGE = 0.02  # mm; twice the sag, so that equal circles cut up differently are one
PARALLEL = 0.12  # sine; chords of two cuttings of one circle lean no more than this to each other
STRAIGHT = 1e-4  # sine below which two strokes that meet run straight on
NEAR_CURVE = 0.006  # mm on paper by which a line may lie off the true curve where that is known
KINDS = ("sharp", "smooth", "tangent")
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


def drawn(scene: Scene, found: Stretches, merge: float, *, whole: bool = False) -> Drawn:
    """Return the strokes of a view; lines closer to each other than `merge` mm become one, the nearest.

    With `whole` no line of an item takes one of its own outline away, which would leave it open.
    """
    left = _bent(scene, uncovered(scene, found, merge, whole=whole))
    circle = scene.edge_circle[left.edge]
    round_ = (circle >= 0) & scene.square[circle] if len(scene.square) else np.zeros(len(circle), dtype=bool)
    groups = [*_arcs(scene, _only(left, round_)), *_lines(scene, _only(left, ~round_))]
    groups.sort(key=_Group.key)
    return Drawn(_numbered(g for g in groups if g.seen), _numbered(g for g in groups if not g.seen))


def uncovered(scene: Scene, s: Stretches, merge: float, *, whole: bool = False) -> Stretches:
    """Return what is left of the stretches where another one that goes before lies within `merge` mm.

    Seen goes before hidden, lines before those where surfaces only run on into each other, then the nearer to the viewer,
    then the item that comes first. With `whole` outlines go before what they enclose, and of one item all of them stay.
    """
    if not len(s.edge):
        return s
    owner, rim = scene.edge_owner[s.edge], s.seen & _outlines(scene, s.edge) if whole else np.zeros_like(s.seen)
    depth = np.round(s.ends[:, :, 2].mean(axis=1), 2)
    order = np.lexsort((np.arange(len(s.edge)), owner, -depth, ~rim, _runs_on(scene, s.edge), ~s.seen))
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    around = boxes(s.ends, max(merge, CHORD_MERGE) / 2)
    b, a = shapely.STRtree(around).query(around)
    before = rank[a] < rank[b]
    a, b = a[before], b[before]
    flat = s.ends[:, 1, :2] - s.ends[:, 0, :2]
    u, v = (flat / np.hypot(flat[:, 0], flat[:, 1])[:, None]).T
    aligned = np.abs(u[a] * v[b] - v[a] * u[b]) < PARALLEL
    a, b = a[aligned], b[aligned]
    chord = scene.edge_circle[s.edge] >= 0
    near = np.where(chord[a] | chord[b] | (rim[b] & (owner[a] == owner[b])), CHORD_MERGE, merge)
    pair, low, high = _common(s.ends[a], s.ends[b], near)
    row, start, stop = _rest(len(s.edge), b[pair], low, high)
    from_, way = s.ends[row, 0], s.ends[row, 1] - s.ends[row, 0]
    size = np.hypot(way[:, 0], way[:, 1])
    keep = ((stop - start) * size > CHORD_MERGE) | (stop - start > 1 - 1e-9)
    ends = np.stack([from_ + start[:, None] * way, from_ + stop[:, None] * way], axis=1)
    return Stretches(ends[keep], s.edge[row][keep], s.seen[row][keep])


def _runs_on(scene: Scene, edge: Ints) -> Bools:
    """Return for edges whether both faces look at the viewer and run on into each other there."""
    return np.asarray((scene.edge_kind[edge] == TANGENT) & scene.looks[scene.edge_faces[edge]].all(axis=1), dtype=bool)


def _outlines(scene: Scene, edge: Ints) -> Bools:
    """Return for edges whether one of their faces looks at the viewer and the other away."""
    looks = scene.looks[scene.edge_faces[edge]]
    return np.asarray(looks[:, 0] != looks[:, 1], dtype=bool)


def _common(a: Floats, b: Floats, near: Floats) -> tuple[Ints, Floats, Floats]:
    """Return (pair, from, to): where on `b` (0 to 1) the line `a`, nearly parallel, lies within `near` mm."""
    da, db = a[:, 1, :2] - a[:, 0, :2], b[:, 1, :2] - b[:, 0, :2]
    la, lb = np.hypot(da[:, 0], da[:, 1]), np.hypot(db[:, 0], db[:, 1])
    ua, ub = da / la[:, None], db / lb[:, None]
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
    pair = np.flatnonzero((off <= near) & (high > low))
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


def _bent(scene: Scene, s: Stretches) -> Stretches:
    """Return the stretches with those of bulging edges cut up along their true curves, so that each lies near it."""
    if not len(scene.bulging):
        return s
    which = np.full(len(scene.edges), -1, dtype=np.int64)
    which[scene.bulging] = np.arange(len(scene.bulging))
    row = np.flatnonzero(which[s.edge] >= 0)
    bulge = scene.bulge[which[s.edge[row]]]
    pieces = np.ceil(np.sqrt(np.hypot(bulge[:, 0], bulge[:, 1]) / NEAR_CURVE)).astype(np.int64)
    row, bulge, pieces = row[pieces > 1], bulge[pieces > 1], pieces[pieces > 1]
    if not len(row):
        return s
    a, b = (scene.points[scene.edges[s.edge[row], k]][:, None] for k in (0, 1))
    way = b - a
    share = np.einsum("ikj,ikj->ik", s.ends[row] - a, way) / np.einsum("ikj,ikj->ik", way, way)
    of = np.repeat(np.arange(len(row)), pieces)
    nth = np.arange(len(of)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    cut = (nth[:, None] + np.array([0, 1])) / pieces[of][:, None]
    t = (share[of, :1] + cut * (share[of, 1:] - share[of, :1]))[:, :, None]
    ends = a[of] + t * way[of] + 4 * t * (1 - t) * bulge[of][:, None]
    keep = np.ones(len(s.edge), dtype=bool)
    keep[row] = False
    return Stretches(
        np.concatenate([s.ends[keep], ends]),
        np.concatenate([s.edge[keep], s.edge[row][of]]),
        np.concatenate([s.seen[keep], s.seen[row][of]]),
    )


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
    soft = dict(zip(circle.tolist(), _runs_on(scene, s.edge).tolist(), strict=True))
    groups: list[_Group] = []
    for (c, seen), spans in runs.items():
        x, y = scene.circle_centre[c, :2].tolist()
        radius = float(scene.circle_radius[c])
        for low, high in _joined(spans, math.degrees(2 * CHORD_MERGE / radius)):
            arc = ArcOf((_r(x), _r(y)), _r(radius), _r(low), _r(high))
            ends = [_at(arc, arc.start_deg), _at(arc, arc.end_deg)]
            groups.append(_Group(seen, (Stroke(ends[0], ends[1], owner[c], KINDS[2 * soft[c]], arc),)))
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
    if not len(s.edge):
        return []
    kind = np.where(scene.edge_kind[s.edge] == SHARP, 0, np.where(_runs_on(scene, s.edge), 2, 1))
    group = np.stack([s.seen, scene.edge_owner[s.edge], kind], axis=1).astype(np.int64)
    circle = scene.edge_circle[s.edge]
    bends = (circle >= 0) & ~scene.thin[circle] if len(scene.thin) else np.zeros(len(circle), dtype=bool)
    ends = np.round(s.ends[:, :, :2], 6) + 0.0
    lines: list[tuple[Vec2, Vec2]] = [(_v(a), _v(b)) for a, b in ends.tolist()]
    straight = _straight_links(group, ends, lines, np.flatnonzero(~bends))
    runs = [(path[0], _through(path, lines)) for path in _paths(straight)]
    head = np.array([first for first, _ in runs])
    whole = [(points[0], points[-1]) for _, points in runs]
    key = np.c_[group[head], scene.edge_curve[s.edge[head]]]
    groups: list[_Group] = []
    for path in _paths(_bent_links(key, np.array(whole))):
        seen, owner, of = group[head[path[0]]].tolist()
        points = _settled(_through(path, whole))
        chain, told = 0 if len(points) > 2 else -1, KINDS[of]
        groups.append(_Group(bool(seen), tuple(Stroke(a, b, owner, told, None, chain) for a, b in pairwise(points))))
    return groups


def _straight_links(group: Ints, ends: Floats, lines: list[tuple[Vec2, Vec2]], among: Ints) -> list[int]:
    """Return for each end 2·line + (0 or 1) the end that goes on from it in one line, or −1."""
    grid = np.round(ends * GRID).astype(np.int64)
    meeting: dict[tuple[int, ...], list[int]] = {}
    for k, g, (a, b) in zip(among.tolist(), group[among].tolist(), grid[among].tolist(), strict=True):
        meeting.setdefault((*g, *a), []).append(2 * k)
        meeting.setdefault((*g, *b), []).append(2 * k + 1)
    links = [-1] * (2 * len(lines))
    for met in meeting.values():
        for i, p in enumerate(met):
            for q in met[i + 1 :]:
                if links[p] < 0 and links[q] < 0 and p // 2 != q // 2 and _goes_on(lines, p, q):
                    links[p], links[q] = q, p
    return links


def _bent_links(key: Ints, ends: Floats) -> list[int]:
    """Return for each end 2·line + (0 or 1) the end of the one other line of its curve that meets it, or −1."""
    count = len(key)
    grid = np.round(ends * GRID).astype(np.int64).reshape(2 * count, 2)
    full = np.c_[np.repeat(key, 2, axis=0), grid]
    order = np.lexsort((np.arange(2 * count), *full.T[::-1]))
    same = (full[order][1:] == full[order][:-1]).all(axis=1)
    padded = np.r_[False, same, False, False][: 2 * count + 2]
    first = np.flatnonzero(padded[1:-1] & ~padded[:-2] & ~padded[2:])
    a, b = order[first], order[first + 1]
    other = a // 2 != b // 2
    links = np.full(2 * count, -1, dtype=np.int64)
    links[a[other]], links[b[other]] = b[other], a[other]
    return [int(n) for n in links]


def _goes_on(lines: list[tuple[Vec2, Vec2]], p: int, q: int) -> bool:
    ux, uy = _outward(lines[p // 2], p % 2)
    vx, vy = _outward(lines[q // 2], q % 2)
    return ux * vx + uy * vy < 0 and abs(ux * vy - uy * vx) < STRAIGHT


def _outward(line: tuple[Vec2, Vec2], end: int) -> Vec2:
    a, b = line[end], line[1 - end]
    n = math.dist(a, b)
    return ((b[0] - a[0]) / n, (b[1] - a[1]) / n)


def _paths(links: list[int]) -> list[list[int]]:
    """Return the lines in runs along the links; each run is a list of line numbers, loops begin at their least."""
    paths: list[list[int]] = []
    count = len(links) // 2
    used = [False] * count
    starts = [k for k in range(count) if links[2 * k] < 0 or links[2 * k + 1] < 0]
    for k in [*starts, *range(count)]:
        if used[k]:
            continue
        path = [k]
        used[k] = True
        at = links[2 * k + 1] if links[2 * k] < 0 else links[2 * k]  # enter by the loose end, leave by the other
        while at >= 0 and not used[at // 2]:
            path.append(at // 2)
            used[at // 2] = True
            at = links[at ^ 1]
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
            made.extend(Stroke(s.a, s.b, s.owner, s.kind, None, chain) for s in g.strokes)
            chain += 1
    return tuple(made)


def _r(x: float) -> float:
    return round(float(x), 6) + 0.0


def _v(p: list[float]) -> Vec2:
    return (p[0], p[1])
