"""Angles: an arc between the arms, its figure outside the arc where it fits, else further out."""

from __future__ import annotations

import itertools
import math

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.label import Label
from docgen.drawing.dimensions.occupied import Segment
from docgen.drawing.dimensions.trial import UNDRAWN, Trial
from docgen.drawing.dimensions.wanted import Angular, Rules
from docgen.drawing.records import Arc, Pen, Point

RADII = (10.0, 13.0, 16.0, 20.0, 25.0, 30.0, 36.0, 44.0, 55.0, 70.0)


def angle_trials(wanted: Angular, apex: Point, first: Point, second: Point, text: Label, rules: Rules) -> list[Trial]:
    """Return the candidates for the angle at `apex` (paper mm), the arc at several radii, the text along it."""
    one = _direction(apex, first)
    two = _direction(apex, second)
    if (two - one) % 360 > 180:
        one, two, first, second = two, one, second, first
    span = (two - one) % 360
    out: list[Trial] = []
    for radius in RADII:
        lines = _arms(apex, ((first, one), (second, two)), radius, rules)
        head = symbols.arrow_length(rules.height)
        inside = math.radians(span) * radius >= 2 * head + 2
        lines += _chords(
            apex,
            radius,
            one if inside else one - _tail(head, radius),
            span + (0 if inside else 2 * _tail(head, radius)),
        )
        for k, (toward, beyond) in enumerate(_text_spots(one, span, radius, head, inside)):
            box = text.box(_text_centre(apex, radius, toward, text, rules, beyond))
            cost = rules.costs.away * (radius + 2 * beyond) + rules.costs.outside_text * min(k, 2)
            out.append(_trial(apex, radius, (one, one + span), inside, head, text, box, tuple(lines), cost))
    return out


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


def _text_spots(one: float, span: float, radius: float, head: float, inside: bool) -> list[tuple[float, float]]:
    """Return (direction, distance past the arc): on the bisector, then beside either arm, then further out."""
    beside = _tail(head, radius) / 2 + 6
    middle = one + span / 2
    return [
        (middle, 0.0),
        (one + span + beside, 0.0),
        (one - beside, 0.0),
        *((middle, off) for off in (4.0, 8.0, 14.0)),
    ]


def _text_centre(apex: Point, radius: float, toward: float, text: Label, rules: Rules, beyond: float) -> Point:
    """Return the middle of level text that clears the arc in the direction `toward`."""
    c, s = abs(math.cos(math.radians(toward))), abs(math.sin(math.radians(toward)))
    half = c * text.width / 2 + s * text.tall / 2
    sag = radius - math.sqrt(max(0.0, radius * radius - (s * text.width / 2 + c * text.tall / 2) ** 2))
    return _polar(apex, radius + half + rules.clear + 0.3 + beyond - min(sag, 0.0), toward)


def _trial(
    apex: Point,
    radius: float,
    span: tuple[float, float],
    inside: bool,
    head: float,
    text: Label,
    box: Box,
    lines: tuple[Segment, ...],
    cost: float,
) -> Trial:
    one, two = span
    low, high = _polar(apex, radius, one), _polar(apex, radius, two)
    # A head follows the chord under it, so that both its point and its back lie on the arc.
    lean = math.degrees(head / radius) / 2
    heads = (
        ((low, one - 90 + lean), (high, two + 90 - lean))
        if inside
        else ((low, one + 90 - lean), (high, two - 90 + lean))
    )
    tail = 0.0 if inside else _tail(head, radius)
    arc = Arc(apex, radius, one - tail, two + tail, Pen.THIN)
    return Trial(text, box, lines, heads, (low, high), (arc,), cost=cost)
