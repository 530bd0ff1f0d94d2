"""What the leaders of balloons cross on a sheet, found from what is drawn alone.

A balloon is a thin circle with bold lettering in its middle; its leader is the thin line that ends on that circle and begins
at a dot. It may cross outlines of the piece, but no line or letter that tells something else.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing import lettering
from docgen.drawing.boxes import crossing, inside_length
from docgen.drawing.records import Arc, Area, Line, Pen, Point, Record, Sheet, Text
from docgen.drawing.views import chords
from docgen.packet.fonts import PacketMetrics

ON = 0.02  # mm: a leader ends on its circle, and begins in the middle of its dot
OWN = 1.5  # mm from the dot: the way of a small thing ends in its middle
TOLD = (Pen.THIN, Pen.CENTRE, Pen.PHANTOM, Pen.CUTTING)


@dataclass(frozen=True)
class Leader:
    """A balloon with its lettering and the line from its dot to its circle, paper mm."""

    told: str
    foot: Point
    end: Point
    centre: Point
    radius: float

    @property
    def long(self) -> float:
        """How long the line is, mm."""
        return math.dist(self.foot, self.end)


def leaders(sheet: Sheet) -> list[Leader]:
    """Return the balloons of a sheet."""
    dots = [_middle(r) for r in sheet.records if isinstance(r, Area) and len(r.rings[0]) > 8]
    lines = [r for r in sheet.records if isinstance(r, Line) and r.pen is Pen.THIN]
    names = [r for r in sheet.records if isinstance(r, Text) and r.bold and r.anchor == "middle"]
    out: list[Leader] = []
    for circle in (r for r in sheet.records if isinstance(r, Arc) and r.pen is Pen.THIN and r.end - r.start == 360):
        name = next((t for t in names if math.dist(t.at, circle.centre) < circle.radius), None)
        ends = [r for r in lines if name and _on(circle, r.b) and any(math.dist(r.a, dot) < ON for dot in dots)]
        if name and ends:
            out.append(Leader(name.text, ends[0].a, ends[0].b, circle.centre, circle.radius))
    return out


def faults(sheet: Sheet, *, thin_edges: bool = False) -> list[str]:
    """Return what leaders cross besides outlines, in words; with `thin_edges`, thin lines may be edges of the piece."""
    found = leaders(sheet)
    own = {(one.foot, one.end) for one in found}
    pens = tuple(pen for pen in TOLD if not (thin_edges and pen is Pen.THIN))
    told = [r for r in sheet.records if isinstance(r, Line | Arc) and r.pen in pens]
    told = [r for r in told if not (isinstance(r, Line) and (r.a, r.b) in own)]
    rings = {(one.centre, one.radius) for one in found}
    told = [r for r in told if not (isinstance(r, Arc) and (r.centre, r.radius) in rings)]
    texts = [r for r in sheet.records if isinstance(r, Text)]
    out: list[str] = []
    for one in found:
        out += [f"{one.told} crosses a {r.pen.value} line at {_near(r)}" for r in told if _crosses(one, r)]
        out += _others(one, found)
        out += [f"{one.told} runs through {t.text!r}" for t in texts if t.text != one.told and _strikes(one, t)]
    return out


def outlines(sheet: Sheet, one: Leader) -> int:
    """Return how many wide lines a leader crosses."""
    wide = [r for r in sheet.records if getattr(r, "pen", None) is Pen.VISIBLE]
    return sum(_crosses(one, r) for r in wide)


def _others(one: Leader, found: list[Leader]) -> Iterator[str]:
    for other in found:
        if other is not one:
            if crossing(one.foot, one.end, other.foot, other.end) and one.told < other.told:
                yield f"{one.told} crosses the leader of {other.told}"
            if _off(other.centre, one.foot, one.end) < other.radius:
                yield f"{one.told} runs through balloon {other.told}"


def _crosses(one: Leader, record: Record) -> bool:
    (x, y), (u, v) = one.foot, one.end
    t = min(OWN / max(one.long, OWN), 1.0) if getattr(record, "pen", None) is Pen.CENTRE else 0.0
    start = (x + t * (u - x), y + t * (v - y))
    return any(crossing(start, one.end, a, b) for a, b in chords(record))


def _strikes(one: Leader, text: Text) -> bool:
    return inside_length(lettering.box(text, PacketMetrics()), one.foot, one.end) > ON


def _off(p: Point, a: Point, b: Point) -> float:
    """Return how far a point lies from a line, mm."""
    long = math.dist(a, b)
    t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / max(long * long, 1e-9)
    t = min(max(t, 0.0), 1.0)
    return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def _on(circle: Arc, p: Point) -> bool:
    return abs(math.dist(p, circle.centre) - circle.radius) < ON


def _middle(area: Area) -> Point:
    ring = area.rings[0]
    return (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))


def _near(record: Record) -> str:
    x, y = chords(record)[0][0]
    return f"{x:.0f}, {y:.0f}"
