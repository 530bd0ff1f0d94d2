"""A part turned on the lathe: diameters at stations along its axis, joined by tapers, coves and beads."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import ClassVar

from docgen.geometry.curves import arc_through, circle_through
from docgen.geometry.make import frame_along
from docgen.geometry.outlines import flatten_edge, pieces
from docgen.geometry.shapes import Edge, Outline, Revolution, Vec, Vec2
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import OVER, SAME, axis, length, need, settled
from docgen.piece.records import BOTH, Assumed, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind, Template
from docgen.project.fields import Choice, Field, Length, Many, Nested, Word
from docgen.project.statements import Bound
from docgen.units import Number, Units, format_length

STRAIGHT, COVE, BEAD = "taper", "cove", "bead"
SEEN, END = Face(2, 1), Face(0, 1)
WITHIN = 0.01  # mm by which arcs that follow a profile may stand back or out


@dataclass(frozen=True, slots=True)
class Station:
    """A diameter at a place along the axis, and what joins it to the next: a taper, a cove or a bead.

    `swell` is how far a bead stands out from the straight line to the next station, or a cove lies under it; None is
    half round.
    """

    at: Number
    diameter: Number
    next: str = STRAIGHT
    swell: Number | None = None


@dataclass(frozen=True, slots=True)
class Turned:
    """The part turned about its length axis between its first and its last station; what lies outside stays square.

    `told` has the words that the stick and the template give each station, in their order.
    """

    word: ClassVar[str] = "turned"
    stations: tuple[Station, ...]
    told: tuple[str, ...] = field(default=(), compare=False)
    label: str = "turning"

    def made(self, part: Part) -> Made:
        """Return the cutter, diameters and places of the stations, the turning stick, the lathe and half the profile."""
        self._check(part)
        return Made(
            cuts=(Cut(self._cutter(part)),),
            sizes=tuple(self._sizes(part)),
            marks=() if self._rod(part) else self._marks(),
            settings=(self._setting(part),),
            cautions=(Caution("lathe"),),
            templates=() if self._plain else (self._template(part),),
            assumed=(Assumed("turned about the middle of the square"), *self._shoulders(part)),
        )

    @property
    def _plain(self) -> bool:
        """True for a cylinder: nobody needs a template of it."""
        return len({s.diameter for s in self.stations}) == 1 and all(s.next == STRAIGHT for s in self.stations[:-1])

    def _rod(self, part: Part) -> bool:
        """Return whether it is one diameter from end to end: a stick has nothing to tell of it."""
        ends = zip((self.stations[0].at, self.stations[-1].at), part.span(0), strict=True)
        return self._plain and all(abs(float(a - b)) < SAME for a, b in ends)

    def name(self, n: int) -> str:
        """Return the letter of a station."""
        return chr(65 + n % 26) + (str(n // 26) if n >= 26 else "")

    def _said(self, n: int) -> str:
        return self.told[n] if self.told else self.name(n)

    def _runs(self) -> Iterator[tuple[Edge, ...]]:
        """Yield for each station but the last what leads to the next."""
        for a, b in pairwise(self.stations):
            over = _apex(a, b)
            if math.dist(_rim(a), _rim(b)) < SAME:
                yield ()
            else:
                yield (Edge(_rim(b)),) if over is None else arc_through(_rim(a), over, _rim(b))

    def _check(self, part: Part) -> None:
        wide, high, long = float(part.size[1]), float(part.size[2]), float(part.size[0])
        need(
            abs(wide - high) < SAME,
            "turned-blank",
            f"the blank is {figure(part.size[1])} by {figure(part.size[2])}",
            "part",
            "a square blank",
        )
        need(len(self.stations) > 1, "turned-stations", "a turning has one station", "stations", "two or more")
        first, last = self.stations[0].at, self.stations[-1].at
        need(
            all(b.at >= a.at for a, b in pairwise(self.stations)) and last > first,
            "turned-order",
            "the stations do not follow one another along the axis",
            "stations",
            "places that rise from the datum end",
        )
        need(
            first >= -SAME and float(last) <= long + SAME,
            "outside-part",
            f"the {self.label} goes from {figure(first)} to {figure(last)} on the length of {part.path}, which goes "
            f"from {figure(0)} to {figure(part.size[0])}",
            "stations",
            "stations inside the part",
        )
        points = self._points()
        widest, least = 2 * max(p[0] for p in points), 2 * min(p[0] for p in points)
        need(
            widest <= wide + 2 * WITHIN,
            "turned-width",
            f"the {self.label} is {figure(settled(widest))} thick, its blank {figure(part.size[1])}",
            "stations",
            "diameters no larger than the blank",
        )
        need(least > SAME, "turned-width", f"the {self.label} has a neck of no thickness", "stations", "above 0")
        need(
            all(b[1] - a[1] > -WITHIN for a, b in pairwise(points)),
            "turned-returns",
            "a bead or a cove hangs over: its swell is too large for its slope",
            "stations",
            "a smaller swell",
        )

    def _points(self) -> list[Vec2]:
        out = [_rim(self.stations[0])]
        for run in self._runs():
            for edge in run:
                out.extend(flatten_edge(out[-1], edge, WITHIN, 24))
        return out

    def _cutter(self, part: Part) -> Revolution:
        low, high = (float(v) for v in part.span(0))
        first, last = self.stations[0], self.stations[-1]
        out = math.hypot(float(part.size[1]), float(part.size[2])) / 2 + OVER
        a = low - OVER if float(first.at) <= SAME else float(first.at)
        b = high + OVER if float(last.at) >= float(part.size[0]) - SAME else float(last.at)
        before, after = _rim(first), _rim(last)
        run = [Edge((before[0], a)), Edge(before), *(e for r in self._runs() for e in r), Edge((after[0], b))]
        outline = Outline((*run, Edge((out, b)), Edge((out, a))))
        kept = tuple(e for s, e in pieces(outline) if math.dist(s, e.end) > SAME)
        return Revolution(Outline(kept), frame_along(self._axis(part, 0), axis(0), axis(1)))

    def _axis(self, part: Part, at: Number) -> Vec:
        return (float(at), float(part.size[1]) / 2, float(part.size[2]) / 2)

    def _sizes(self, part: Part) -> Iterator[Size]:
        """Yield places and diameters as the broad face shows them, each diameter told at its rim; a cylinder's at its end."""
        if self._plain and self.stations[-1].at >= part.size[0] - SAME:
            yield from self._rod_sizes(part)
            return
        for n, s in enumerate(self.stations):
            centre = self._axis(part, s.at)
            names: tuple[str, ...] = tuple(f"stations.{k}.at" for k, t in enumerate(self.stations) if t.at == s.at)
            if s.at > SAME and names[0] == f"stations.{n}.at":
                yield length(self._axis(part, 0), centre, axis(0), s.at, names, SEEN)
            rim = (centre[0], centre[1] + float(s.diameter) / 2, centre[2])
            names = (f"stations.{n}.diameter",)
            yield Size(SizeKind.DIAMETER, centre, rim, axis(2), s.diameter, names, SEEN, other=rim, label=self.name(n))
        for n, (a, b) in enumerate(pairwise(self.stations)):
            over = _apex(a, b)
            found = circle_through(_rim(a), over, _rim(b)) if over is not None else None
            if found is None or over is None:
                continue
            (r, z), radius = found
            centre = self._axis(part, 0)
            at, top = (z, centre[1] + r, centre[2]), (over[1], centre[1] + over[0], centre[2])
            names = (f"stations.{n}.swell",) if a.swell is not None else ()
            yield Size(SizeKind.RADIUS, at, top, axis(2), settled(radius), names, SEEN, label=a.next)
            if float(a.at) < z < float(b.at):  # what the calliper is set to; it follows from the others
                label, high = ("crown", r + radius) if a.next == BEAD else ("throat", r - radius)
                most = (z, centre[1] + high, centre[2])
                axle, across = self._axis(part, z), settled(2 * high)
                yield Size(
                    SizeKind.DIAMETER, axle, most, axis(2), across, (), SEEN, other=most, label=label, reference=True
                )

    def _rod_sizes(self, part: Part) -> Iterator[Size]:
        """Yield the places between the ends of a cylinder, and its diameter where it is seen as a circle: at its far end."""
        for n, s in enumerate(self.stations):
            if s.at > SAME:
                yield length(self._axis(part, 0), self._axis(part, s.at), axis(0), s.at, (f"stations.{n}.at",), SEEN)
        last = self.stations[-1]
        centre = self._axis(part, last.at)
        rim = (centre[0], centre[1] + float(last.diameter) / 2, centre[2])
        names = tuple(f"stations.{n}.diameter" for n in range(len(self.stations)))
        yield Size(SizeKind.DIAMETER, centre, rim, axis(0), last.diameter, names, END)

    def _marks(self) -> tuple[Mark, ...]:
        out: list[Mark] = []
        for n, s in enumerate(self.stations):
            if out and abs(float(out[-1].position) - float(s.at)) < SAME:
                out[-1] = replace(out[-1], label=f"{out[-1].label}; {self._said(n)}")
            else:
                out.append(Mark(s.at, BOTH, self._said(n), SEEN))
        return tuple(out)

    def _setting(self, part: Part) -> Setting:
        first, last = self.stations[0], self.stations[-1]
        skims = 2 * max(p[0] for p in self._points()) > float(part.size[1]) - SAME
        values = (
            (f"blank, square, {'more than' if skims else 'at least'}", part.size[1], "length"),
            ("largest diameter", max(s.diameter for s in self.stations), "length"),
            ("turned length", last.at - first.at, "length"),
        )
        at = "the diameter at both ends and the middle" if self._rod(part) else "each diameter of the turning stick"
        note = f"leave waste at both ends for the centres; cut down to {at} with the parting tool and a calliper, then join them"
        return Setting("lathe", self.label, values, note=note, late=True, skims=skims)

    def _template(self, part: Part) -> Template:
        """Return half the profile over the axis, a line at each station."""
        middle = float(part.size[1]) / 2
        low, high = float(self.stations[0].at), float(self.stations[-1].at)
        edges = [
            Edge((low, middle)),
            Edge((high, middle)),
            Edge((high, middle + float(self.stations[-1].diameter) / 2)),
        ]
        edges += [_over(e, middle) for run in reversed(list(self._back_runs())) for e in run]
        outline = Outline(tuple(e for s, e in pieces(Outline(tuple(edges))) if math.dist(s, e.end) > SAME))
        lines = tuple(
            (
                (float(s.at), middle),
                (float(s.at), middle + float(s.diameter) / 2),
                self._said(n),
            )
            for n, s in enumerate(self.stations)
        )
        return Template(
            title="half the profile",
            face=SEEN,
            outline=outline,
            lines=(((low, middle), (high, middle), "axis"), *lines),
            grain=0.0,
            notes=("cut the card to the curve and hold it to the stopped work, its straight side along the axis",),
            lies="on a thin card",
            loose=True,
        )

    def _back_runs(self) -> Iterator[list[Edge]]:
        """Yield the runs from station to station with each walked backward, first station first."""
        for a, run in zip(self.stations[:-1], self._runs(), strict=True):
            starts = [_rim(a), *(e.end for e in run)]
            yield [Edge(starts[k], e.centre, not e.ccw) for k, e in reversed(list(enumerate(run)))]

    def _shoulders(self, part: Part) -> tuple[Assumed, ...]:
        if self.stations[0].at <= SAME and self.stations[-1].at >= part.size[0] - SAME:
            return ()
        return (Assumed("square where it is not turned, shoulders square to the axis"),)


