"""What strengthens a mitre: slots for keys across the glued corner, a groove for a spline along the cut."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Extrusion, Frame, Outline, Vec, Vec2
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import OVER, axis, length, level, need, outward, spot, third, within
from docgen.piece.operations.runs import in_face
from docgen.piece.records import Assumed, Authority, Axis, Caution, Cut, Face, Made, Setting, Size
from docgen.units import Number

ROOT2 = math.sqrt(2.0)


CRADLE = (
    "cradle for mitred corners",
    "two boards square to each other, each 45° to the table, on a base that rides the fence; no screw in the blade's way; a stop, "
    "two clamps for the frame, a tall rest that holds its other arms, and a block behind, thicker than the cut is high, into which the "
    "blade comes out",
)
"""What carries a glued corner over the blade. Common practice."""

HELD = (
    "both faces of the corner bear on the cradle: clamp the frame to it, and mark on the cradle where the blade comes out at "
    "either end. The cut does not go through, so the guard is off: hands hold the upper arms, never the cradle's bottom nor behind "
    "it; push on until the blade stands wholly in the cradle's end block, stop the saw, and lift the frame out when it stands still. "
    "Lower the blade, and put guard and knife back on before the next cut. Let the keys dry, then saw and plane them flush"
)
"""How a frame is held over the blade. Common practice; the saw's manual says whether it may be cut so."""

DATUM = ("front", "left", "bottom")
"""Words of the sides that places along an arris are told from, where one of the part's sides is called so."""


@dataclass(frozen=True, slots=True)
class KeySlots:
    """`count` slots across the arris of `end` and `outer`, at 45° to both, cut through both parts after glue-up.

    Along the arris the middle of the first slot is at `first`, the others follow every `step`; each is `thickness`
    wide and `depth` deep, square in from the arris.
    """

    word: ClassVar[str] = "key slots"
    end: Face
    outer: Face
    first: Number
    thickness: Number
    depth: Number
    step: Number = 0
    count: int = field(default=1, metadata=TOLD)

    def made(self, part: Part) -> Made:
        """Return the slots, their places along the arris, width and depth, and the set-up in a cradle."""
        run = self.run
        last = self.first + (self.count - 1) * self.step
        half = self.thickness / 2
        need(
            self.count < 2 or self.step > self.thickness,
            "keys-crowded",
            f"{self.count} keys {figure(self.thickness)} thick leave no wood between them",
            "keys",
            "fewer keys, or thinner ones",
        )
        within(part, run, self.first - half, last + half, "slots for keys", "keys")
        return Made(
            cuts=tuple(self._cut(part, self.first + i * self.step) for i in range(self.count)),
            sizes=self._sizes(part),
            settings=(
                Setting(
                    "table saw",
                    "slots for keys, in a cradle that carries the corner arris down",
                    (
                        ("kerf", self.thickness, "length"),
                        ("blade over the cradle's bottom", self.depth, "length"),
                    ),
                    note=HELD,
                    places=(
                        self._place(part),
                        *((("the next, middle to middle", self.step, "length"),) if self.count > 1 else ()),
                    ),
                    mate="key",
                    jig=CRADLE,
                ),
            ),
            cautions=(Caution("table saw"), Caution("cut without the guard")),
            assumed=(Assumed("slots square to the arris, bottom at 45° to both faces"),),
        )

    @property
    def run(self) -> Axis:
        """The axis along the arris."""
        return third(self.end.axis, self.outer.axis)

    def _place(self, part: Part) -> tuple[str, Number, str]:
        """Return where the first slot stands: from the same side of the piece on both parts of the corner."""
        low, high = (part.word(Face(self.run, side)) for side in (0, 1))
        side = int(high in DATUM and low not in DATUM)
        last = self.first + (self.count - 1) * self.step
        at = part.size[self.run] - last if side else self.first
        told = "first slot, middle" if self.count > 1 else "middle"
        return f"{told}, from the {part.side(Face(self.run, side))}", at, "length"

    def _cut(self, part: Part, middle: Number) -> Cut:
        e, f = self.end.axis, self.outer.axis
        u, v = sorted((e, f))
        leg = float(self.depth) * ROOT2 + OVER
        corners = [(-OVER, -OVER), (leg, -OVER), (-OVER, leg)]

        def at(p: Vec2) -> Vec2:
            place = {
                e: float(level(part, self.end)) - outward(self.end) * p[0],
                f: float(level(part, self.outer)) - outward(self.outer) * p[1],
            }
            return place[u], place[v]

        points = [at(p) for p in corners]
        (ax, ay), (bx, by), (cx, cy) = points
        if (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) < 0:
            points.reverse()
        half = float(self.thickness) / 2
        return Cut(along_axis(Outline.polygon(points), self.run, float(middle) - half, float(middle) + half))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        corner: dict[Axis, Number] = {
            self.end.axis: level(part, self.end),
            self.outer.axis: level(part, self.outer),
        }

        def at(along: Number) -> Vec:
            return spot(corner | {self.run: along})

        run = axis(self.run)
        half = self.thickness / 2
        way = [0.0, 0.0, 0.0]
        way[self.end.axis], way[self.outer.axis] = -outward(self.end) / ROOT2, -outward(self.outer) / ROOT2
        start = at(self.first)
        floor = tuple(s + w * float(self.depth) for s, w in zip(start, way, strict=True))
        ends = at(self.first - half), at(self.first + half)
        sizes = [
            length(at(0), start, run, self.first, ("first",), self.outer, label="to the middle", place=True),
            replace(length(*ends, run, self.thickness, ("thickness",), self.outer, label="slot"), times=self.count),
            replace(
                length(
                    start, (floor[0], floor[1], floor[2]), (way[0], way[1], way[2]), self.depth, ("depth",),
                    Face(self.run, 1), label="deep",
                ),
                times=self.count,
            ),
        ]  # fmt: skip
        if self.count > 1:
            ends = start, at(self.first + self.step)
            spacing = length(*ends, run, self.step, ("step",), self.outer, label="spacing")
            sizes.append(replace(spacing, times=self.count - 1))
        return tuple(sizes)


