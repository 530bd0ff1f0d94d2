"""Dashes on short lines: a broken line on which the usual pattern does not fit gets a finer one that does.

A dash longer than half the circle would make a hidden hole look like one that is seen. ISO 128-2 gives dashes 12 and gaps
3 widths long; on what is short both are shortened here, never under 2 widths, and end whole: a circle closes on its
pattern with a dash across each centre line, a line begins and ends with a dash. A chain line shows its dot, or both, at
least once, with a dash on either side.
"""

from __future__ import annotations

import math
from typing import TypeAlias

from docgen.drawing.records import Arc, Line, Path
from docgen.layout.model import PenStyle

Dash: TypeAlias = tuple[float, ...]  # dash, gap and so on; the last one tells where in the pattern the line begins; mm

ROUND = 8  # dashes around a circle at least, where they are long enough to be read
CROSS = 4  # at least in any case: one on each centre line
GAP = 2.0  # line widths: a narrower gap fills with ink
LEAST = 2.0  # line widths, of a dash at the least
READ = 5.0  # line widths, of a dash and its gap, where there is the room
DOT = 1.0  # line widths, of a dot at the least
SEEN = 3.0  # line widths, of a chain line's dash at the least
LONG = 8.0  # line widths: two dots, so that a dash lies in the middle, where their dashes are so long
USUAL = 3.0  # patterns on an open line: a longer one shows what it is by the usual pattern


def fitted(record: Line | Path | Arc, style: PenStyle) -> Dash | None:
    """Return the pattern of a broken line that is short; None where the usual one does, or where no dash has room."""
    w = style.width
    period = sum(style.dash) * w
    long, closed = _length(record)
    if len(style.dash) > 2:
        return _chain(long, style, closed=closed)
    return _closed(long, period, w) if closed else _open(long, period, w)


def _length(record: Line | Path | Arc) -> tuple[float, bool]:
    """Return how long a line is on paper, mm, and whether it closes on itself."""
    if isinstance(record, Line):
        return math.dist(record.a, record.b), False
    if isinstance(record, Arc):
        span = record.end - record.start
        span = span if span > 0 else span + 360
        return math.radians(span) * record.radius, span >= 360 - 1e-6
    long = sum(math.dist(a, b) for a, b in zip(record.points, record.points[1:], strict=False))
    if record.closed:
        return long + math.dist(record.points[-1], record.points[0]), True
    return long, math.dist(record.points[0], record.points[-1]) < 1e-6


def _closed(long: float, period: float, w: float) -> Dash | None:
    if long >= 2 * ROUND * period:
        return None
    count = CROSS * math.floor(long / period / CROSS + 0.5)
    if count < ROUND:
        count = ROUND if long >= ROUND * READ * w else CROSS
    step = long / count
    if step < (GAP + LEAST) * w:
        return (step / 2, step / 2, step / 4)
    gap = _gap(step, w)
    return (step - gap, gap, (step - gap) / 2)


def _open(long: float, period: float, w: float) -> Dash | None:
    """Return dashes and gaps so that the line begins and ends with a dash; None for a line too short for two."""
    if long >= USUAL * period or long < (2 * LEAST + GAP) * w:
        return None
    count = max(2, math.floor(long / period + 0.5) + 1)
    gap = _gap(long / (count - 0.5), w)
    return ((long - (count - 1) * gap) / count, gap, 0.0)


def _gap(step: float, w: float) -> float:
    return max(GAP * w, min(3 * w, 0.4 * step))


def _chain(long: float, style: PenStyle, *, closed: bool) -> Dash | None:
    """Return dashes with dots between them so that the line begins and ends with a dash, or closes on its pattern."""
    w, tail = style.width, style.dash[1:]
    if long >= USUAL * sum(style.dash) * w:
        return None
    small = tuple(GAP if k % 2 == 0 else DOT for k in range(len(tail)))
    for count, between, least in ((2, tail, LONG), (1, tail, LONG), (1, small, SEEN)):
        dash = (long - count * sum(between) * w) / (count if closed else count + 1)
        if dash >= least * w:
            return (dash, *(d * w for d in between), dash / 2 if closed else 0.0)
    return None
