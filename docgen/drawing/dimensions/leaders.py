"""Callouts: a block of text with a slanted leader to a circle or an edge; what finds no place near goes to a margin.

In the margin the blocks stand one above the other in the order of their leaders' feet, so no two leaders cross.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from docgen.drawing.boxes import crossing
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.screen import Mask, Rows, around
from docgen.drawing.dimensions.sides import gather
from docgen.drawing.dimensions.trial import Trial
from docgen.drawing.dimensions.wanted import Callout, Rules
from docgen.drawing.records import Point

DIRECTIONS = (45, 60, 135, 120, 30, 150, -45, -60, -135, -120, -30, -150, 75, 105, -75, -105, 15, 165, -15, -165)
NEAR = (45, 135, -45, -135, 0, 180, 90, -90)
FIRST, STEP = 5.0, 4.0  # mm: the shortest leader, and by how much the next ones are longer
BATCHES = (3, 5, 8, 8)  # so many lengths are looked at in one go
TAIL = 3.0  # mm of level line between leader and text
STRIKE = 0.45  # mm that lines keep from text
SMALL, ON = 1.0, 1e-3  # mm: a leader keeps so far from the middle of a small hole; a foot lies on its own circle
NONE: Rows = np.zeros((0, 3))


def leader_trials(
    wanted: Callout,
    at: Point,
    radius: float,
    text: Label,
    occupied: Occupied,
    rules: Rules,
    others: tuple[Point, ...] = (),
    rings: Rows = NONE,
) -> Iterator[Trial]:
    """Yield the candidates near a circle about `at` (paper mm), radial leaders in many directions, cheapest first.

    A leader may go to the like circles about `others` as well. Candidates whose text would lie on something, or
    whose leader would strike a text or run through one of the `rings` (x, y, radius), are left out.
    """
    feet = [_foot(wanted, p, radius, float(degrees)) for degrees in DIRECTIONS for p in (at, *others)]
    starts = np.array([foot for foot, _ in feet])
    ways = np.array([(_cos(way), _sin(way)) for _, way in feet])
    share = 0.05 / (1 + len(others))
    k = 0
    for count in BATCHES:
        longs = FIRST + STEP * np.arange(k, k + count)
        bends = (starts[None, :, :] + longs[:, None, None] * ways[None, :, :]).reshape(-1, 2)
        heels = np.tile(starts, (count, 1))
        standing = _standing(heels, bends, text, occupied, rules)
        if len(rings):
            left = np.flatnonzero(standing)
            standing[left] = ~_passing(heels[left], bends[left], rings)
        for i in np.flatnonzero(standing).tolist():
            rank = i % len(feet)
            cost = rules.costs.away * float(longs[i // len(feet)]) + share * rank
            bend = (float(bends[i, 0]), float(bends[i, 1]))
            yield _bent(feet[rank][0], bend, feet[rank][1], text, rules, cost)
        k += count


def near_trials(at: Point, radius: float, text: Label, rules: Rules) -> Iterator[Trial]:
    """Yield the candidates that stand at a circle without a leader, cheapest first."""
    for off in (0.6, 1.6):
        for rank, degrees in enumerate(NEAR):
            c, s = _cos(degrees), _sin(degrees)
            reach = radius + rules.clear + off
            box = text.box((at[0] + c * (reach + text.width / 2), at[1] + s * (reach + text.tall / 2)))
            yield Trial(text, box, (), cost=off + 0.05 * rank)


def _standing(heels: Rows, bends: Rows, text: Label, occupied: Occupied, rules: Rules) -> Mask:
    """Return which leaders from `heels` to `bends`, with the text behind a level tail, may stand."""
    right = np.where(bends[:, 0] >= heels[:, 0], 1.0, -1.0)
    centres = bends.copy()
    centres[:, 0] += right * (TAIL + rules.clear + 0.3 + text.width / 2)
    grown = 2 * rules.clear
    out = occupied.screen.free(around(centres, text.width + grown, text.tall + grown))
    left = np.flatnonzero(out)
    out[left] = occupied.screen.unstruck(np.concatenate((heels[left], bends[left]), axis=1), STRIKE)
    return out


def _passing(heels: Rows, bends: Rows, rings: Rows) -> Mask:
    """Return which leaders would run through a circle that they do not come from: they would be read as its own."""
    way = bends - heels
    off = rings[None, :, :2] - heels[:, None, :]
    share = np.clip((off * way[:, None, :]).sum(axis=2) / (way**2).sum(axis=1)[:, None], 0.0, 1.0)
    near = np.hypot(*(off - share[:, :, None] * way[:, None, :]).transpose(2, 0, 1))
    own = np.hypot(off[:, :, 0], off[:, :, 1]) <= rings[None, :, 2] + ON
    through: Mask = ((near < np.maximum(rings[None, :, 2], SMALL)) & ~own).any(axis=1)
    return through


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _foot(wanted: Callout, at: Point, radius: float, degrees: float) -> tuple[Point, float]:
    """Return the leader's foot on the circle or arc and the direction in which it leaves."""
    if wanted.toward is None:
        return ((at[0] + radius * _cos(degrees), at[1] + radius * _sin(degrees)), degrees)
    off = (degrees - wanted.toward + 180) % 360 - 180
    turn = wanted.toward + max(-wanted.spread, min(wanted.spread, off))
    return ((at[0] + radius * _cos(turn), at[1] + radius * _sin(turn)), degrees)


