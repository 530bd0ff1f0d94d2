"""What the leaders on true-size pages cross, found from what is drawn alone.

A label is drawn as a thin line, from what it tells to its lettering, and the rows of the lettering behind it. Its leader may
cross outlines of the piece and hatching, but no line or letter that tells something else.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import takewhile
from typing import TypeGuard

from docgen.drawing import lettering
from docgen.drawing.boxes import crossing, inside_length
from docgen.drawing.records import Line, Pen, Point, Record, Sheet, Text
from docgen.drawing.views import chords
from docgen.packet.fonts import PacketMetrics

OWN = 1.5  # mm from its foot: so far a leader runs through what it tells
AT = 1.8  # mm at most between a leader's end and its lettering
HIDDEN = 0.02  # mm
TELLS = (Pen.THIN, Pen.CENTRE, Pen.PHANTOM, Pen.HIDDEN, Pen.DATUM, Pen.TRIM, Pen.BREAK)
METRICS = PacketMetrics()


@dataclass(frozen=True)
class Leader:
    """A label's first row, and its line from what it tells to the lettering, paper mm."""

    told: str
    foot: Point
    end: Point
    line: Line

    @property
    def long(self) -> float:
        """How long the line is, mm."""
        return math.dist(self.foot, self.end)

    @property
    def free(self) -> tuple[Point, Point]:
        """The line without what lies next to its foot."""
        share = min(0.5, OWN / self.long)
        (x, y), (u, v) = self.foot, self.end
        return (x + share * (u - x), y + share * (v - y)), self.end


def leaders(sheet: Sheet) -> list[Leader]:
    """Return the labels of a true-size page that have a leader: it ends at the edge of what is lettered next."""
    out = []
    for n, line in enumerate(sheet.records):
        if isinstance(line, Line) and line.pen is Pen.THIN:
            rows = list(takewhile(_level, sheet.records[n + 1 :]))
            if rows and any(_off(line.b, rows[: k + 1]) < AT for k in range(len(rows))):
                out.append(Leader(rows[0].text, line.a, line.b, line))
    return out


def _level(record: Record) -> TypeGuard[Text]:
    return isinstance(record, Text) and not record.angle


def _off(p: Point, rows: list[Text]) -> float:
    """Return how far a point lies from the rectangle about rows, mm; what lies within lies far off: no leader ends there."""
    boxes = [lettering.box(row, METRICS) for row in rows]
    x0, x1 = min(b.x - b.half_w for b in boxes), max(b.x + b.half_w for b in boxes)
    y0, y1 = min(b.y - b.half_h for b in boxes), max(b.y + b.half_h for b in boxes)
    dx, dy = max(x0 - p[0], p[0] - x1), max(y0 - p[1], p[1] - y1)
    return math.inf if max(dx, dy) < 0 else math.hypot(max(dx, 0.0), max(dy, 0.0))


def faults(sheet: Sheet) -> list[str]:
    """Return what leaders cross besides outlines and hatching, in words."""
    found = leaders(sheet)
    own = {id(one.line) for one in found}
    told = [r for r in sheet.records if getattr(r, "pen", None) in TELLS and id(r) not in own]
    texts = [r for r in sheet.records if isinstance(r, Text) and not r.angle]
    out: list[str] = []
    for n, one in enumerate(found):
        a, b = one.free
        out += [f"{one.told!r} crosses a {r.pen.value} line" for r in told if _crosses(one, r)]  # type: ignore[union-attr]
        out += [
            f"{one.told!r} crosses the leader of {o.told!r}" for o in found[n + 1 :] if crossing(a, b, o.foot, o.end)
        ]
        out += [
            f"{one.told!r} runs through {t.text!r}"
            for t in texts
            if inside_length(lettering.box(t, METRICS), one.foot, one.end) > HIDDEN
        ]
    return out


def _crosses(one: Leader, record: Record) -> bool:
    return any(crossing(*one.free, a, b) for a, b in chords(record))
