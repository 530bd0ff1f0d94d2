"""The rim of a disc rounded over on one of its faces."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import frame_along
from docgen.geometry.outlines import seams
from docgen.geometry.shapes import Outline, Revolution, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.corner import corner_cutter, rounding
from docgen.piece.operations.easing import CLEAR
from docgen.piece.operations.ground import Ground, axis, in_plane, need, outward
from docgen.piece.operations.opening import On
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Setting, Size, SizeKind
from docgen.units import Number

ROUND = "counter-clockwise round the outside, seen from above"


@dataclass(frozen=True, slots=True)
class Rim:
    """The arris between `face` and the rim of a disc of `diameter` about `at`, rounded to `radius`."""

    word: ClassVar[str] = "rim"
    face: Face
    at: On = field(metadata=TOLD)
    diameter: Number = field(metadata=TOLD)
    radius: Number
    label: str = "rim, round-over"

    def made(self, part: Part) -> Made:
        """Return the ring that goes, the radius and the set-up."""
        most = min(part.size[self.face.axis], self.diameter / 2)
        need(
            0 < self.radius < most,
            "radius-range",
            f"the {self.label} takes {figure(self.radius)} of {figure(most)}",
            "rim",
            "more than 0, less than the wood there",
        )
        outer = float(self.diameter) / 2
        r = rounding((outer + CLEAR, 0.0), (-1.0, 0.0), (0.0, -1.0), float(self.radius))
        centre = Ground(part, self.face).at(*self.at)
        out = axis(self.face.axis, outward(self.face))
        u, v = in_plane(self.face)
        circle = Outline.circle((0.0, 0.0), outer)
        stops = tuple(seams(circle.edges[0].end, circle.edges[0]))  # where the disc's wall is broken into facets
        return Made(
            cuts=(Cut(Revolution(corner_cutter(r), frame_along(centre, out, axis(u)), stops)),),
            sizes=(self._radius(centre, out, r.centre, u, v),),
            settings=(
                Setting(
                    "router", self.label, (("round-over bit, radius", self.radius, "length"),), feed=ROUND, late=True
                ),
            ),
            cautions=(Caution("router"), Caution("bearing-guided bit"), Caution("round over")),
            assumed=(Assumed("round-over tangent to face and rim"),),
        )

    def _radius(self, centre: Vec, out: Vec, at: tuple[float, float], u: int, v: int) -> Size:
        """Return the radius in the section through the centre along the face's first axis."""
        k = float(self.radius) / 2**0.5

        def point(across: float, up: float) -> Vec:
            x, y, z = (centre[i] + across * (i == u) + up * out[i] for i in range(3))
            return (x, y, z)

        start, end = point(*at), point(at[0] + k, at[1] + k)
        return Size(SizeKind.RADIUS, start, end, axis(v), self.radius, ("radius",), Face(v, 0), label=self.label)
