"""Round-over and chamfer along an arris of the box, full or stopped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Revolution, Vec, Vec2
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.arris_run import (
    BEARING,
    arris_axis,
    bit_setting,
    bit_travel,
    edge_places,
    full_run,
    room,
    round_ends,
    stop_marks,
    stop_sizes,
)
from docgen.piece.operations.corner import corner_cutter, rounding
from docgen.piece.operations.ground import (
    OVER,
    axis,
    inside,
    length,
    level,
    outward,
    run_out,
    spot,
    third,
)
from docgen.piece.operations.runs import at_arris
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Setting, Size, SizeKind
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.trade.cutters import router_for
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class RoundOver:
    """The arris between `face` and `edge` rounded to `radius`, from `start` to `stop` along it (None: runs out)."""

    word: ClassVar[str] = "round over"
    face: Face
    edge: Face
    radius: Number
    start: Number | None = None
    stop: Number | None = None
    label: str = "round-over"

    def made(self, part: Part) -> Made:
        """Return the cutter, the radius and the stops, marks and the set-up."""
        along = arris_axis(part, self.face, self.edge, self.start, self.stop, self.label)
        for face in (self.face, self.edge):
            room(part, face, self.radius, self.label, "radius")
        u, v = sorted((self.face.axis, self.edge.axis))
        sides = {f.axis: f for f in (self.face, self.edge)}
        corner = (float(level(part, sides[u])), float(level(part, sides[v])))
        r = rounding(corner, (-outward(sides[u]), 0.0), (0.0, -outward(sides[v])), float(self.radius))
        full = full_run(self.start, self.stop, self.radius, self.label)
        profile = corner_cutter(rounding((float(BEARING), 0.0), (1.0, 0.0), (0.0, -1.0), float(self.radius)))
        return Made(
            cuts=(
                Cut(along_axis(corner_cutter(r), along, *run_out(part, along, *full))),
                *(Cut(end) for end in round_ends(part, (self.face, self.edge), full, profile)),
            ),
            sizes=(self._radius(part, along, r.centre, corner), *stop_sizes(part, self._run(), self.label)),
            marks=stop_marks(along, self.face, self.start, self.stop, self.label),
            settings=(bit_setting(part, self._run(), self.radius, self.label, "round-over bit", full=full),),
            cautions=(Caution(router_for(self.radius)), Caution("round over")),
            assumed=(Assumed("round-over tangent to both faces"),),
        )

    def _run(self) -> tuple[Face, Face, Number | None, Number | None]:
        return self.face, self.edge, self.start, self.stop

    def _radius(self, part: Part, along: Axis, centre: Vec2, corner: Vec2) -> Size:
        u, v = sorted((self.face.axis, self.edge.axis))
        at = part.span(along)[0] if self.start is None else self.start
        k = float(self.radius) / 2**0.5
        rim = tuple(c + (k if q > c else -k) for c, q in zip(centre, corner, strict=True))
        return Size(
            SizeKind.RADIUS,
            spot({u: centre[0], v: centre[1], along: at}),
            spot({u: rim[0], v: rim[1], along: at}),
            axis(along),
            self.radius,
            ("radius",),
            Face(along, 0),
            label=self.label,
        )


@dataclass(frozen=True, slots=True)
class Chamfer:
    """The arris between `face` and `edge` cut off flat: `on_face` wide on the face, `on_edge` wide on the edge."""

    word: ClassVar[str] = "chamfer"
    face: Face
    edge: Face
    on_face: Number
    on_edge: Number
    start: Number | None = None
    stop: Number | None = None
    label: str = "chamfer"

    def made(self, part: Part) -> Made:
        """Return the cutter, both legs and the stops, marks and the set-up."""
        along = arris_axis(part, self.face, self.edge, self.start, self.stop, self.label)
        room(part, self.edge, self.on_face, self.label, "on_face")
        room(part, self.face, self.on_edge, self.label, "on_edge")
        full = self._full()
        return Made(
            cuts=(
                Cut(along_axis(self._outline(part), along, *run_out(part, along, *full))),
                *(Cut(end) for end in self._ends(part, full)),
            ),
            sizes=(
                *self._legs(part, along),
                *stop_sizes(part, (self.face, self.edge, self.start, self.stop), self.label),
            ),
            marks=stop_marks(along, self.face, self.start, self.stop, self.label),
            settings=(self._setting(part, along, full),),
            cautions=(Caution("router" if self.on_face == self.on_edge else "plane"),),
            assumed=(Assumed("legs equal"),) if self.on_face == self.on_edge else (),
        )

    def _full(self) -> tuple[Number | None, Number | None]:
        """Return where the full chamfer ends: one with two legs is planed by hand and pared square to its stops."""
        if self.on_face != self.on_edge:
            return self.start, self.stop
        return full_run(self.start, self.stop, self.on_face, self.label)

    def _ends(self, part: Part, full: tuple[Number | None, Number | None]) -> Iterator[Revolution]:
        """Yield what a bit leaves at the stops."""
        if self.on_face == self.on_edge:
            b, leg = float(BEARING), float(self.on_face)
            profile = Outline.polygon([(b + leg + OVER, OVER), (b - OVER, OVER), (b - OVER, -leg - OVER)])
            yield from round_ends(part, (self.face, self.edge), full, profile)

    def _outline(self, part: Part) -> Outline:
        legs = {self.edge.axis: float(self.on_face), self.face.axis: float(self.on_edge)}
        u, v = sorted(legs)
        sides = {f.axis: f for f in (self.face, self.edge)}
        su, sv = outward(sides[u]), outward(sides[v])
        cu, cv = float(level(part, sides[u])), float(level(part, sides[v]))
        # The flat, carried on in a straight line until 1 mm outside each face.
        ku, kv = OVER * legs[u] / legs[v], OVER * legs[v] / legs[u]
        points: list[Vec2] = [
            (cu - su * (legs[u] + ku), cv + sv * OVER),
            (cu + su * OVER, cv - sv * (legs[v] + kv)),
            (cu + su * OVER, cv + sv * OVER),
        ]
        return Outline.polygon(points if su * sv > 0 else points[::-1])

    def _legs(self, part: Part, along: Axis) -> tuple[Size, Size]:
        at = part.span(along)[0] if self.start is None else self.start
        arris = {along: at, self.edge.axis: level(part, self.edge), self.face.axis: level(part, self.face)}
        end = Face(along, 0)

        def to(side: Face, value: Number) -> tuple[Vec, Vec, Vec]:
            return spot(arris), spot(arris | {side.axis: inside(part, side, value)}), axis(side.axis, -outward(side))

        return (
            length(*to(self.edge, self.on_face), self.on_face, ("on_face",), end, label=self.label),
            length(*to(self.face, self.on_edge), self.on_edge, ("on_edge",), end),
        )

    def _setting(self, part: Part, along: Axis, full: tuple[Number | None, Number | None]) -> Setting:
        if self.on_face == self.on_edge:
            values: tuple[tuple[str, Number | str, str], ...] = (
                ("chamfer bit", 45, "angle"),
                ("leg", self.on_face, "length"),
            )
            run = bit_travel(part, along, self.face, self.edge, *full, self.on_face)
            places = edge_places(part, run, self.edge, (self.start, self.stop), self.label)
            return Setting("router", self.label, values, places=places, travel=run, late=True)
        legs = (("on face", self.on_face, "length"), ("on edge", self.on_edge, "length"))
        return Setting("plane", self.label, legs, places=at_arris(part, self.face, self.edge), late=True)


def build_round(bench: Bench, values: Bound) -> None:
    """Round over the named arrises."""
    for part in saying.parts(bench, values):
        for text in values["along"]:
            face, edge = saying.arris(part, text)
            start, stop = saying.stretch(part, third(face.axis, edge.axis), values)
            operation = RoundOver(face, edge, values["radius"], start, stop)
            bench.add(part.path, operation, title="round-over", stage=saying.stage(values))


def build_chamfer(bench: Bench, values: Bound) -> None:
    """Chamfer the named arrises."""
    for part in saying.parts(bench, values):
        for text in values["along"]:
            face, edge = saying.arris(part, text)
            start, stop = saying.stretch(part, third(face.axis, edge.axis), values)
            on_edge = values["width"] if values["second width"] is None else values["second width"]
            operation = Chamfer(face, edge, values["width"], on_edge, start, stop)
            bench.add(part.path, operation, title="chamfer", stage=saying.stage(values))


WORDS = (
    Word(
        name="round over",
        room="edge",
        help="Round arrises over with a radius.",
        fields=(
            saying.PART,
            saying.ALONG,
            Field("radius", Length(above=0), "radius of the round-over", required=True),
            saying.STOP,
            *saying.STRETCH,
            saying.STAGE,
        ),
        example="round over: {part: left side, along: [top front], radius: 1/8}",
        build=build_round,
    ),
    Word(
        name="chamfer",
        room="edge",
        help="Cut arrises off flat.",
        fields=(
            saying.PART,
            saying.ALONG,
            Field("width", Length(above=0), "leg on the first face", required=True),
            Field("second width", Length(above=0), "leg on the second face; without it both are the same"),
            saying.STOP,
            *saying.STRETCH,
            saying.STAGE,
        ),
        example="chamfer: {part: leg, along: [bottom front, bottom back], width: 1/8}",
        build=build_chamfer,
    ),
)
