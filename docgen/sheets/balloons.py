"""Part numbers in balloons: a point of each part that is seen, a place in the clear, leaders that do not cross."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.screen import around
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Point, Record

CLEAR = 3.5  # mm around a balloon
LINE = 0.9  # mm: a leader to a point no further from a line would point at the line
WELL = 2.5  # mm from every line: a point that is so clear may carry a leader
ALMOST = 0.8  # of how clear the clearest point is: what is so clear is as good
LANES = 30.0  # what a balloon pays for standing among dimension lines, where it is read as one of their figures
WAYS = tuple(
    (math.cos(math.radians(turn)), math.sin(math.radians(turn)), 0.5 if turn % 90 == 0 else 0.0)
    for turn in range(0, 360, 15)
)
"""Directions of leaders that are tried, with what level and plumb ones pay: they look like lines of the view."""


OVER = 2.0  # what a leader pays for each outline that it crosses
AGAIN = 10.0  # what costs so much is tried once more when all others stand
NEAR = 27.0  # mm: leaders longer than that are tried at wider steps
SHORT = 4.6  # mm: of a leader to a balloon within the view as much is seen
BARRED = (
    frozenset(("leader", "dimension", "extension", "axis")),
    frozenset(("leader", "dimension")),
    frozenset(("leader",)),
)
"""What no leader crosses; less where nothing else is left."""

Found: TypeAlias = tuple[float, Point, Point]
"""What a balloon costs, the point that its leader goes to, and its middle."""


@dataclass(frozen=True, slots=True)
class Room:
    """How far a view reaches with what stands about it and beside it, and what a balloon pays that goes beyond that.

    Much where the page has little room for what becomes wider, or higher.
    """

    reach: Bounds
    wide: float = 0.0
    tall: float = 0.0


@dataclass(frozen=True, slots=True)
class Try:
    """What is asked of a balloon's place: how large it is, what room there is, what its leader may not cross."""

    radius: float
    room: Room
    lanes: Sequence[Bounds]
    barred: frozenset[str]
    bare: Callable[[Point], bool] | None

    def asked(self, c: Point) -> float:
        """Return what a balloon pays that stands at `c` for the room it takes, and among dimension lines."""
        r, reach = self.radius, self.room.reach
        cost = self.room.wide if c[0] - r < reach[0] or c[0] + r > reach[2] else 0.0
        cost += self.room.tall if c[1] - r < reach[1] or c[1] + r > reach[3] else 0.0
        return cost + (LANES if any(a - r < c[0] < d + r and b < c[1] < e for a, b, d, e in self.lanes) else 0.0)


def clearest(points: Sequence[Point], engine: Engine) -> tuple[Point, float]:
    """Return, on paper, the point that lies furthest from every line of the view but axes, and how far, mm."""
    return _clearest(*_away(points, engine, but="axis"))


def feet(points: Sequence[Point], engine: Engine) -> list[Point]:
    """Return, on paper, where a leader may point: the clearest point, and to each side and corner the outermost clear one."""
    on_paper, away = _away(points, engine)
    enough = min(WELL, ALMOST * max(away))
    clear = sorted(p for p, off in zip(on_paper, away, strict=True) if off >= enough - 1e-6)
    ways = [(x, y) for x in (-1.0, 0.0, 1.0) for y in (-1.0, 0.0, 1.0) if x or y]
    out = [max(clear, key=lambda p, way=way: round(p[0] * way[0] + p[1] * way[1], 2)) for way in ways]  # type: ignore[misc]
    return list(dict.fromkeys((_clearest(on_paper, away)[0], *out)))


def _clearest(on_paper: Sequence[Point], away: Sequence[float]) -> tuple[Point, float]:
    best = max(range(len(away)), key=lambda i: (round(away[i], 2), -on_paper[i][0], on_paper[i][1]))
    return on_paper[best], away[best]


def _away(points: Sequence[Point], engine: Engine, but: str = "") -> tuple[list[Point], list[float]]:
    """Return points on paper, and how far each lies from every line of the view, mm."""
    on_paper = [engine.paper(p) for p in points]
    p = np.array(on_paper)[:, None, :]
    a, b = (np.array([line[k] for line in engine.occupied.lines if line[2] != but])[None, :, :] for k in (0, 1))
    along = b - a
    square = np.maximum((along**2).sum(axis=2), 1e-12)
    t = np.clip(((p - a) * along).sum(axis=2) / square, 0.0, 1.0)
    away = np.hypot(*np.moveaxis(p - a - t[..., None] * along, -1, 0)).min(axis=1)
    return on_paper, [float(d) for d in away]