def _bent(foot: Point, bend: Point, way: float, text: Label, rules: Rules, cost: float = 0.0) -> Trial:
    """Return the candidate with a leader from `foot` to `bend` and a level tail to the text."""
    right = 1.0 if bend[0] >= foot[0] else -1.0
    end = (bend[0] + right * TAIL, bend[1])
    box = text.box((end[0] + right * (rules.clear + 0.3 + text.width / 2), bend[1]))
    lines: tuple[Segment, ...] = ((foot, bend, "leader"), (bend, end, "leader"))
    return Trial(text, box, lines, ((foot, way + 180),), anchor="left" if right > 0 else "right", cost=cost)


def margin_trials(
    items: list[tuple[Callout, Point, float, Label]], occupied: Occupied, rules: Rules, right: bool
) -> list[tuple[Callout, Trial]]:
    """Return one candidate each in the margin right or left of everything, sorted so that leaders cannot cross."""
    x0, _, x1, _ = occupied.bounds()
    order = sorted(items, key=lambda i: (i[1][1], i[1][0], i[0].key))
    step = max((i[3].tall for i in order), default=0.0) + 2.0
    heights = gather([i[1][1] for i in order], step)
    x = x1 + 8.0 if right else x0 - 8.0
    out: list[tuple[Callout, Trial]] = []
    for k in _uncrossed([i[1] for i in order], [(x, y) for y in heights]):
        wanted, at, radius, text = order[k[0]]
        bend = (x, heights[k[1]])
        way = math.degrees(math.atan2(bend[1] - at[1], bend[0] - at[0]))
        foot, _ = _foot(wanted, at, radius, way)
        out.append((wanted, _bent(foot, bend, way, text, rules)))
    return out


def _uncrossed(feet: list[Point], slots: list[Point]) -> list[tuple[int, int]]:
    """Return (foot, slot) pairs without crossings: a crossing pair is swapped, which makes the whole shorter, so it ends."""
    pairs = list(range(len(feet)))
    swapped = True
    while swapped:
        swapped = False
        for i in range(len(feet)):
            for j in range(i + 1, len(feet)):
                if crossing(feet[i], slots[pairs[i]], feet[j], slots[pairs[j]]):
                    pairs[i], pairs[j] = pairs[j], pairs[i]
                    swapped = True
    return list(enumerate(pairs))
