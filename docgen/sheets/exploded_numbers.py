"""The numbers of the piece taken apart: one for each kind of part or thing, at the one that stands most by itself."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from docgen.drawing import symbols, views
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.exploding import Floats
from docgen.drawing.ground import Ground
from docgen.drawing.records import Line, Pen, Point, Record, Text
from docgen.geometry.lines import VIEWS, Drawn
from docgen.geometry.shapes import Vec2
from docgen.geometry.sight import Items, places
from docgen.layout.model import Rect
from docgen.sheets.context import Context

VIEW = VIEWS["axonometric"]
LEADERS = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 40.0)  # mm: lengths that are tried
TURNS = tuple(range(15, 375, 30))  # degrees
FEET = 8  # places of a kind from which a leader may start; others only where these are no good
ALONE = 6.0  # mm from what else is drawn: further off a place stands no more alone
AROUND = (1.0, 2.0, 3.0, 4.5)  # mm about a place that may be white
MANY = 12  # kinds of part, beyond which the numbers are smaller
OVER_LEADER, OVER_WAY = (
    1000.0,
    60.0,
)  # what a number pays whose leader crosses another's, or a line along which parts go
ENOUGH = 3  # possible places for a number that are compared

Marks = Sequence[tuple[str, Sequence[int]]]
"""Numbers and letters, with the items that each stands for."""


def numbers(
    context: Context,
    items: Items,
    marks: Marks,
    drawn: Sequence[Record],
    crowd: Crowd,
    scale: float,
    at: Point,
    area: Rect,
    floor: float,
    more: Sequence[tuple[str, Sequence[Vec2]]] = (),
) -> list[Record]:
    """Return one number for each kind of part, beside the one of them that shows best.

    `more` are letters with places, view mm, of what is no item.
    """
    occupied = Occupied()
    chords = [chord for record in drawn for chord in views.chords(record)]
    for record in drawn:
        for a, b in views.chords(record):
            occupied.add_line(a, b, "axis" if getattr(record, "pen", None) is Pen.CENTRE else "view")
    ground = Ground(np.array(chords))
    heights = context.layout.heights
    height = heights.figure if len(context.kinds) <= MANY else heights.least
    radius = symbols.balloon_radius(height)
    inside = Rect(area.x, floor, area.width, area.top - floor).inset(radius + 0.5)
    free = places(items, VIEW)
    out: list[Record] = []
    unseen: list[str] = []
    wanted = [(number, which, [p for k in which for p in free[k]]) for number, which in marks]
    small: list[tuple[str, Sequence[int], list[Vec2]]] = [
        (letter, (), [*found]) for letter, found in more
    ]  # they have fewer places: first come, first served
    for number, which, spots in [*small, *wanted]:
        if not spots:
            unseen.append(number)
            continue
        feet = _clearest([views.on_paper(p, scale, at) for p in spots], ground, crowd, which)
        best = _beside(feet[:FEET], ground, occupied, radius, inside)
        if best[0] >= OVER_WAY and len(feet) > FEET:
            best = min(best, _beside(feet[FEET:], ground, occupied, radius, inside))
        _, foot, centre = best
        rim = math.dist(foot, centre)
        end = (
            centre[0] + (foot[0] - centre[0]) * radius / rim,
            centre[1] + (foot[1] - centre[1]) * radius / rim,
        )
        occupied.add_line(foot, end, "leader")
        occupied.add_box(Box(centre[0], centre[1], radius, radius))
        out += [Line(foot, end, Pen.THIN), *symbols.dot(foot), *symbols.balloon(centre, number, height)]
    if unseen:
        out.append(Text((area.x, floor + 2.0), f"hidden behind other parts: {', '.join(unseen)}", heights.note))
    return out


@dataclass(frozen=True, slots=True, eq=False)
class Crowd:
    """The lines (n, 2, 2) of a picture on paper, mm, with the items (n) that own them."""

    lines: Floats
    owners: NDArray[np.int64]

    @staticmethod
    def of(drawn: Drawn, scale: float, at: Point) -> Crowd:
        """Return the lines of a view where they stand on paper."""
        ends = np.array([(s.a, s.b) for s in drawn.visible], dtype=np.float64).reshape(-1, 2, 2)
        return Crowd(ends * scale + np.array(at), np.array([s.owner for s in drawn.visible], dtype=np.int64))

    def away(self, points: Floats, own: Sequence[int]) -> Floats:
        """Return how far each point lies from the lines of items that are not its `own`, mm, as far as that counts."""
        other = self.lines[~np.isin(self.owners, own)]
        low, high = np.minimum(other[:, 0], other[:, 1]) - ALONE, np.maximum(other[:, 0], other[:, 1]) + ALONE
        across, up = ((points[:, None, i] > low[:, i]) & (points[:, None, i] < high[:, i]) for i in (0, 1))
        which, line = np.nonzero(across & up)
        a, along = other[line, 0], other[line, 1] - other[line, 0]
        off = points[which] - a
        t = np.clip((off * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-12), 0.0, 1.0)
        out = np.full(len(points), ALONE)
        np.minimum.at(out, which, np.hypot(*(off - t[:, None] * along).T))
        return out


def _clearest(feet: Sequence[Point], ground: Ground, crowd: Crowd, own: Sequence[int]) -> list[Point]:
    """Return the places by how far they stand on white paper from what else is drawn; of equal ones, the whitest first."""
    points = np.array(feet)
    away = np.round(crowd.away(points, own))
    room = np.sum([ground.free(points, half) for half in AROUND], axis=0)
    worth = [(min(int(white), 1), float(off), int(white)) for white, off in zip(room, away, strict=True)]
    return [feet[k] for k in sorted(range(len(feet)), key=lambda k: (*(-w for w in worth[k]), feet[k]))]


def _beside(
    feet: Sequence[Point], ground: Ground, occupied: Occupied, radius: float, inside: Rect
) -> tuple[float, Point, Point]:
    """Return a place on the part and a near one for its number on free paper, with what it costs.

    That is the shortest leader over the fewest lines.
    """
    best: tuple[float, Point, Point] | None = None
    found = 0
    for long in LEADERS:
        tries = [
            (foot, (foot[0] + long * math.cos(math.radians(turn)), foot[1] + long * math.sin(math.radians(turn))))
            for foot in feet
            for turn in TURNS
        ]
        white = ground.free(np.array([c for _, c in tries]), radius + 0.5).tolist()
        for (foot, c), free in zip(tries, white, strict=True):
            if not free or not (inside.x <= c[0] <= inside.right and inside.y <= c[1] <= inside.top):
                continue
            if not occupied.free(Box(c[0], c[1], radius, radius), 0.8) or occupied.strikes(foot, c, 0.5):
                continue
            crossed = occupied.crossed(foot, c)
            over, ways = crossed.count("leader"), crossed.count("axis")  # only where nothing else is left
            cost = 2.0 * (len(crossed) - over - ways) + OVER_WAY * ways + OVER_LEADER * over + 0.2 * long
            if best is None or cost < best[0]:
                best = (cost, foot, c)
            found += not (over or ways)
        if best is not None and found >= ENOUGH:
            break
    if best is None:
        return math.inf, feet[0], (min(max(feet[0][0] + LEADERS[-1], inside.x), inside.right), inside.top)
    return best
