"""Rabbet: a square step along an arris, through or stopped."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Edge, Extrusion, Outline
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import (
    axis,
    bite,
    inside,
    length,
    level,
    need,
    outward,
    positive,
    run_out,
    spot,
    third,
    within,
)
from docgen.piece.operations.runs import ARC, SQUARE, stop_places
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Mark, Setting, Size, Travel
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.units import Number

WIDE_BIT = "straight bit and fence"
BIT = f"{WIDE_BIT}, or rabbeting bit"

RABBETS = Fraction(254, 20)
"""Widest step that common rabbeting bits cut, mm: 1/2 in. Common practice."""


@dataclass(frozen=True, slots=True)
class Rabbet:
    """A step cut `into` the wood from `face` and `on` far along that face from `edge`.

    `start` and `stop` are where the full section ends along the arris; None runs out of the part.
    `cutter` is the radius that the cutter leaves beyond a stop; None when the stop is squared.
    """

    word: ClassVar[str] = "rabbet"
    face: Face
    edge: Face
    into: Number
    on: Number
    start: Number | None = None
    stop: Number | None = None
    cutter: Number | None = None  # radius left at a stop; None: squared
    label: str = "rabbet"

    def made(self, part: Part) -> Made:
        """Return the cutter, the two sizes of the step, its stops, marks and set-up."""
        along = third(self.face.axis, self.edge.axis)
        for value, face, field in ((self.into, self.face, "into"), (self.on, self.edge, "on")):
            thick = part.size[face.axis]
            need(
                0 < value < thick,
                "depth-range",
                f"the {self.label} takes {figure(value)} of {figure(thick)}",
                field,
                "more than 0 and less than the wood there",
            )
        need(
            self.cutter is None or 0 < self.cutter <= self.on,
            "radius-range",
            f"the cutter's radius does not fit a {self.label} {figure(self.on)} along the face",
            "cutter",
            f"at most {figure(self.on)}",
        )
        low, high = part.span(along)
        start = low if self.start is None else self.start
        stop = high if self.stop is None else self.stop
        within(part, along, start, stop, self.label, "stop")
        need(start < stop, "run-range", f"the {self.label} stops before it starts", "stop", "stops that leave a run")
        return Made(
            cuts=(Cut(self._cutter(part, along)),),
            sizes=self._sizes(part, along),
            marks=self._marks(part, along),
            settings=(self._setting(part, along),),
            cautions=(Caution("router"), Caution("chisel")) if self._squared else (Caution("router"),),
            assumed=(Assumed("walls of the rabbet square to each other"),),
        )

    @property
    def _squared(self) -> bool:
        return self.cutter is None and (self.start is not None or self.stop is not None)

    def _cutter(self, part: Part, along: Axis) -> Extrusion:
        a, b = run_out(part, along, self.start, self.stop)
        lo, hi = bite(part, self.edge, self.on)
        near, far = (lo, hi) if not self.edge.side else (hi, lo)
        r0 = float(self.cutter) if self.cutter is not None and self.start is not None else 0.0
        r1 = float(self.cutter) if self.cutter is not None and self.stop is not None else 0.0
        outline = _stopped(a, b, near, far, r0, r1)
        if along > self.edge.axis:
            outline = _swapped(outline)
        return along_axis(_ccw(outline), self.face.axis, *bite(part, self.face, self.into))

    def _sizes(self, part: Part, along: Axis) -> tuple[Size, ...]:
        run = part.span(along)[0] if self.start is None else self.start
        wall = inside(part, self.edge, self.on)
        floor = inside(part, self.face, self.into)
        arris = {along: run, self.edge.axis: level(part, self.edge), self.face.axis: level(part, self.face)}
        end = Face(along, 0)
        sizes = [
            length(
                spot(arris),
                spot(arris | {self.face.axis: floor}),
                axis(self.face.axis, -outward(self.face)),
                self.into,
                ("into",),
                end,
                label=f"into the {_name(self.face.axis)}",
            ),
            length(
                spot(arris),
                spot(arris | {self.edge.axis: wall}),
                axis(self.edge.axis, -outward(self.edge)),
                self.on,
                ("on",),
                end,
                label="along the face",
            ),
        ]
        for value, side, field in ((self.start, 0, "start"), (self.stop, 1, "stop")):
            if value is not None:
                datum: Number = part.size[along] if side else 0
                more = self.cutter or 0
                reach = value + more if side else value - more
                sizes.append(
                    length(
                        spot(arris | {along: datum}),
                        spot(arris | {along: reach}),
                        axis(along, -1.0 if side else 1.0),
                        positive(datum - reach),
                        (field,) if self.cutter is None else (field, "cutter"),
                        self.face,
                        label="stop",
                        note=SQUARE if self.cutter is None else ARC,
                    )
                )
        return tuple(sizes)

    def _marks(self, part: Part, along: Axis) -> tuple[Mark, ...]:
        if along == 0:
            ends = ((self.start, -1), (self.stop, 1))
            arc = self.cutter or 0
            return tuple(
                Mark(p + wood * arc, wood, f"{self.label} stops", self.face) for p, wood in ends if p is not None
            )
        if self.edge.axis == 0:
            return (Mark(inside(part, self.edge, self.on), -1 if self.edge.side else 1, self.label, self.face),)
        if self.face.axis == 0:
            return (Mark(inside(part, self.face, self.into), -1 if self.face.side else 1, self.label, self.edge),)
        return ()

    def _setting(self, part: Part, along: Axis) -> Setting:
        values: list[tuple[str, Number | str, str]] = [
            ("cutter", BIT if self.on <= RABBETS else WIDE_BIT, "text"),
            (f"into the {_name(self.face.axis)}", self.into, "length"),
            ("along the face", self.on, "length"),
        ]
        if self.cutter is not None:
            values[0] = ("cutter, diameter", 2 * self.cutter, "length")
        wall = {self.edge.axis: inside(part, self.edge, self.on), self.face.axis: level(part, self.face)}
        at = (wall.get(0, 0), wall.get(1, 0), wall.get(2, 0))
        run = Travel(self.face, along, at, self.start, self.stop, self.edge, self.into, self.on)
        cut = (("cut into", f"the {part.side(self.face)}, along the {part.side(self.edge)}", "text"),)
        places = (*cut, *stop_places(part, run, arc=self.cutter or 0, squared=self._squared))
        return Setting("router", self.label, tuple(values), places=places, travel=run)


def _name(i: Axis) -> str:
    return ("length", "width", "thickness")[i]


def _stopped(a: float, b: float, near: float, far: float, r0: float, r1: float) -> Outline:
    """Return the strip from a to b, from outside (`near`) to the wall (`far`), with the cutter's arcs at the stops.

    The cutter of radius r runs with its rim on the wall; past a stop it leaves a quarter arc from the wall.
    """
    inward = 1.0 if far > near else -1.0
    edges = [Edge((a, near))] if not r0 else [Edge((a - r0, near)), Edge((a - r0, far - inward * r0))]
    if r0:
        edges.append(Edge((a, far), (a, far - inward * r0), inward < 0))
    else:
        edges.append(Edge((a, far)))
    edges.append(Edge((b, far)))
    if r1:
        edges.append(Edge((b + r1, far - inward * r1), (b, far - inward * r1), inward < 0))
        edges.append(Edge((b + r1, near)))
    else:
        edges.append(Edge((b, near)))
    return Outline(tuple(edges))


def _swapped(outline: Outline) -> Outline:
    """Return the outline with x and y exchanged; the sense of every arc turns round with it."""
    return Outline(
        tuple(
            Edge((e.end[1], e.end[0]), None if e.centre is None else (e.centre[1], e.centre[0]), not e.ccw)
            for e in outline.edges
        )
    )


def _ccw(outline: Outline) -> Outline:
    """Return the outline counter-clockwise; judged by its corners, which suits outlines with small arcs."""
    points = [e.end for e in outline.edges]
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
    if area >= 0:
        return outline
    edges = outline.edges
    back = range(len(edges) - 1, -1, -1)
    return Outline(tuple(Edge(edges[i - 1].end, edges[i].centre, not edges[i].ccw) for i in back))


def build(bench: Bench, values: Bound) -> None:
    """Cut rabbets along the arrises that the file names: the first face is the one cut into."""
    for part in saying.parts(bench, values):
        for text in values["along"]:
            face, edge = saying.arris(part, text)
            start, stop = saying.stops(part, third(face.axis, edge.axis), values["stop"])
            label = values["label"] or "rabbet"
            bench.add(
                part.path,
                Rabbet(face, edge, values["into"], values["on"], start, stop, values["cutter"], label),
                title=label,
                stage=saying.stage(values),
            )


WORD = Word(
    name="rabbet",
    room="operation",
    help="A square step along an arris; the first face of the arris is the one that is cut into.",
    fields=(
        saying.PART,
        saying.ALONG,
        Field("into", Length(above=0), "how far into the wood, from the first face", required=True),
        Field("on", Length(above=0), "how far along the first face, from the second", required=True),
        saying.STOP,
        Field("cutter", Length(above=0), "radius that the cutter leaves beyond a stop; squared without it"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="rabbet: {part: left side, along: [right back], into: 3/8, on: 1/4}",
    build=build,
)