@dataclass(frozen=True, slots=True)
class CutGroove:
    """A groove for a spline in the plane of an end cut, square to it, right along the cut.

    `frame` stands on the cut (part axes) as for a mortise there: origin at the heel, x along the cut away from it, y
    along the arris, z into the wood. The groove's near wall is `out` from the heel; `run` is the length of the cut.
    """

    word: ClassVar[str] = "groove in a cut"
    end: Face
    frame: Frame = field(metadata=TOLD)
    run: Number = field(metadata=TOLD)
    out: Number
    width: Number
    depth: Number
    label: str = "groove for the spline"

    def made(self, part: Part) -> Made:
        """Return the groove, its place from the heel, its sizes and the set-up."""
        need(self.width > 0 and self.depth > 0, "depth-range", f"the {self.label} has no depth", "depth", "more than 0")
        need(
            self.out >= 0,
            "outside-part",
            f"the {self.label} lies beyond the short point",
            "from heel",
            "a place on the cut",
        )
        a, b = float(self.out), float(self.out + self.width)
        outline = Outline.rectangle(a, -OVER, b, float(self.run) + OVER)
        x, z = (self.frame.direction(d) for d in ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
        mid = self.out + self.width / 2
        return Made(
            cuts=(Cut(Extrusion(outline, self.frame, -OVER, float(self.depth))),),
            sizes=(
                length(self._at(0), self._at(self.out), x, self.out, ("out",), self.end, label="from the short point"),
                length(
                    self._at(self.out), self._at(self.out + self.width), x, self.width, ("width",), self.end,
                    label="groove", authority=Authority.FIT, note="to the spline",
                ),
                length(self._at(mid), self._at(mid, self.depth), z, self.depth, ("depth",), None, label="deep"),
            ),
            settings=(
                Setting(
                    "router table",
                    f"{self.label}, square to the mitre",
                    (
                        ("straight bit", self.width, "length"),
                        ("depth", self.depth, "length"),
                        ("fence to the short point's side of the bit", self.out, "length"),
                    ),
                    note="the short point runs along the fence on a board planed to the mitre's angle",
                    places=in_face(part, self.end),
                    mate="spline",
                ),
            ),
            cautions=(Caution("router table"),),
            assumed=(Assumed("groove square to the cut, runs out at both ends"),),
        )  # fmt: skip

    def _at(self, x: Number, z: Number = 0) -> Vec:
        return self.frame.point((float(x), 0.0, float(z)))
