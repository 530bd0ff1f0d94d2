"""What a maker wants of a template's arcs: the radius, its centre, where each begins; and the points of a smooth curve."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from docgen.drawing.records import Arc, Line, Pen, Point
from docgen.drawing.tiling.ink import Segment, off, on_arc
from docgen.drawing.tiling.labels import Label, Row
from docgen.geometry.outlines import SAG
from docgen.layout.model import Heights
from docgen.schedules.template_rows import TemplateRow, aslant, seen_mirrored
from docgen.units import Number, Units, format_length

TICK = 2.5  # mm of a tangent mark to each side
PIN = 3.0  # mm that the cross of a point or a centre reaches to each side
SMALL = 6.0  # mm: of a smaller radius only the figure is told
NEAR_CENTRE = 40.0  # mm: of a smaller radius the centre is told with it, since little lettering fits about it
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
        self.points = [p for p in row.seen.points if off((p[0], p[1]), chords) < NEAR]

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
            at = _part(arc, 0.5)
            large, here = arc in self._large(), self.shows(*arc.centre)
            where = tuple(Row(t, note) for t in self._where(arc.centre, units)) if large else ()
            near = not here or arc.radius <= NEAR_CENTRE
            if self.shows(*at):
                radius = Row(f"R {_radius(arc, units)}", heights.figure)
                rows = (radius, *((Row("its centre", note), *where) if where and near else ()))
                beside = tuple(p for p in (_part(arc, 0.25), _part(arc, 0.75)) if self.shows(*p))
                yield Label(at, rows, less=_narrow(radius) or rows[:1], away=arc.centre, also=beside)
            if large and here and not (where and near) and place(arc.centre) not in centres:
                centres.add(place(arc.centre))
                which = "the arc" if len({place(a.centre) for a in self._large()}) == 1 else f"R {_radius(arc, units)}"
                yield Label(arc.centre, (Row(f"centre of {which}", note),), spare=True, away=at)
            for p in (on_arc(arc, angle) for angle in (arc.start, arc.end) if large):
                if self.shows(*p):
                    yield Label(p, (Row("arc begins", note),), spare=True, away=arc.centre)
        for x, y, name in self.points:
            if name and self.shows(x, y):
                yield Label((x, y), tuple(Row(t, note) for t in (name, *self._where((x, y), units))))

    def told(self, units: Units) -> Iterator[str]:
        """Yield where the centres of arcs lie that are too wide for the lettering beside them to tell it."""
        for arc in self._large():
            places = [f"{figure} {where}".strip() for figure, where in self._places(arc.centre, units)]
            if places and arc.radius > NEAR_CENTRE and self.shows(*arc.centre):
                yield f"R {_radius(arc, units)}: its centre {', '.join(places)}."

    def _large(self) -> list[Arc]:
        """Return the arcs of the outline that are laid out from their centres."""
        loose = self.row.seen.of or self.row.seen.lies  # a card for turning, a button: nothing is laid out there
        return [] if self.disc or loose else [a for a in self.alone(self.outer) if a.radius >= SMALL]

    def _where(self, p: Point, units: Units) -> tuple[str, ...]:
        """Return rows that say where a place lies, a long figure in a row of its own; () off any part."""
        rows = (
            (figure, where) if len(figure) > LONG else (f"{figure} {where}".strip(),)
            for figure, where in self._places(p, units)
        )
        return tuple(row for some in rows for row in some)

    def _places(self, p: Point, units: Units) -> Iterator[tuple[str, str]]:
        """Yield figure and side: where a place lies from an end and an edge, those of the thick lines where there are any.

        Nothing where one of these has been cut aslant: the figure would not be measured from what is called the datum there.
        """
        row = self.row
        if row.seen.shared or row.seen.loose or row.seen.of or row.seen.lies:
            return
        if any(aslant(a, b) for a, b in row.seen.datum):
            return
        thick = {row.side(a, b) for a, b in row.seen.datum}
        y = -p[1] if seen_mirrored(row.seen.face) else p[1]
        for value, size, side, far in ((p[0], row.size[0], row.end, row.far), (y, row.size[1], row.edge, row.far_edge)):
            if far in thick and side not in thick:
                value, side = size - value, far
            if abs(value) < NEAR:
                yield "", f"at the {side}"
                continue
            figure = f"{format_length(_settled(abs(value), units), units)} {units.sign}"
            yield figure, f"{'from' if value >= 0 else 'outside'} the {side}"


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


def _part(arc: Arc, share: float) -> Point:
    """Return the point of an arc at a share of its length."""
    return on_arc(arc, arc.start + share * (arc.end - arc.start))


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
