"""Knot: where the wood itself is not sound. Nothing is cut; what is cut elsewhere is kept off it by a check."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import Ground, in_plane, need, within
from docgen.piece.records import Defect, Face, Made, Size, SizeKind
from docgen.project.fields import Field, Length, Place, Word, Words
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Knot:
    """A knot seen on `face` with its middle at `centre` on the face's two axes in rising order, `diameter` over its edge.

    It goes `depth` into the wood, None through the part.
    """

    word: ClassVar[str] = "knot"
    face: Face
    centre: tuple[Number, Number] = field(metadata=TOLD)
    diameter: Number = field(metadata=TOLD)
    depth: Number | None = field(default=None, metadata=TOLD)
    what: str = "knot"

    def made(self, part: Part) -> Made:
        """Return the defect, and its size as the face shows it."""
        need(self.diameter > 0, "diameter-range", f"the {self.what} has no size", "size", "more than 0")
        for axis, at in zip(in_plane(self.face), self.centre, strict=True):
            within(part, axis, at, at, self.what, "at")
        ground = Ground(part, self.face)
        a, b = self.centre
        point = ground.at(a, b)
        depth = part.size[self.face.axis] if self.depth is None else self.depth
        return Made(
            sizes=(
                Size(
                    SizeKind.DIAMETER,
                    point,
                    ground.at(float(a) + float(self.diameter) / 2, b),
                    ground.inward,
                    self.diameter,
                    (),
                    self.face,
                    label=self.what,
                ),
            ),
            defects=(Defect(self.what, self.face, point, self.diameter, depth),),
        )


def build(bench: Bench, values: Bound) -> None:
    """Note the knots of a part."""
    for part in saying.parts(bench, values):
        face = part.face(values["face"])
        at = saying.on_face(part, face, values["at"], values["from"] or ())
        knot = Knot(face, at, values["size"], values["depth"], values["label"] or "knot")
        bench.add(part.path, knot, title=values["label"] or "knot")


WORD = Word(
    name="knot",
    room="operation",
    help="a knot or another unsound place in the wood, to be kept clear of joints; nothing is cut",
    fields=(
        saying.PART,
        Field("face", saying.FACE.kind, "the face that shows it", required=True),
        Field("at", Place(), "its middle: two directions of the face", required=True),
        saying.FROM,
        Field("size", Length(above=0), "its diameter, with the wild grain round it", required=True),
        Field("depth", Length(above=0), "how far it goes into the wood; through the part without it"),
        Field("label", Words(), "what the sheets call it: pitch pocket, check"),
    ),
    example="knot: {part: shelf, face: top, at: {across: 12, deep: 4}, size: 3/4}",
    build=build,
)
