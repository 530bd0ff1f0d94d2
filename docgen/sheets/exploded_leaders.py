"""Where numbers of the piece taken apart stand: on near white paper, their leaders over as little as can be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from docgen.drawing.exploding import Floats
from docgen.drawing.ground import Bools, Ground
from docgen.drawing.records import Line, Pen, Point, Record
from docgen.layout.model import Rect

LEADERS = (
    (7.0, 8.5, 10.0, 12.0),
    (14.0, 16.5, 19.0, 22.0),
    (25.0, 28.5, 32.0, 36.0, 40.0),
)  # mm: lengths that are tried; longer ones where they might come cheaper
TURNS = tuple(
    turn for turn in range(0, 360, 15) if turn % 60 != 30
)  # degrees; edges of upright parts run along the others
OVER_LEADER, OVER_WAY = (
    1000.0,
    60.0,
)  # what a number pays whose leader crosses another's, or a line along which parts go
OVER, LONG = 2.0, 0.2  # what it pays for each outline, and for each mm
CLEAR, BESIDE = 0.8, 0.5  # mm between a number and other numbers, and leaders
OPEN = 0.9  # mm to each side of a leader, where a way is left open
EPS = 1e-9

_BANDS = tuple(
    (
        np.array([(long * math.cos(t), long * math.sin(t)) for long in band for t in map(math.radians, TURNS)]),
        np.repeat(band, len(TURNS)),
    )
    for band in LEADERS
)


@dataclass(frozen=True, slots=True)
class Found:
    """What a number costs, the place on the part that its leader goes to, and the number's middle."""

    cost: float
    foot: Point
    centre: Point

    @property
    def crosses(self) -> bool:
        """Whether its leader crosses another one, or a line along which parts go."""
        return self.cost >= OVER_WAY


