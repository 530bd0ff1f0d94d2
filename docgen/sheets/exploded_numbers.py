"""The numbers of the piece taken apart: one for each kind of part or thing, at the one that stands most by itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from docgen.drawing import symbols, views
from docgen.drawing.exploding import Floats
from docgen.drawing.ground import Ground
from docgen.drawing.records import Line, Pen, Point, Record, Text
from docgen.geometry.lines import VIEWS, Drawn
from docgen.geometry.shapes import Vec2
from docgen.geometry.sight import Items, places
from docgen.layout.model import Rect
from docgen.sheets.context import Context
from docgen.sheets.exploded_leaders import Found, Paper

VIEW = VIEWS["axonometric"]
FEET = 8  # places of a kind from which a leader may start; others only where these are no good
ALONE = 6.0  # mm from what else is drawn: further off a place stands no more alone
AROUND = (1.0, 2.0, 3.0, 4.5)  # mm about a place that may be white
MANY = 12  # kinds of part, beyond which the numbers are smaller
AGAIN = 12.0  # a number that costs so much is placed once more when all others stand
LINE = 3.0  # mm: air about the line that names what is hidden

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
    chords = [(chord, getattr(record, "pen", None) is Pen.CENTRE) for record in drawn for chord in views.chords(record)]
    lines = np.array([chord for chord, _ in chords])
    heights = context.layout.heights
    height = heights.figure if len(context.kinds) <= MANY else heights.least
    radius = symbols.balloon_radius(height)
    free = places(items, VIEW)
    wanted: list[tuple[str, Sequence[int], list[Vec2]]] = [
        (letter, (), [*found]) for letter, found in more
    ]  # they have fewer places: first come, first served
    wanted += [(number, which, [p for k in which for p in free[k]]) for number, which in marks]
    unseen = [number for number, _, spots in wanted if not spots]
    low = floor + (heights.note + LINE if unseen else 0.0)
    inside = Rect(area.x, low, area.width, area.top - low).inset(radius + 0.5)
    paper = Paper(lines, np.array([way for _, way in chords]), radius, inside)
    feet = {
        number: _clearest([views.on_paper(p, scale, at) for p in spots], paper.ground, crowd, which)
        for number, which, spots in wanted
        if spots
    }
    out: list[Record] = []
    for number, found in _settled(feet, paper).items():
        rim = paper.rim(found.foot, found.centre)
        out += [Line(found.foot, rim, Pen.THIN), *symbols.dot(found.foot)]
        out += symbols.balloon(found.centre, number, height)
    if unseen:
        out.append(Text((area.x, floor + 2.0), f"hidden behind other parts: {', '.join(unseen)}", heights.note))
    return out


def _settled(feet: Mapping[str, Sequence[Point]], paper: Paper) -> dict[str, Found]:
    """Return where each number stands: in their order, then once more those that cost much, now that all others stand.

    Where that is no better others make room: those that stand in the best place of a number are placed after it.
    """
    placed: dict[str, Found] = {}
    for number in feet:
        placed[number] = _beside(feet[number], paper, [*placed.values()])
    for number in sorted(placed, key=lambda n: -placed[n].cost):
        if placed[number].cost > AGAIN:
            others = [found for other, found in placed.items() if other != number]
            placed[number] = min(placed[number], _beside(feet[number], paper, others), key=lambda f: f.cost)
    before: dict[str, Found] = {}
    while before != placed:
        before = placed
        for number in feet:
            if placed[number].crosses:
                placed = _room_made(number, feet, paper, placed)
    return placed


def _room_made(
    number: str, feet: Mapping[str, Sequence[Point]], paper: Paper, placed: Mapping[str, Found]
) -> dict[str, Found]:
    """Return where numbers stand when one has its best place and those in its way are placed anew; as before if it costs more."""
    out = dict(placed)
    out[number] = _beside(feet[number], paper, [])
    aside = [other for other in out if other != number and paper.disturbs(out[number], out[other])]
    for other in aside:
        del out[other]
    for other in aside:
        out[other] = _beside(feet[other], paper, [*out.values()])
    cheaper = sum(f.cost for f in out.values()) < sum(f.cost for f in placed.values())
    return {n: (out if cheaper else placed)[n] for n in placed}


def _beside(feet: Sequence[Point], paper: Paper, others: Sequence[Found]) -> Found:
    """Return the cheapest place for a number whose leader goes to a good place of its part, or to any where it has to."""
    best = paper.cheapest(feet[:FEET], others)
    if best.crosses and len(feet) > FEET:
        best = min(best, paper.cheapest(feet[FEET:], others), key=lambda f: f.cost)
    return best


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
