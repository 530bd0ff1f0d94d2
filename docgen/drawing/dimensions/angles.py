"""Angles: an arc between the arms, its figure outside the arc where it fits, else further out."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import partial

import numpy as np

from docgen.drawing import symbols
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.leaders import FIRST, leader_trials
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.screen import around
from docgen.drawing.dimensions.trial import UNDRAWN, Batch, Trial, in_order, stand
from docgen.drawing.dimensions.wanted import Callout, Rules
from docgen.drawing.records import Arc, Pen, Point

EMPTY = Label((), 0.0, 0.0, 0.0, ())
RADII = (8.0, 10.0, 13.0, 16.0, 20.0, 25.0, 30.0, 36.0, 44.0, 55.0)
LED, LED_TO = 6, 16.0  # so many leaders are tried at each radius up to this


def angle_trials(
    apex: Point, first: Point, second: Point, text: Label, occupied: Occupied, rules: Rules
) -> Iterator[Trial]:
    """Yield the candidates for the angle at `apex` (paper mm), cheapest first: the arc at several radii, the text at it or led out.

    Those whose text would lie on something are left out.
    """
    one, two = _direction(apex, first), _direction(apex, second)
    if (two - one) % 360 > 180:
        one, two, first, second = two, one, second, first
    corner = _Corner(apex, ((first, one), (second, two)), (two - one) % 360, text, occupied, rules)
    return in_order(sorted(corner.batches(), key=lambda b: (b.least, b.number)))


@dataclass(frozen=True, slots=True)
class _Corner:
    """An angle that is to be dimensioned: its arms as (end, direction), and how far it opens, degrees.

    Arcs are drawn up once, for the figure beside them and for one on a leader.
    """

    apex: Point
    arms: tuple[tuple[Point, float], tuple[Point, float]]
    span: float
    text: Label
    occupied: Occupied
    rules: Rules
    _arcs: dict[float, Trial | None] = field(init=False, default_factory=dict)

    def batches(self) -> Iterator[Batch]:
        """Yield the candidates at each radius, those on leaders apart."""
        costs = self.rules.costs
        for n, radius in enumerate(RADII):
            yield Batch(costs.away * radius, 2 * n, partial(self._at_arc, radius))
            if radius <= LED_TO:
                least = costs.away * FIRST + costs.away * radius + 2 * costs.outside_text
                yield Batch(least, 2 * n + 1, partial(self._led_out, radius))

    def _at_arc(self, radius: float) -> Iterator[Trial]:
        """Yield the arc with its figure beside it."""
        bare = self._bare(radius)
        if bare is None:
            return
        text, rules = self.text, self.rules
        spots = list(_spots(self.apex, radius, self.arms[0][1], self.span, self._tail(radius), text, rules))
        grown = 2 * rules.clear
        boxes = around(np.array([c for c, _ in spots]), text.width + grown, text.tall + grown)
        for centre, price in itertools.compress(spots, self.occupied.screen.free(boxes).tolist()):
            yield replace(bare, box=text.box(centre), cost=rules.costs.away * radius + price)

    def _led_out(self, radius: float) -> Iterator[Trial]:
        """Yield the arc with its figure on a leader from its middle."""
        bare = self._bare(radius)
        if bare is None:
            return
        text, rules = self.text, self.rules
        foot = _polar(self.apex, radius, self.arms[0][1] + self.span / 2)
        told = Callout("", foot, 0.0, text.lines)
        for led in itertools.islice(leader_trials(told, foot, 0.0, text, self.occupied, rules), LED):
            cost = led.cost + rules.costs.away * radius + 2 * rules.costs.outside_text
            yield replace(bare, box=led.box, lines=(*bare.lines, *led.lines), anchor=led.anchor, cost=cost)

    def _bare(self, radius: float) -> Trial | None:
        """Return the arc without its figure; None where it may not stand."""
        if radius not in self._arcs:
            self._arcs[radius] = self._arc(radius)
        return self._arcs[radius]

    def _arc(self, radius: float) -> Trial | None:
        one, tail = self.arms[0][1], self._tail(radius)
        lines = _arms(self.apex, self.arms, radius, self.occupied, self.rules)
        lines += _chords(self.apex, radius, one - tail, self.span + 2 * tail)
        if not stand(lines, self.occupied):
            return None
        drawn = _trial(self.apex, radius, (one, one + self.span), tail, symbols.arrow_length(self.rules.height))
        return replace(drawn, label=self.text, lines=tuple(lines))

    def _tail(self, radius: float) -> float:
        """Return the angle of the arc's run beyond an arm, degrees: 0 where the heads stand inside."""
        head = symbols.arrow_length(self.rules.height)
        return 0.0 if math.radians(self.span) * radius >= 2 * head + 2 else math.degrees(2 * head / radius)


