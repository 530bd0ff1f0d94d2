"""A candidate for one dimension: its lines, heads and text; whether it may stand, what it costs, how it is drawn."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import compress

from docgen.drawing import symbols
from docgen.drawing.boxes import Box, inside_length
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.screen import bounds
from docgen.drawing.dimensions.wanted import Placed, Rules, Wanted
from docgen.drawing.records import Line, Pen, Point, Record

BESIDE = 2.0  # mm: a dimension line runs no closer beside another line
ALONG = 0.3  # mm: nor along an edge, however short
BARRED = ("view", "centre", "dimension", "leader", "extension")
SLACK = 1.5
ENOUGH = 14  # possible candidates are compared; more seldom give a better one
UNDRAWN = "arc"  # kind of the chords that stand for an arc, which is drawn as one record


@dataclass(frozen=True, slots=True)
class Trial:
    """One way to set a dimension; `heads` are (tip, direction in degrees)."""

    label: Label
    box: Box
    lines: tuple[Segment, ...]
    heads: tuple[tuple[Point, float], ...] = ()
    arrows: tuple[Point, Point] | None = None
    extra: tuple[Record, ...] = ()
    anchor: str = "left"
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Batch:
    """Candidates that are not drawn up before one of them may be due: none costs less than `least`.

    Of two that cost the same, the one in the batch with the lower `number` comes first.
    """

    least: float
    number: int
    make: Callable[[], Iterable[Trial]]


def in_order(batches: Iterable[Batch]) -> Iterator[Trial]:
    """Yield the candidates of batches in the order of what they cost; the batches come in the order of their `least`.

    Whoever stops early pays for the batches alone that could have held something as cheap.
    """
    waiting: list[tuple[float, int, int, Trial]] = []
    for batch in batches:
        while waiting and waiting[0][0] < batch.least:
            yield heappop(waiting)[-1]
        for n, trial in enumerate(batch.make()):
            heappush(waiting, (trial.cost, batch.number, n, trial))
    while waiting:
        yield heappop(waiting)[-1]


def possible(trial: Trial, occupied: Occupied, rules: Rules) -> bool:
    """Return True when nothing would lie on a text and no line would run along another one."""
    return clear(trial, occupied, rules) and stand(trial.lines, occupied)


def clear(trial: Trial, occupied: Occupied, rules: Rules) -> bool:
    """Return True when the text of a candidate would lie on nothing, nor its own lines run through it."""
    if not occupied.free(trial.box, rules.clear):
        return False
    own = trial.box.grown(0.4)
    return not any(inside_length(own, a, b) > 0 for a, b, _ in trial.lines)


def stand(lines: Iterable[Segment], occupied: Occupied) -> bool:
    """Return True when no line would run through a text or along another line."""
    for a, b, kind in lines:
        if occupied.strikes(a, b, 0.45):
            return False
        if kind == "dimension" and occupied.doubled(a, b, BESIDE, BARRED, along=ALONG):
            return False
        if kind == "extension" and occupied.doubled(a, b, 0.8, ("dimension", "leader")):
            return False
        if kind == "leader" and occupied.doubled(a, b, 0.8, ("view", "dimension", "leader", "extension")):
            return False
        if kind == "leader" and occupied.crossed(a, b, ("leader",)):
            return False
    return True


def screened(trials: Sequence[Trial], occupied: Occupied, rules: Rules) -> Iterator[Trial]:
    """Return those candidates whose text lies on nothing."""
    if not trials:
        return iter(())
    return compress(trials, occupied.screen.free(bounds([t.box for t in trials], rules.clear)).tolist())


def full_cost(trial: Trial, occupied: Occupied, rules: Rules, price: float) -> float:
    """Return what a candidate costs with the lines that it crosses and how far it makes all grow; more is not counted up past `price`."""
    growth = rules.costs.growth * occupied.growth(trial.box)
    crossed = 0.0
    for a, b, _ in trial.lines:
        if trial.cost + crossed + growth >= price:
            break
        for kind in occupied.crossed(a, b):
            crossed += rules.costs.over_dimension if kind in ("dimension", "leader", "arc") else rules.costs.over_line
    return trial.cost + crossed + growth


def cheapest(trials: Iterable[Trial], occupied: Occupied, rules: Rules) -> Trial | None:
    """Return the possible candidate that costs least, the earlier one where two cost the same; None if none may stand.

    The candidates come in the order of what they cost by themselves, within `SLACK`.
    """
    best: Trial | None = None
    price = math.inf
    stood = 0
    for trial in trials:
        if trial.cost >= price + SLACK or stood >= ENOUGH:
            break
        if trial.cost < price and possible(trial, occupied, rules):
            stood += 1
            cost = full_cost(trial, occupied, rules, price)
            if cost < price:
                best, price = trial, cost
    return best


def commit(trial: Trial, wanted: Wanted, how: str, occupied: Occupied, rules: Rules) -> Placed:
    """Note the candidate as standing and return its records."""
    for a, b, kind in trial.lines:
        occupied.add_line(a, b, kind)
    occupied.add_box(trial.box)
    drawn: list[Record] = [Line(a, b, Pen.THIN) for a, b, kind in trial.lines if kind != UNDRAWN]
    for tip, degrees in trial.heads:
        drawn += symbols.arrowhead(tip, degrees, symbols.arrow_length(rules.height))
    drawn += trial.extra
    drawn += trial.label.texts(trial.box, trial.anchor)
    return Placed(wanted, how, trial.arrows, tuple(drawn))