def place(
    wanted: Sequence[tuple[int, Sequence[Point]]],
    engine: Engine,
    height: float,
    room: Callable[[], Room] | None = None,
    bare: Callable[[Point], bool] | None = None,
) -> tuple[list[Record], list[int]]:
    """Return the balloons for (number, points on paper) outside the view, and the numbers that found no place.

    A leader goes to that one of the points from which it is shortest and crosses least.
    `room` tells, before each, how much room the page leaves. Where `bare` tells whether paper within the view shows nothing
    of the piece, a balloon may stand there as well, and on the face of its own part.
    """
    radius = symbols.balloon_radius(height)
    lanes, before = _lanes(engine), engine.occupied
    order = dict(sorted(wanted, key=lambda w: (_reach(w[1][0], engine.outline), w[0])))
    placed: dict[int, Found] = {}

    def found(number: int) -> Found | None:
        now = room() if room else Room(reached(engine))
        for barred in BARRED if bare else BARRED[-1:]:
            best = _cheapest(order[number], engine, Try(radius, now, lanes, barred, bare))
            if best is not None:
                return best
        return None

    def noted() -> None:
        engine.occupied = before.copy()
        for _, at, centre in placed.values():
            engine.occupied.add_line(at, _rim(at, centre, radius), "leader")
            engine.occupied.add_box(Box(centre[0], centre[1], radius, radius))

    for number in order:
        noted()
        if (first := found(number)) is not None:
            placed[number] = first
    for number in sorted(placed, key=lambda n: (-placed[n][0], n)):
        if bare and placed[number][0] > AGAIN:  # now that others stand, it may be let in more cheaply
            was = placed.pop(number)
            noted()
            placed[number] = min(found(number) or was, was, key=lambda f: f[0])
    noted()
    records: list[Record] = []
    for number, (_, at, centre) in placed.items():
        rim = _rim(at, centre, radius)
        records += [Line(at, rim, Pen.THIN), *symbols.dot(at), *symbols.balloon(centre, number, height)]
    return records, [n for n in order if n not in placed]


def _rim(at: Point, centre: Point, radius: float) -> Point:
    """Return where the leader from `at` ends on its balloon."""
    long = math.dist(at, centre)
    return (centre[0] + (at[0] - centre[0]) * radius / long, centre[1] + (at[1] - centre[1]) * radius / long)


def reached(engine: Engine) -> Bounds:
    """Return how far the view reaches with everything about it."""
    (a, b, c, d), (x0, y0, x1, y1) = engine.occupied.bounds(), engine.outline
    return min(a, x0), min(b, y0), max(c, x1), max(d, y1)


def _reach(p: Point, outline: Bounds) -> float:
    """Return how far a point lies inside the outline: those near the rim are placed first."""
    return round(min(p[0] - outline[0], outline[2] - p[0], p[1] - outline[1], outline[3] - p[1]), 3)


def _lanes(engine: Engine) -> list[Bounds]:
    """Return what lies between the view and the dimension lines on each side of it."""
    x0, y0, x1, y1 = engine.outline
    lines = [(*a, *b) for a, b, kind in engine.occupied.lines if kind == "dimension"]
    low = [line for line in lines if max(line[1], line[3]) < y0]
    high = [line for line in lines if min(line[1], line[3]) > y1]
    left = [line for line in lines if max(line[0], line[2]) < x0]
    right = [line for line in lines if min(line[0], line[2]) > x1]
    out: list[Bounds] = []
    for side in (low, high, left, right):
        if side:
            xs, ys = ([v for line in side for v in line[k::2]] for k in (0, 1))
            a, b, c, d = min(xs), min(ys), max(xs), max(ys)
            flat = side is low or side is high
            out.append((a, min(b, y1), c, max(d, y0)) if flat else (min(a, x1), b, max(c, x0), d))
    return out


def _cheapest(spots: Sequence[Point], engine: Engine, of: Try) -> Found | None:
    """Return the cheapest place for the balloon of a part to which a leader may point at some spots; None where none is free."""
    x0, y0, x1, y1 = engine.outline
    best: Found | None = None
    price, off, occupied = math.inf, of.radius + CLEAR, engine.occupied
    furthest = math.hypot(x1 - x0, y1 - y0) + 2 * CLEAR + 30.0
    for long in _lengths(of.radius + SHORT, furthest) if of.bare else (12.0 + 5.0 * k for k in range(50)):
        if long > furthest:
            break
        if 0.25 * long >= price:
            break
        for at, c, tilt in _free(spots, long, engine, of.radius):
            within = x0 - off < c[0] < x1 + off and y0 - off < c[1] < y1 + off
            if within and of.bare is None:
                continue
            cost = 0.25 * long + tilt + of.asked(c)
            if cost < price and occupied.free(Box(c[0], c[1], of.radius, of.radius), CLEAR - 1.5):
                crossed = occupied.crossed(at, c)
                edges = crossed.count("view")
                cost += OVER * edges + 6.0 * (len(crossed) - edges)
                if cost >= price or not of.barred.isdisjoint(crossed) or occupied.strikes(at, c, 0.6):
                    continue
                if within and edges and not (of.bare and of.bare(c)):
                    continue
                if not occupied.doubled(at, c, 1.0, ("view", "dimension", "extension", "leader")):
                    best, price = (cost, at, c), cost
    return best


def _lengths(first: float, most: float) -> list[float]:
    """Return the lengths of leaders that are tried, finely while they are short."""
    out = [first]
    while out[-1] < most:
        out.append(out[-1] + (3.0 if out[-1] < NEAR else 8.0))
    return out


def _free(spots: Sequence[Point], long: float, engine: Engine, radius: float) -> Iterator[tuple[Point, Point, float]]:
    """Yield spots with the middles of balloons so far from them that nothing seems to lie in, and what their turn costs."""
    ring = [(at, (at[0] + long * c, at[1] + long * s), tilt) for at in spots for c, s, tilt in WAYS]
    wide = 2 * (radius + CLEAR - 1.5)
    free = engine.occupied.screen.free(around(np.array([c for _, c, _ in ring]), wide, wide))
    yield from (ring[k] for k in np.flatnonzero(free).tolist())