def _direction(apex: Point, p: Point) -> float:
    return math.degrees(math.atan2(p[1] - apex[1], p[0] - apex[0]))


def _polar(apex: Point, radius: float, degrees: float) -> Point:
    return (apex[0] + radius * math.cos(math.radians(degrees)), apex[1] + radius * math.sin(math.radians(degrees)))


def _arms(
    apex: Point, arms: tuple[tuple[Point, float], ...], radius: float, occupied: Occupied, rules: Rules
) -> list[Segment]:
    """Return the extension lines that carry the arms out to the arc: on from their ends, or from the apex where none is drawn."""
    out: list[Segment] = []
    for end, degrees in arms:
        long = math.dist(apex, end)
        if long >= radius - 0.5:
            if _drawn(apex, radius, degrees, occupied):
                continue
            long = 0.0
        out.append((_polar(apex, long + rules.gap, degrees), _polar(apex, radius + rules.over, degrees), "extension"))
    return out


def _drawn(apex: Point, radius: float, degrees: float, occupied: Occupied) -> bool:
    """Return True where a line of the view lies under the arc's end."""
    low, high = _polar(apex, radius - 1.5, degrees), _polar(apex, radius - 0.2, degrees)
    return occupied.doubled(low, high, 0.2, ("view", "centre", "extension"))


def _chords(apex: Point, radius: float, start: float, span: float) -> list[Segment]:
    count = max(2, math.ceil(span / 10))
    points = [_polar(apex, radius, start + span * k / count) for k in range(count + 1)]
    return [(a, b, UNDRAWN) for a, b in itertools.pairwise(points)]


def _spots(
    apex: Point, radius: float, one: float, span: float, tail: float, text: Label, rules: Rules
) -> Iterator[tuple[Point, float]]:
    """Yield (middle of the text, its price): outside the arc along it, past either end of it, within it."""
    clear = rules.clear + 0.3
    for share in (0.5, 0.3, 0.7, 0.1, 0.9):
        yield _beside(apex, radius + clear, one + span * share, text), abs(share - 0.5)
    for end, turn in ((one + span + tail, 90.0), (one - tail, -90.0)):
        p, along = _polar(apex, radius, end), end + turn
        yield _beside(p, clear, along, text), rules.costs.outside_text
        for side in (1.0, -1.0):  # level beside the end of the arc
            yield (p[0] + side * (text.width / 2 + clear), p[1]), rules.costs.outside_text + 0.2
    within = radius - 1.6 * _half(text, one + span / 2) - clear
    if within > 0:
        yield _polar(apex, within, one + span / 2), rules.costs.outside_text


def _beside(apex: Point, radius: float, degrees: float, text: Label) -> Point:
    """Return the middle of level text whose nearest corner or side lies at a point about `apex`."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    across = 0.0 if abs(c) < 0.25 else math.copysign(text.width / 2, c)
    up = 0.0 if abs(s) < 0.35 else math.copysign(text.tall / 2, s)
    return (apex[0] + radius * c + across, apex[1] + radius * s + up)


def _half(text: Label, degrees: float) -> float:
    """Return how far level text reaches from its middle in a direction."""
    c, s = abs(math.cos(math.radians(degrees))), abs(math.sin(math.radians(degrees)))
    return c * text.width / 2 + s * text.tall / 2


def _trial(apex: Point, radius: float, span: tuple[float, float], tail: float, head: float) -> Trial:
    """Return arc and heads without text; with a tail the heads stand outside the arms and point inward."""
    one, two = span
    low, high = _polar(apex, radius, one), _polar(apex, radius, two)
    # A head follows the chord under it, so that both its point and its back lie on the arc.
    lean = math.degrees(head / radius) / 2
    turn = 90 - lean
    heads = ((low, one + turn), (high, two - turn)) if tail else ((low, one - turn), (high, two + turn))
    arc = Arc(apex, radius, one - tail, two + tail, Pen.THIN)
    return Trial(EMPTY, EMPTY.box(apex), (), heads, (low, high), (arc,))
