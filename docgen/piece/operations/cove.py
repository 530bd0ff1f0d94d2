"""Cove along an arris of the box: a hollow quarter round, full or stopped."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline
from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.arris_run import arris_axis, bit_setting, room, stop_marks, stop_sizes
from docgen.piece.operations.ground import axis, level, outward, run_out, spot, third
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Size, SizeKind
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.trade.cutters import router_for
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Cove:
    """The arris between `face` and `edge` hollowed to `radius` about itself, from `start` to `stop` (None: runs out)."""

    word: ClassVar[str] = "cove"
    face: Face
    edge: Face
    radius: Number
    start: Number | None = None
    stop: Number | None = None
    label: str = "cove"

    def made(self, part: Part) -> Made:
        """Return the cutter, the radius and the stops, marks and the set-up."""
        along = arris_axis(part, self.face, self.edge, self.start, self.stop, self.label)
        for face in (self.face, self.edge):
            room(part, face, self.radius, self.label, "radius")
        u, v = sorted((self.face.axis, self.edge.axis))
        sides = {f.axis: f for f in (self.face, self.edge)}
        corner = (float(level(part, sides[u])), float(level(part, sides[v])))
        a, b = run_out(part, along, self.start, self.stop)
        run = (self.face, self.edge, self.start, self.stop)
        return Made(
            cuts=(Cut(along_axis(Outline.circle(corner, float(self.radius)), along, a, b)),),
            sizes=(
                self._radius(part, along, sides),
                *stop_sizes(part, run, self.label),
            ),
            marks=stop_marks(along, self.face, self.start, self.stop, self.label),
            settings=(bit_setting(part, run, self.radius, self.label, "cove bit"),),
            cautions=(Caution(router_for(self.radius)), Caution("bearing-guided bit")),
            assumed=(Assumed("cove a quarter round about the arris"),),
        )

    def _radius(self, part: Part, along: Axis, sides: dict[Axis, Face]) -> Size:
        """Return the radius, from the arris to the middle of the hollow."""
        at = part.span(along)[0] if self.start is None else self.start
        k = float(self.radius) / 2**0.5
        corner = {i: level(part, f) for i, f in sides.items()}
        rim = {i: float(c) - outward(sides[i]) * k for i, c in corner.items()}
        seen = Face(along, 0)
        start, end = spot({**corner, along: at}), spot({**rim, along: at})
        return Size(SizeKind.RADIUS, start, end, axis(along), self.radius, ("radius",), seen, label=self.label)


def build(bench: Bench, values: Bound) -> None:
    """Hollow the named arrises."""
    for part in saying.parts(bench, values):
        for text in values["along"]:
            face, edge = saying.arris(part, text)
            start, stop = saying.stretch(part, third(face.axis, edge.axis), values)
            bench.add(
                part.path,
                Cove(face, edge, values["radius"], start, stop),
                title="cove",
                stage=saying.stage(values),
            )


WORD = Word(
    name="cove",
    room="edge",
    help="Hollow arrises to a quarter round.",
    fields=(
        saying.PART,
        saying.ALONG,
        Field("radius", Length(above=0), "radius of the hollow", required=True),
        saying.STOP,
        *saying.STRETCH,
        saying.STAGE,
    ),
    example="cove: {part: top, along: [bottom front], radius: 3/8, stop: {left: 2, right: 2}}",
    build=build,
)