class Paper:
    """The lines (k, 2, 2) of a picture, mm, which of them are ways (k), and the room for numbers of a `radius`."""

    def __init__(self, lines: Floats, ways: Bools, radius: float, inside: Rect) -> None:
        self.lines, self.radius, self.inside = lines, radius, inside
        self.ground = Ground(lines)
        self._price = np.where(ways, OVER_WAY, OVER)
        low, high = lines.min(axis=1), lines.max(axis=1)
        self._sides = (low[:, 0].copy(), low[:, 1].copy(), high[:, 0].copy(), high[:, 1].copy())

    def rim(self, foot: Point, centre: Point) -> Point:
        """Return where the leader from `foot` ends on its number's circle."""
        share = self.radius / math.dist(foot, centre)
        return (centre[0] + (foot[0] - centre[0]) * share, centre[1] + (foot[1] - centre[1]) * share)

    def cheapest(self, feet: Sequence[Point], placed: Sequence[Found]) -> Found:
        """Return the shortest leader over the fewest lines, from one of the feet to white paper.

        Only where nothing else is left it crosses another leader, or a way.
        """
        leaders = np.array([(one.foot, self.rim(one.foot, one.centre)) for one in placed]).reshape(-1, 2, 2)
        rings = np.array([one.centre for one in placed]).reshape(-1, 2)
        room = self.inside
        corner = (min(max(feet[0][0] + LEADERS[-1][-1], room.x), room.right), room.top)
        best = Found(math.inf, feet[0], corner)
        spots = np.array(feet)
        for steps, long in _BANDS:
            cheap = int(np.searchsorted(LONG * long, best.cost))
            if not cheap:
                break
            for k, free in enumerate(self._free(spots, steps[:cheap], rings, leaders)):
                free = free[LONG * long[free] < best.cost]
                if len(free):
                    ends = spots[k] + steps[free]
                    cost = np.round(LONG * long[free] + self._over(spots[k], ends, leaders), 6)
                    least = int(np.argmin(cost))
                    if cost[least] < best.cost:
                        best = Found(float(cost[least]), feet[k], (float(ends[least, 0]), float(ends[least, 1])))
        return best

    def _free(self, feet: Floats, steps: Floats, rings: Floats, leaders: Floats) -> list[NDArray[np.int64]]:
        """Return for each foot the steps from it that end where a number has room, and pass no other number."""
        room = self.inside
        centres = (feet[:, None] + steps).reshape(-1, 2)
        x, y = centres.T
        free = np.flatnonzero((x >= room.x) & (y >= room.y) & (x <= room.right) & (y <= room.top))
        free = free[self.ground.free(centres[free], self.radius + 0.5)]
        for c in rings:
            free = free[np.abs(centres[free] - c).max(axis=1) >= 2 * self.radius + CLEAR]
        c, foot = centres[free][:, None], feet[free // len(steps)][:, None]
        apart = _off(c, leaders[:, 0], leaders[:, 1]) >= self.radius + CLEAR
        passed = _off(rings[None], foot, c) < self.radius + BESIDE
        free = free[(apart & ~passed).all(axis=1)]
        ends = np.searchsorted(free, len(steps) * np.arange(len(feet) + 1))
        return [free[i:j] - k * len(steps) for k, (i, j) in enumerate(pairwise(ends.tolist()))]

    def disturbs(self, one: Found, other: Found) -> bool:
        """Return whether two numbers cannot both stand where they do: their circles, or leaders, lie on each other."""
        a, b = (np.array([f.foot, self.rim(f.foot, f.centre)]) for f in (one, other))
        c, d = np.array(one.centre), np.array(other.centre)
        near = float(np.abs(c - d).max()) < 2 * self.radius + CLEAR
        passed = min(float(_off(c, *b)), float(_off(d, *a))) < self.radius + BESIDE
        return near or passed or bool(crossings(a, b[None]).any())

    def _over(self, foot: Floats, ends: Floats, leaders: Floats) -> Floats:
        """Return what leaders from a foot to many ends pay for what they cross."""
        x0, y0, x1, y1 = self._sides
        (a, b), (c, d) = np.minimum(ends.min(axis=0), foot).tolist(), np.maximum(ends.max(axis=0), foot).tolist()
        near = np.flatnonzero((x1 > a) & (x0 < c) & (y1 > b) & (y0 < d))
        price = np.concatenate([self._price[near], np.full(len(leaders), OVER_LEADER)])
        return np.asarray(fan(foot, ends, np.concatenate([self.lines[near], leaders])) @ price, dtype=np.float64)


def parted(records: Sequence[Record], leaders: Sequence[tuple[Point, Point]], least: float) -> list[Record]:
    """Return records with each way left open where a leader passes, but for bits shorter than `least` mm.

    A way reads on over a gap, as a leader across it would not: it would seem to end there, or to be a corner of the way.
    """
    return [
        piece
        for record in records
        for piece in (_open(record, leaders, least) if getattr(record, "pen", None) is Pen.CENTRE else [record])
    ]


def _open(record: Record, leaders: Sequence[tuple[Point, Point]], least: float) -> list[Record]:
    if not isinstance(record, Line) or not leaders:
        return [record]
    way, some = np.array([record.a, record.b]), np.array(leaders)
    off = _turn(way[1] - way[0], some - way[0])  # how far to which side the ends of leaders lie
    crossed = crossings(way, some)
    if not crossed.any():
        return [record]
    over, shares = some[crossed], off[crossed]
    met = over[:, 0] + (over[:, 1] - over[:, 0]) * (shares[:, :1] / (shares[:, :1] - shares[:, 1:]))
    long = math.dist(record.a, record.b)
    unit = (way[1] - way[0]) / long
    at = [0.0, *sorted(((met - way[0]) @ unit).tolist()), long]
    stretches = [(a + OPEN * (a > 0.0), b - OPEN * (b < long)) for a, b in pairwise(at)]
    ends = [(way[0] + unit * a, way[0] + unit * b) for a, b in stretches if b - a >= least]
    return [replace(record, a=(float(a[0]), float(a[1])), b=(float(b[0]), float(b[1]))) for a, b in ends]


def fan(foot: Floats, ends: Floats, others: Floats) -> Bools:
    """Return which lines from a foot (2) to ends (n, 2) cross which others (k, 2, 2) at a point inside both, (n, k)."""
    along, way = ends - foot, others[:, 1] - others[:, 0]
    quarter = np.array([[0.0, 1.0], [-1.0, 0.0]])
    left = along @ quarter  # its product with what lies to a side of the leader tells on which
    one, other = left @ (others[:, 0] - foot).T, left @ (others[:, 1] - foot).T
    near = _turn(way, foot - others[:, 0])
    far = near - left @ way.T
    return np.asarray((one * other < -EPS) & (near * far < -EPS), dtype=np.bool_)


def crossings(line: Floats, others: Floats) -> Bools:
    """Return which others (k, 2, 2) a line (2, 2) crosses."""
    return np.asarray(fan(line[0], line[1:], others)[0], dtype=np.bool_)


def _turn(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0], dtype=np.float64)


def _off(points: Floats, a: Floats, b: Floats) -> Floats:
    """Return how far points lie from lines, mm; all (…, 2)."""
    along, off = b - a, points - a
    share = np.clip((off * along).sum(axis=-1) / np.maximum((along**2).sum(axis=-1), EPS), 0.0, 1.0)
    return np.asarray(np.linalg.norm(off - share[..., None] * along, axis=-1), dtype=np.float64)
