"""Taper: wood planed or sawn off a face, from nothing at a line to a given amount at an end."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations import saying, tapered
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import (
    OVER,
    axis,
    inside,
    length,
    level,
    need,
    outward,
    positive,
    settled,
    spot,
    third,
)
from docgen.piece.records import BOTH, Assumed, Caution, Cut, Face, Made, Mark, Setting, Size
from docgen.project.fields import Field, Length, Many, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Taper:
    """`face` tapered toward the end `end`: it begins `begin` from the datum end and takes `amount` off at the end.

    `opposite` is what a taper of the face opposite takes off there too; the `second` of the two is sawn after it.
    `group` holds all faces that are tapered alike, this one among them; none when it is the only one.
    """

    word: ClassVar[str] = "taper"
    face: Face
    end: Face
    begin: Number
    amount: Number
    label: str = "taper"
    opposite: Number = field(default=0, metadata=TOLD)
    second: bool = False
    group: tuple[Face, ...] = ()

    def made(self, part: Part) -> Made:
        """Return the cutter, where the taper begins, what is left at the end, a mark and the set-up."""
        need(self.end.axis == 0 and self.face.axis != 0, "taper-face", "a taper runs along the grain to an end", "end")
        total, thick = part.size[0], part.size[self.face.axis]
        need(
            0 <= self.begin <= total and self.begin != level(part, self.end),
            "taper-begin",
            f"the taper begins at {figure(self.begin)} of {figure(total)}",
            "begin",
            "a place inside the length",
        )
        need(
            0 < self.amount < thick - self.opposite,
            "depth-range",
            f"the taper takes {figure(self.amount)} of {figure(thick - self.opposite)}",
            "amount",
            "less than the wood there" if not self.opposite else "less than half of the wood there",
        )
        return Made(
            cuts=(self._cut(part),),
            sizes=self._sizes(part),
            marks=(Mark(self.begin, BOTH, f"{self.label} begins", self.face),),
            settings=(self._setting(part),),
            cautions=(Caution("table saw"),),
            templates=tapered.templates(part, self.face, self.group or (self.face,), self.end, self.begin, self.amount),
            assumed=(Assumed("taper straight"),),
            gone=(self.face,),
        )

    def _cut(self, part: Part) -> Cut:
        s, out = outward(self.end), outward(self.face)
        low, high = part.span(0)
        x1 = float(high) + OVER if self.end.side else float(low) - OVER
        x0, surface = float(self.begin), float(level(part, self.face))
        run = abs(float(level(part, self.end)) - x0)
        slope = float(self.amount) / run
        back = OVER / slope  # the slope is carried on until it stands 1 mm outside the face
        points = [
            (x0 - s * back, surface + out * OVER),
            (x1, surface - out * slope * abs(x1 - x0)),
            (x1, surface + out * OVER),
        ]
        if s * out < 0:
            points.reverse()
        across = third(0, self.face.axis)
        a, b = part.span(across)
        return Cut(along_axis(Outline.polygon(points), across, float(a) - OVER, float(b) + OVER))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        across = third(0, self.face.axis)
        end, surface = level(part, self.end), level(part, self.face)
        opposite = inside(part, Face(self.face.axis, 1 - self.face.side), self.opposite)
        left = part.size[self.face.axis] - self.amount - self.opposite
        seen = Face(across, 1)

        def at(x: Number, y: Number) -> Vec:
            return spot({0: x, self.face.axis: y})

        tip = inside(part, self.face, self.amount)
        run = length(at(end, surface), at(self.begin, surface), axis(0, -outward(self.end)), positive(end - self.begin),
                     ("begin",), seen, label=self.label)  # fmt: skip
        if self.second:  # what is left is told by the first; here, how far this face comes in
            inward = axis(self.face.axis, -outward(self.face))
            return run, length(at(end, surface), at(end, tip), inward, self.amount, ("amount",), seen, label="off")
        along = axis(self.face.axis, outward(self.face))
        return run, length(at(end, opposite), at(end, tip), along, left, ("amount",), seen, label="left at the end")

    def _setting(self, part: Part) -> Setting:
        run = positive(level(part, self.end) - self.begin)
        lean = settled(math.degrees(math.atan2(float(self.amount), float(run))))
        return Setting(
            "table saw",
            "taper on a sled",
            (
                ("taper, from the edge", lean, "angle"),
                ("taper, from square", 90 - lean, "angle"),
                ("off at the end", self.amount, "length"),
            ),
            note=self._held(),
            places=(
                (f"begins, from the {part.side(self.end)}", run, "length"),
                ("off", f"the {part.side(self.face)}", "text"),
            ),
            late=True,
            tall=part.size[third(0, self.face.axis)],
        )

    def _held(self) -> str:
        """Return how the stock lies on the sled: on a face that is straight, or is made so again by its offcut."""
        if self.second:
            return "tape the first offcut back under the face opposite, so that the stock lies as before"
        fence = "the face opposite the taper lies along the sled's fence"
        beside = {f for f in self.group if f.axis != self.face.axis}
        down = (
            "",
            ", and on the sled a face that stays straight, never one that is tapered",
            ", and on the sled a face not yet tapered; when both are, one with its offcut taped back on",
        )[len(beside)]
        return f"{fence}{down}; clamped there; the wide side of the offcut falls free"


def build(bench: Bench, values: Bound) -> None:
    """Taper the named faces toward an end."""
    for part in saying.parts(bench, values):
        end = part.face(values["end"])
        faces = [part.face(word) for word in values["face"]]
        for n, face in enumerate(faces):
            begin = part.size[0] - values["run"] if end.side else values["run"]
            other = Face(face.axis, 1 - face.side)
            opposite = values["amount"] if other in faces else 0
            operation = Taper(
                face, end, begin, values["amount"], opposite=opposite, second=other in faces[:n], group=tuple(faces)
            )
            bench.add(part.path, operation, title="taper", stage=saying.stage(values))


WORD = Word(
    name="taper",
    room="operation",
    help="A straight taper of one to four faces toward an end.",
    fields=(
        saying.PART,
        Field("face", Many(saying.FACE.kind), "the faces that are tapered", required=True),
        Field("end", saying.FACE.kind, "the end toward which it tapers", required=True),
        Field("run", Length(above=0), "how far from that end it begins", required=True),
        Field("amount", Length(above=0), "what it takes off each face at the end", required=True),
        saying.STAGE,
    ),
    example="taper: {part: leg, face: [left, front], end: bottom, run: 22, amount: 1/2}",
    build=build,
)
