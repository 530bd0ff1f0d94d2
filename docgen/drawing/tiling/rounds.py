"""What a maker wants of a template's arcs: the radius, its centre, where each begins; and the points of a smooth curve."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from docgen.drawing.records import Arc, Line, Pen, Point
from docgen.drawing.tiling.ink import Segment, on_arc
from docgen.drawing.tiling.labels import Label, Row
from docgen.geometry.outlines import SAG
from docgen.layout.model import Heights
from docgen.schedules.template_rows import TemplateRow, seen_mirrored
from docgen.units import Number, Units, format_length

TICK = 2.5  # mm of a tangent mark to each side
PIN = 3.0  # mm that the cross of a point or a centre reaches to each side
SMALL = 6.0  # mm: of a smaller radius only the figure is told
NEAR = 0.1  # mm: a point so near to the outline lies on it
LONG = 10  # signs of a figure after which its row is broken
FULL = 359.0  # degrees: an arc that goes all round has no ends


class Rounds:
    """The arcs of a template's outline and openings, and the points of its curve, in one window."""

    def __init__(
        self,
        row: TemplateRow,
        sides: Sequence[Line | Arc],
        inner: Sequence[Line | Arc],
        chords: Sequence[Segment],
        shows: Callable[[float, float], bool],
    ) -> None:
        self.row, self.shows = row, shows
        self.outer, self.inner = _arcs(sides), _arcs(inner)
        self.disc = bool(self.outer) and all(isinstance(s, Arc) and _one(s, self.outer[0]) for s in sides)
        self.points = [p for p in row.seen.points if _off((p[0], p[1]), chords) < NEAR]

    def alone(self, arcs: Sequence[Arc]) -> list[Arc]:
        """Return the arcs whose radius helps: not those that stand for a curve, one running into the next."""
        if not self.row.seen.radii:
            return []
        some = [a for a in arcs if a.end - a.start < FULL]
        ends = Counter(place(on_arc(a, angle)) for a in some for angle in (a.start, a.end))
        return [a for a in some if all(ends[place(on_arc(a, angle))] == 1 for angle in (a.start, a.end))]

    def ink(self) -> Iterator[Line]:
        """Yield a mark across the outline where an arc begins, a cross at its centre and at each point of a curve."""
        if self.row.seen.radii:
            for arc in (*self.outer, *self.inner):
                yield from _tangents(arc)
        told = [(x, y) for x, y, _ in self.row.seen.holes]
        told += [p for a, b, _ in self.row.seen.lines for p in (a, b)]
        for arc in self._large():
            if self.shows(*arc.centre) and not any(math.dist(arc.centre, p) < NEAR for p in told):
                told.append(arc.centre)
                yield from _cross(arc.centre)
        for x, y, _ in self.points:
            yield from _cross((x, y))

    def labels(self, units: Units, heights: Heights) -> Iterator[Label]:
        """Yield the labels: each radius with its centre, where the arcs begin, what each point of a curve is called."""
        note = heights.note
        for arc in self.alone(self.inner) if not self.disc else ():
            if self.shows(*(at := on_arc(arc, (arc.start + arc.end) / 2))):
                yield Label(at, (Row(f"R {_radius(arc, units)}", heights.figure),))
        if self.disc:
            arc = self.outer[0]
            yield Label(
                on_arc(arc, 135.0),
                (Row(f"⌀{format_length(2 * _settled(arc.radius, units), units)}", heights.figure),),
            )
        centres: set[Point] = set()
        for arc in () if self.disc else self.alone(self.outer):
            at = on_arc(arc, (arc.start + arc.end) / 2)
            large, here = arc in self._large(), self.shows(*arc.centre)
            off = (
                (*(Row(t, note) for t in ("its centre", *self._where(arc.centre, units))),)
                if large and not here
                else ()
            )
            if self.shows(*at):
                radius = Row(f"R {_radius(arc, units)}", heights.figure)
                yield Label(at, (radius, *(off if len(off) > 1 else ())), less=_narrow(radius))
            if large and here and place(arc.centre) not in centres:
                centres.add(place(arc.centre))
                which = "the arc" if len({place(a.centre) for a in self._large()}) == 1 else f"R {_radius(arc, units)}"
                rows = (f"centre of {which}", *self._where(arc.centre, units))
                yield Label(arc.centre, tuple(Row(t, note) for t in rows), spare=True, less=(Row(rows[0], note),))
            for p in (on_arc(arc, angle) for angle in (arc.start, arc.end) if large):
                if self.shows(*p):
                    yield Label(p, (Row("arc begins", note),), spare=True)
        for x, y, name in self.points:
            if name and self.shows(x, y):
                yield Label((x, y), tuple(Row(t, note) for t in (name, *self._where((x, y), units))))

    def _large(self) -> list[Arc]:
        """Return the arcs of the outline that are laid out from their centres."""
        loose = self.row.seen.of or self.row.seen.lies  # a card for turning, a button: nothing is laid out there
        return [] if self.disc or loose else [a for a in self.alone(self.outer) if a.radius >= SMALL]

    def _where(self, p: Point, units: Units) -> tuple[str, ...]:
        """Return where a place lies from the end and the edge from which the part is measured; () off any part."""
        row = self.row
        if row.seen.shared or row.seen.loose or row.seen.of or row.seen.lies:
            return ()
        y = -p[1] if seen_mirrored(row.seen.face) else p[1]

        rows: list[str] = []
        for value, side in ((p[0], row.end), (y, row.edge)):
            if abs(value) < NEAR:
                rows.append(f"at the {side}")
                continue
            figure = f"{format_length(_settled(abs(value), units), units)} {units.sign}"
            where = f"{'from' if value >= 0 else 'outside'} the {side}"
            rows.extend((figure, where) if len(figure) > LONG else (f"{figure} {where}",))
        return tuple(rows)


