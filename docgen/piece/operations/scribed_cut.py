"""An end cut that is scribed where the piece stands, and sawn by hand: feet cut level, tenons cut flush."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from docgen.piece.model import Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import in_plane, outward, settled, tangent
from docgen.piece.records import Axis, Caution, Face, Made, Mark, Setting, Size
from docgen.piece.turnings import radius_at
from docgen.units import Number

SEEN = Face(2, 1)
ROUNDS = 8  # a tapered round is a little thicker at one point than at the other: each round of sums is nearer

LEVEL = (
    "stand the piece on a flat top, wedged level and at its height; carry a pencil on a block round the part, "
    "saw just off the line, and pare to it"
)
FLUSH = (
    "when the glue is hard, saw it a little proud of the {mate}, a card under the saw, and pare it flush from the rim "
    "to the middle"
)


@dataclass(frozen=True, slots=True)
class ScribedCut(EndCut):
    """The same plane as an end cut; it is marked from what stands beside it, not set at a machine.

    `mate` is what the end comes through and is cut flush with. The points of a turned part lie on its round.
    """

    word: ClassVar[str] = "scribed cut"
    mate: str = ""

    def made(self, part: Part) -> Made:
        """Return what the end cut answers, with the hand saw in place of the machine."""
        made = EndCut.made(self, part)
        gauge, tilt = self.readings()
        values = tuple(
            (name, settled(angle), "angle")
            for name, angle in (("across the width, from square", gauge), ("through the thickness, from square", tilt))
            if angle > 1e-6
        )
        note = FLUSH.format(mate=self.mate) if self.mate else LEVEL
        setting = Setting("hand saw", self.label, values, note=note)
        return replace(made, settings=(setting,), cautions=(Caution("hand saw"), Caution("chisel")))

    def points(self, part: Part) -> tuple[tuple[Number, tuple[Number, Number]], tuple[Number, tuple[Number, Number]]]:
        """Return the long and the short point, of a turned part on its round."""
        box = EndCut.points(self, part)
        if self.end.axis != 0 or radius_at(part, float(self._middle(part))) is None:
            return box
        s = outward(self.end)
        return self._on_round(part, s), self._on_round(part, -s)

    def _middle(self, part: Part) -> Number:
        """Return where the cut crosses the middle line."""
        return self.reach(part.size[1] / 2, part.size[2] / 2)

    def _on_round(self, part: Part, way: float) -> tuple[Number, tuple[Number, Number]]:
        """Return the point of the round that lies farthest toward `way` of the length."""
        rise, fall = tangent(self.slopes[0]), tangent(self.slopes[1])
        steep = math.hypot(rise, fall)
        middle = float(self._middle(part))
        x = middle
        out = 0.0
        for _ in range(ROUNDS):
            out = radius_at(part, x) or out
            x = middle + way * steep * out
        u, v = (way * out * slope / steep if steep else 0.0 for slope in (rise, fall))
        return settled(x), (float(part.size[1]) / 2 + u, float(part.size[2]) / 2 + v)

    def _angle(self, k: int, i: Axis, other: Axis, long: Number, at_long: tuple[Number, Number]) -> Size:
        """Return the slope as it shows at the long point, wherever on the round that lies."""
        slope = float(self.slopes[k]) * outward(self.end)
        size = EndCut._angle(self, k, i, other, long, at_long)
        place = float(at_long[in_plane(self.end).index(i)])
        return size if slope >= 0 or place == 0 else _turned_over(size, i, self.end.axis)

    def _marks(self, part: Part) -> tuple[Mark, ...]:
        """Return the marks; those of a round on one face, as all of a turned part are."""
        marks = EndCut._marks(self, part)
        if self.end.axis != 0 or radius_at(part, float(self._middle(part))) is None:
            return marks
        return tuple(replace(mark, face=SEEN) for mark in marks)


def _turned_over(size: Size, i: Axis, along: Axis) -> Size:
    """Return an angle whose arms run the other way along axis `i`, on the same slope."""
    assert size.other is not None

    def over(p: tuple[float, float, float], *axes: Axis) -> tuple[float, float, float]:
        c = [2 * size.start[k] - p[k] if k in axes else p[k] for k in range(3)]
        return (c[0], c[1], c[2])

    return replace(size, end=over(size.end, i), other=over(size.other, i, along))
