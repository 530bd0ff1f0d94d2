"""What lets a through tenon be wedged: saw kerfs in the tenon, and a mortise that widens toward the far face."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis, box
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import OVER, axis, in_plane, inside, length, level, need, outward, spot, third
from docgen.piece.records import Assumed, Axis, Caution, Cut, Face, Made, Setting, Size
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Kerfs:
    """Two saw kerfs from the tip of a tenon on `end`, `inset` from the tenon's edges at `low` and `high` on the width.

    The tenon stands out by `out`; the kerfs are `kerf` wide and `deep` from its tip.
    """

    word: ClassVar[str] = "kerfs"
    end: Face
    out: Number = field(metadata=TOLD)
    low: Number = field(metadata=TOLD)
    high: Number = field(metadata=TOLD)
    inset: Number
    kerf: Number
    deep: Number

    def made(self, part: Part) -> Made:
        """Return both kerfs, their sizes and how they are sawn."""
        wide = self.high - self.low
        need(
            0 < self.deep < self.out,
            "depth-range",
            f"kerfs {figure(self.deep)} deep reach the shoulder of a tenon {figure(self.out)} long",
            "wedges",
            "shallower kerfs",
        )
        need(
            self.inset > 0 and 2 * (self.inset + self.kerf) < wide,
            "kerfs-crowded",
            f"two kerfs leave no wood in a tenon {figure(wide)} wide",
            "wedges",
            "a wider tenon, or kerfs nearer to its edges",
        )
        tip = level(part, self.end) + (self.out if self.end.side else -self.out)
        floor = tip - self.deep if self.end.side else tip + self.deep
        x0, x1 = sorted((float(floor), float(tip) + outward(self.end) * OVER))
        places = (self.low + self.inset, self.high - self.inset - self.kerf)
        z1 = float(part.size[2]) + OVER
        return Made(
            cuts=tuple(Cut(box((x0, float(y), -OVER), (x1, float(y + self.kerf), z1))) for y in places),
            sizes=self._sizes(tip, floor),
            settings=(
                Setting(
                    "hand saw",
                    "kerfs for the wedges",
                    (("kerf", self.kerf, "length"), ("deep from the tip", self.deep, "length")),
                    note="saw along the grain, square to the width; wedges spread the tenon across the post's ends of the mortise",
                    places=(("from each edge of the tenon", self.inset, "length"),),
                ),
            ),
            cautions=(Caution("hand saw"),),
            assumed=(Assumed("kerfs square to the tenon's width"),),
        )

    def _sizes(self, tip: Number, floor: Number) -> tuple[Size, ...]:
        face, y = Face(2, 1), self.low + self.inset

        def at(x: Number, across: Number) -> Vec:
            return spot({0: x, 1: across})

        return (
            length(at(tip, self.low), at(tip, y), axis(1), self.inset, ("inset",), face, label="to the kerf"),
            length(at(tip, y), at(tip, y + self.kerf), axis(1), self.kerf, ("kerf",), face, label="2 × kerf"),
            length(at(tip, y), at(floor, y), axis(0, -outward(self.end)), self.deep, ("deep",), face, label="deep"),
        )


@dataclass(frozen=True, slots=True)
class Flare:
    """A through mortise widened toward the face opposite `face`: its walls on axis `along` lean out by `by` each.

    `middle` is the mortise's middle on its two axes in rising order, `length` and `width` its size; the walls begin to
    lean `start` under `face`, where the tenon enters.
    """

    word: ClassVar[str] = "flare"
    face: Face
    middle: tuple[Number, Number] = field(metadata=TOLD)
    along: Axis
    length: Number = field(metadata=TOLD)
    width: Number = field(metadata=TOLD)
    start: Number
    by: Number

    def made(self, part: Part) -> Made:
        """Return the wood taken from both end walls, how far they lean, and how they are chopped."""
        thick = part.size[self.face.axis]
        need(
            0 <= self.start < thick and self.by > 0,
            "depth-range",
            f"a mortise that widens from {figure(self.start)} on in {figure(thick)}",
            "wedges",
            "less than the post's thickness",
        )
        u, v = in_plane(self.face)
        centre = dict(zip((u, v), self.middle, strict=True))
        across = third(self.along, self.face.axis)
        near, far = float(inside(part, self.face, self.start)), float(inside(part, self.face, thick))
        half, way = float(self.length) / 2, -outward(self.face)
        c = float(centre[self.along])
        slope = float(self.by) / (float(thick - self.start))
        out = half + float(self.by) + slope * OVER
        tip = far + way * OVER
        points = [(c - half, near), (c + half, near), (c + out, tip), (c - out, tip)]
        if self.along > self.face.axis:
            points = [(b, a) for a, b in points]
        area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
        wide = float(centre[across]), float(self.width) / 2
        outline = Outline.polygon(points if area > 0 else points[::-1])
        return Made(
            cuts=(Cut(along_axis(outline, across, wide[0] - wide[1], wide[0] + wide[1])),),
            sizes=self._sizes(centre, near, far),
            settings=(
                Setting(
                    "chisel",
                    "mortise widened for the wedges",
                    (("longer at each end", self.by, "length"), ("begins under the entry", self.start, "length")),
                    note="work from the far face",
                ),
            ),
            cautions=(Caution("chisel"),),
            assumed=(Assumed("end walls of the mortise lean alike"),),
        )

    def _sizes(self, centre: dict[Axis, Number], near: float, far: float) -> tuple[Size, ...]:
        across = third(self.along, self.face.axis)
        end = centre[self.along] + self.length / 2
        mouth = near + outward(self.face) * float(self.start)

        def at(run: Number, deep: Number) -> Vec:
            return spot({self.along: run, self.face.axis: deep, across: centre[across]})

        back = Face(self.face.axis, 1 - self.face.side)
        into = axis(self.face.axis, -outward(self.face))
        return (
            length(
                at(end, far), at(end + self.by, far), axis(self.along), self.by, ("by",), back, label="2 × longer by"
            ),
            length(at(end, mouth), at(end, near), into, self.start, ("start",), Face(across, 0), label="widens from"),
        )