def _rim(s: Station) -> Vec2:
    return (float(s.diameter) / 2, float(s.at))


def _over(edge: Edge, middle: float) -> Edge:
    """Return an edge of the profile (out, along) as one of the template (along, out over the axis)."""
    centre = None if edge.centre is None else (edge.centre[1], middle + edge.centre[0])
    return Edge((edge.end[1], middle + edge.end[0]), centre, not edge.ccw)


def _apex(a: Station, b: Station) -> Vec2 | None:
    """Return the point farthest from the straight line between two stations; None for a taper."""
    if a.next == STRAIGHT:
        return None
    p, q = _rim(a), _rim(b)
    chord = math.dist(p, q)
    if chord < SAME:
        return None
    swell = chord / 2 if a.swell is None else float(a.swell)
    out = 1.0 if a.next == BEAD else -1.0
    nx, nz = (q[1] - p[1]) / chord, -(q[0] - p[0]) / chord  # square to the line, away from the axis
    return ((p[0] + q[0]) / 2 + out * swell * nx, (p[1] + q[1]) / 2 + out * swell * nz)


def build(bench: Bench, values: Bound) -> None:
    """Turn the parts to the profile that the file states."""
    for part in saying.parts(bench, values):
        end = part.face(values["from"])
        need(end.axis == 0, "turned-end", "stations count from an end of the part", "from", "one of its two ends")
        stations = [Station(s["at"], s["diameter"], s["to next"], s["swell"]) for s in values["stations"]]
        if end.side:
            stations = _reversed(stations, part.size[0])
        turned = Turned(tuple(stations), label=values["label"] or "turning")
        bench.add(
            part.path, replace(turned, told=_told(turned, bench.units)), title=turned.label, stage=saying.stage(values)
        )