def place(p: Point) -> Point:
    """Return a place rounded, to find what lies there."""
    return (round(p[0], 3) + 0.0, round(p[1], 3) + 0.0)


def _settled(value: float, units: Units) -> Number:
    """Return a length as it was meant, where an arc that was found again in a solid misses it by less than its chords."""
    step = units.finest * units.mm
    meant = round(value / float(step)) * step
    return meant if abs(float(meant) - value) < SAG else value


def _narrow(figure: Row) -> tuple[Row, ...]:
    """Return a figure in two rows, where it tells the decimal and the nearest line."""
    exact, sign, near = figure.text.partition(" ≈ ")
    return (replace(figure, text=exact), replace(figure, text=f"≈ {near}")) if sign else (figure,)


def _radius(arc: Arc, units: Units) -> str:
    return format_length(_settled(arc.radius, units), units)


def _arcs(sides: Sequence[Line | Arc]) -> list[Arc]:
    return [side for side in sides if isinstance(side, Arc)]


def _one(a: Arc, b: Arc) -> bool:
    """Return whether two arcs lie on one circle."""
    return math.dist(a.centre, b.centre) < NEAR and abs(a.radius - b.radius) < NEAR


def _tangents(arc: Arc) -> Iterator[Line]:
    """Yield a short mark across the outline at both ends of an arc."""
    for degrees in (arc.start, arc.end) if arc.end - arc.start < FULL else ():
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        x, y = on_arc(arc, degrees)
        yield Line((x - TICK * c, y - TICK * s), (x + TICK * c, y + TICK * s), Pen.THIN)


def _cross(at: Point) -> Iterator[Line]:
    x, y = at
    yield Line((x - PIN, y), (x + PIN, y), Pen.THIN)
    yield Line((x, y - PIN), (x, y + PIN), Pen.THIN)


def _off(p: Point, chords: Sequence[Segment]) -> float:
    """Return how far a point lies from the nearest of the chords, mm."""
    best = math.inf
    for (ax, ay), (bx, by) in chords:
        dx, dy = bx - ax, by - ay
        long = dx * dx + dy * dy
        t = min(1.0, max(0.0, ((p[0] - ax) * dx + (p[1] - ay) * dy) / long)) if long else 0.0
        best = min(best, math.dist(p, (ax + t * dx, ay + t * dy)))
    return best
