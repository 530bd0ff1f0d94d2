"""Part numbers in balloons: a point of each part that is seen, a place in the clear, leaders that do not cross."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Point, Record

CLEAR = 3.5  # mm around a balloon
LINE = 0.9  # mm: a leader to a point no further from a line would point at the line
WELL = 2.5  # mm from every line: a point that is so clear may carry a leader
LANES = 30.0  # what a balloon pays for standing among dimension lines, where it is read as one of their figures
TURNS = tuple(range(0, 360, 15))

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


def clearest(points: Sequence[Point], engine: Engine) -> tuple[Point, float]:
    """Return, on paper, the point that lies furthest from every line of the view but axes, and how far, mm."""
    return _clearest(*_away(points, engine, but="axis"))


def feet(points: Sequence[Point], engine: Engine) -> list[Point]:
    """Return, on paper, where a leader may point: the clearest point, and on each side the outermost one that is clear."""
    on_paper, away = _away(points, engine)
    enough = min(WELL, max(away))
    clear = sorted(p for p, off in zip(on_paper, away, strict=True) if off >= enough - 1e-6)
    ways = ((-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0))
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
    wanted: Sequence[tuple[int, Sequence[Point]]], engine: Engine, height: float, room: Callable[[], Room] | None = None
) -> tuple[list[Record], list[int]]:
    """Return the balloons for (number, points on paper) outside the view, and the numbers that found no place.

    A leader goes to that one of the points from which it is shortest and crosses least.
    `room` tells, before each, how much room the page leaves.
    """
    records: list[Record] = []
    missed: list[int] = []
    radius = symbols.balloon_radius(height)
    lanes = _lanes(engine)
    for number, spots in sorted(wanted, key=lambda w: (_reach(w[1][0], engine.outline), w[0])):
        found: Found | None = None
        now = room() if room else Room(reached(engine))
        for spot in spots:
            found = _centre(spot, engine, radius, now, lanes, found)
        if found is None:
            missed.append(number)
            continue
        _, at, centre = found
        long = math.dist(at, centre)
        rim = tuple(c + (p - c) * radius / long for c, p in zip(centre, at, strict=True))
        engine.occupied.add_line(at, (rim[0], rim[1]), "leader")
        engine.occupied.add_box(Box(centre[0], centre[1], radius, radius))
        records += [Line(at, (rim[0], rim[1]), Pen.THIN), *symbols.dot(at), *symbols.balloon(centre, number, height)]
    return records, missed


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


def _centre(
    at: Point,
    engine: Engine,
    radius: float,
    room: Room,
    lanes: Sequence[Bounds],
    best: Found | None,
) -> Found | None:
    """Return the cheapest place for the balloon of a point, if it is cheaper than the best so far."""
    x0, y0, x1, y1 = engine.outline
    price = best[0] if best else math.inf
    furthest = math.hypot(x1 - x0, y1 - y0) + 2 * CLEAR + 30.0
    for long in (12.0 + 5.0 * k for k in range(50)):
        if long > furthest or 0.25 * long >= price:
            break
        for turn in TURNS:
            c = (at[0] + long * math.cos(math.radians(turn)), at[1] + long * math.sin(math.radians(turn)))
            if x0 - radius - CLEAR < c[0] < x1 + radius + CLEAR and y0 - radius - CLEAR < c[1] < y1 + radius + CLEAR:
                continue
            cost = 0.25 * long + (0.5 if turn % 90 == 0 else 0.0)
            cost += room.wide if c[0] - radius < room.reach[0] or c[0] + radius > room.reach[2] else 0.0
            cost += room.tall if c[1] - radius < room.reach[1] or c[1] + radius > room.reach[3] else 0.0
            if any(a - radius < c[0] < d + radius and b < c[1] < e for a, b, d, e in lanes):
                cost += LANES
            if cost < price and engine.occupied.free(Box(c[0], c[1], radius, radius), CLEAR - 1.5):
                crossed = engine.occupied.crossed(at, c)
                cost += 1.2 * crossed.count("view") + 6.0 * (len(crossed) - crossed.count("view"))
                if cost >= price or "leader" in crossed or engine.occupied.strikes(at, c, 0.6):
                    continue
                if not engine.occupied.doubled(at, c, 1.0, ("view", "dimension", "extension", "leader")):
                    best, price = (cost, at, c), cost
    return best