def _reversed(stations: list[Station], long: Number) -> list[Station]:
    """Return stations that were told from the far end, from the datum end."""
    out = []
    for n in range(len(stations) - 1, -1, -1):
        joins = stations[n - 1] if n else Station(0, 0)
        out.append(Station(long - stations[n].at, stations[n].diameter, joins.next, joins.swell))
    return out


def _told(turned: Turned, units: Units) -> tuple[str, ...]:
    """Return what stick and template say of each station: its letter, its diameter, what follows."""
    out = []
    for n, s in enumerate(turned.stations):
        more = f", {s.next} begins" if s.next != STRAIGHT and n + 1 < len(turned.stations) else ""
        out.append(f"{turned.name(n)} ⌀{format_length(s.diameter, units)}{more}")
    return tuple(out)


STATION = (
    Field("at", Length(least=0), "how far from the datum end", required=True),
    Field("diameter", Length(above=0), "of the part there", required=True),
    Field("to next", Choice((STRAIGHT, COVE, BEAD)), "what joins it to the next station", default=STRAIGHT),
    Field("swell", Length(above=0), "how far a bead stands out, or a cove lies in; half round without it"),
)

WORD = Word(
    name="turned",
    room="operation",
    help="A part turned on the lathe from a square blank: diameters at stations along its axis.",
    fields=(
        saying.PART,
        Field("from", saying.FACE.kind, "the end from which the stations count", required=True),
        Field(
            "stations",
            Many(Nested(STATION), least=2),
            "in order from that end; two at one place make a shoulder",
            required=True,
        ),
        saying.LABEL,
        saying.STAGE,
    ),
    example="turned: {part: leg, from: bottom, stations: [{at: 0, diameter: 1}, {at: 10, diameter: 1 1/2}, {at: 28, diameter: 1}]}",
    build=build,
)
