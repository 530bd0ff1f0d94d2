"""Angles: an arc between the arms, its figure outside the arc where it fits, else further out."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from docgen.drawing import symbols
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.occupied import Occupied, Segment
from docgen.drawing.dimensions.screen import around
from docgen.drawing.dimensions.trial import UNDRAWN, Trial
from docgen.drawing.dimensions.wanted import Rules
from docgen.drawing.records import Arc, Pen, Point

EMPTY = Label((), 0.0, 0.0, 0.0, ())
RADII = (10.0, 13.0, 16.0, 20.0, 25.0, 30.0, 36.0, 44.0, 55.0, 70.0)


def angle_trials(
    apex: Point, first: Point, second: Point, text: Label, occupied: Occupied, rules: Rules
) -> list[Trial]:
    """Return the candidates for the angle at `apex` (paper mm), the arc at several radii, the text along it.

    Those whose text would lie on something are left out.
    """
    one = _direction(apex, first)
    two = _direction(apex, second)
    if (two - one) % 360 > 180:
        one, two, first, second = two, one, second, first
    span = (two - one) % 360
    head = symbols.arrow_length(rules.height)
    out: list[Trial] = []
    for radius in RADII:
        tail = 0.0 if math.radians(span) * radius >= 2 * head + 2 else _tail(head, radius)
        lines = _arms(apex, ((first, one), (second, two)), radius, rules)
        lines += _chords(apex, radius, one - tail, span + 2 * tail)
        spots = list(_spots(apex, radius, one, span, tail, text, rules))
        grown = 2 * rules.clear
        free = occupied.screen.free(around(np.array([c for c, _ in spots]), text.width + grown, text.tall + grown))
        for centre, price in itertools.compress(spots, free.tolist()):
            trial = _trial(apex, radius, (one, one + span), tail, head)
            cost = rules.costs.away * radius + price
            out.append(replace(trial, label=text, box=text.box(centre), lines=tuple(lines), cost=cost))
    return sorted(out, key=lambda t: t.cost)


def _direction(apex: Point, p: Point) -> float:
    return math.degrees(math.atan2(p[1] - apex[1], p[0] - apex[0]))


def _tail(head: float, radius: float) -> float:
    """Return the angle of the arc's run beyond an arm when the heads stand outside."""
    return math.degrees(2 * head / radius)


def _polar(apex: Point, radius: float, degrees: float) -> Point:
    return (apex[0] + radius * math.cos(math.radians(degrees)), apex[1] + radius * math.sin(math.radians(degrees)))


def _arms(apex: Point, arms: tuple[tuple[Point, float], ...], radius: float, rules: Rules) -> list[Segment]:
    """Return the extension lines that carry the arms out to the arc."""
    out: list[Segment] = []
    for end, degrees in arms:
        long = math.dist(apex, end)
        if long < radius - 0.5:
            out.append(
                (_polar(apex, long + rules.gap, degrees), _polar(apex, radius + rules.over, degrees), "extension")
            )
    return out


def _chords(apex: Point, radius: float, start: float, span: float) -> list[Segment]:
    count = max(2, math.ceil(span / 10))
    points = [_polar(apex, radius, start + span * k / count) for k in range(count + 1)]
    return [(a, b, UNDRAWN) for a, b in itertools.pairwise(points)]


def _spots(
    apex: Point, radius: float, one: float, span: float, tail: float, text: Label, rules: Rules
) -> Iterator[tuple[Point, float]]:
    """Yield (middle of the text, its price): outside the arc on the bisector, past either end of the arc, within it."""
    middle = one + span / 2
    clear = rules.clear + 0.3
    out = radius + _half(text, middle) + clear
    yield _polar(apex, out, middle), 0.0
    for end, way in ((one + span + tail, 90.0), (one - tail, -90.0)):
        p, along = _polar(apex, radius, end), end + way
        off = _half(text, along) + clear
        yield _polar(p, off, along), rules.costs.outside_text
    within = radius - 1.6 * _half(text, middle) - clear
    if within > 0:
        yield _polar(apex, within, middle), rules.costs.outside_text
    for beyond in (4.0, 8.0, 14.0):
        yield _polar(apex, out + beyond, middle), 2 * rules.costs.outside_text + rules.costs.away * beyond


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
