"""Outside corner rounded after glue-up, through all the parts that meet there."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Edge, Outline, Shape, Vec
from docgen.piece.bench import Bench
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.operations import saying
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.carried import cuts_into, facing, piece_face, size_into
from docgen.piece.operations.corner import Rounding, corner_cutter, rounding
from docgen.piece.operations.ground import OVER, axis, need
from docgen.piece.records import Assumed, Axis, Caution, Face, Made, Setting, Size, SizeKind, Stage, Template
from docgen.project.fields import Field, Length, Word
from docgen.project.statements import Bound
from docgen.trade.cutters import TABLE_WAY, router_for
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class GluedCorner:
    """An outside corner of a glued case rounded along axis `along` of the piece.

    `corner` is its place on the two other axes in rising order and `run` its length; both belong to the parts. `sides`
    tell on which side of the corner the air is (0 low, 1 high).
    """

    word: ClassVar[str] = "glued corner"
    along: Axis
    corner: tuple[Number, Number] = field(metadata=TOLD)
    sides: tuple[int, int] = field(metadata=TOLD)
    run: tuple[Number, Number] = field(metadata=TOLD)
    radius: Number

    def made(self, part: Part) -> Made:
        """Return the cutter in the part's axes, the radius, the set-up and the corner template."""
        need(self.radius > 0, "radius-range", "the corner has no radius", "radius", "more than 0")
        table = router_for(self.radius) == "router table"
        # Until the arc is reached the chamfer line runs (2 − √2)·R along each face.
        waste = float(self.radius) * (2 - 2**0.5)
        return Made(
            cuts=cuts_into(part, (self.shape(),)),
            sizes=(size_into(part, self._size(part)),),
            settings=(
                Setting(
                    router_for(self.radius),
                    "outside corner after glue-up",
                    (("radius", self.radius, "length"), ("chamfer the waste off first, leg", waste, "length")),
                    note="or shape by hand, with planes, to the corner template",
                    feed=f"along the corner{TABLE_WAY if table else ''}; the arris at the end of the run is backed with waste",
                ),
            ),
            cautions=(Caution(router_for(self.radius)), Caution("round over")),
            templates=(corner_template(self.radius),),
            assumed=(Assumed("arc tangent to both outside faces"),),
        )

    def rounding(self) -> Rounding:
        """Return the arc in the two other axes of the piece."""
        one = (-1.0 if self.sides[0] else 1.0, 0.0)
        two = (0.0, -1.0 if self.sides[1] else 1.0)
        return rounding((float(self.corner[0]), float(self.corner[1])), one, two, float(self.radius))

    def shape(self) -> Shape:
        """Return the cutter in the piece's axes."""
        low, high = float(self.run[0]) - OVER, float(self.run[1]) + OVER
        return along_axis(corner_cutter(self.rounding()), self.along, low, high)

    def _size(self, part: Part) -> Size:
        r = self.rounding()
        u, v = (i for i in range(3) if i != self.along)
        k = 2**-0.5

        def at(x: float, y: float) -> Vec:
            p = {u: x, v: y, self.along: float(self.run[0])}
            return (p[0], p[1], p[2])

        return Size(
            SizeKind.RADIUS,
            at(*r.centre),
            at(r.centre[0] + (r.corner[0] - r.centre[0]) * k, r.centre[1] + (r.corner[1] - r.centre[1]) * k),
            axis(self.along),
            self.radius,
            ("radius",),
            facing(part, axis(self.along, -1.0)),
            label="outside corner",
        )


def corner_template(radius: Number) -> Template:
    """Return the true-size template of a square corner rounded, lying on the boards' edges."""
    r, size = float(radius), max(2.5 * float(radius), 60.0)
    middle = (r, r)
    stays = (
        Edge((r, 0.0), middle, True),
        Edge((size, 0.0)),
        Edge((size, size)),
        Edge((0.0, size)),
        Edge((0.0, r)),
    )
    goes = (Edge((0.0, 0.0)), Edge((r, 0.0)), Edge((0.0, r), middle, False))
    return Template(
        title="corner radius",
        face=Face(1, 0),
        outline=Outline(stays),
        waste=(Outline(goes),),
        lines=((middle, (r, 0.0), ""), (middle, (0.0, r), "")),
        datum=(((r, 0.0), (size, 0.0)), ((0.0, r), (0.0, size))),
        notes=("the marks show where the arc begins",),
        shared=f"corner radius {r:.4f}",
        loose=True,
        glued=True,
    )


def build(bench: Bench, values: Bound) -> None:
    """Round an outside corner of parts that are glued up."""
    words = values["corner"].split()
    faces = sorted(piece_face(w) for w in words if w in FACE_WORDS)
    need(
        len(words) == 2 and len(faces) == 2 and faces[0].axis != faces[1].axis,
        "arris-words",
        f"“{values['corner']}” does not name a corner",
        "corner",
        "two outside faces, as in: left top",
    )
    along = 3 - faces[0].axis - faces[1].axis
    parts = tuple(saying.parts(bench, values))
    boxes = [p.box for p in parts]
    place = tuple(max(b[f.axis][1] for b in boxes) if f.side else min(b[f.axis][0] for b in boxes) for f in faces)
    run = (min(b[along][0] for b in boxes), max(b[along][1] for b in boxes))
    corner = GluedCorner(along, (place[0], place[1]), (faces[0].side, faces[1].side), run, values["radius"])
    for part in parts:
        bench.add(part.path, corner, title="outside corner after glue-up", stage=Stage.GLUED)


WORD = Word(
    name="glued corner",
    room="edge",
    help="An outside corner rounded after glue-up, through all the parts that meet there.",
    fields=(
        saying.PART,
        Field("corner", saying.LABEL.kind, "the two outside faces that meet: left top", required=True),
        Field("radius", Length(above=0), "radius of the arc", required=True),
    ),
    example="glued corner: {part: [left side, top], corner: left top, radius: 1 1/8}",
    build=build,
)
