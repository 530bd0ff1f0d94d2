"""Part numbers in balloons: a point of each part that is seen, a place in the clear, leaders that do not cross."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Point, Record

CLEAR = 3.5  # mm around a balloon
TURNS = tuple(range(0, 360, 15))


def clearest(points: Sequence[Point], engine: Engine) -> tuple[Point, float]:
    """Return, on paper, the point that lies furthest from every line of the view, and how far, mm."""
    on_paper = [engine.paper(p) for p in points]
    p = np.array(on_paper)[:, None, :]
    a, b = (np.array([line[k] for line in engine.occupied.lines])[None, :, :] for k in (0, 1))
    along = b - a
    square = np.maximum((along**2).sum(axis=2), 1e-12)
    t = np.clip(((p - a) * along).sum(axis=2) / square, 0.0, 1.0)
    away = np.hypot(*np.moveaxis(p - a - t[..., None] * along, -1, 0)).min(axis=1)
    best = max(range(len(points)), key=lambda i: (round(float(away[i]), 2), -on_paper[i][0], on_paper[i][1]))
    return on_paper[best], float(away[best])


def place(
    wanted: Sequence[tuple[int, Point]], engine: Engine, height: float, fees: tuple[float, float] = (0.0, 0.0)
) -> tuple[list[Record], list[int]]:
    """Return the balloons for (number, point on paper) outside the view, and the numbers that found no place.

    `fees` are what a balloon pays for standing beside the view, or above or below it, where the page has little room.
    """
    records: list[Record] = []
    missed: list[int] = []
    for number, at in sorted(wanted, key=lambda w: (_reach(w[1], engine.outline), w[0])):
        centre = _centre(at, engine, symbols.balloon_radius(height), fees)
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


def _centre(at: Point, engine: Engine, radius: float, fees: tuple[float, float]) -> Point | None:
    x0, y0, x1, y1 = engine.outline
    best: Point | None = None
    price = math.inf
    furthest = math.hypot(x1 - x0, y1 - y0) + 2 * CLEAR + 30.0
    for long in (12.0 + 5.0 * k for k in range(50)):
        if long > furthest or 0.25 * long >= price:
            break
        for turn in TURNS:
            c = (at[0] + long * math.cos(math.radians(turn)), at[1] + long * math.sin(math.radians(turn)))
            if x0 - radius - CLEAR < c[0] < x1 + radius + CLEAR and y0 - radius - CLEAR < c[1] < y1 + radius + CLEAR:
                continue
            cost = 0.25 * long + (0.5 if turn % 90 == 0 else 0.0)
            cost += fees[0] if c[0] < x0 - CLEAR or c[0] > x1 + CLEAR else 0.0
            cost += fees[1] if c[1] < y0 - CLEAR or c[1] > y1 + CLEAR else 0.0
            if cost < price and engine.occupied.free(Box(c[0], c[1], radius, radius), CLEAR - 1.5):
                crossed = engine.occupied.crossed(at, c)
                cost += 1.2 * crossed.count("view") + 4.0 * (len(crossed) - crossed.count("view"))
                if cost >= price or "leader" in crossed or engine.occupied.strikes(at, c, 0.6):
                    continue
                if not engine.occupied.doubled(at, c, 1.0, ("view", "dimension", "extension", "leader")):
                    best, price = c, cost
    return best
