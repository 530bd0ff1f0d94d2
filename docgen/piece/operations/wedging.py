"""Kerfs for the wedges that spread a through tenon: two in a square one, one across a round one."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import box, cross, frame_along
from docgen.geometry.shapes import Extrusion, Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import OVER, axis, length, level, need, outward, spot
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Setting, Size
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
class RoundKerf:
    """One saw kerf through the middle of a round tenon on `end`, from its tip, `kerf` wide and `deep`.

    `across` is square to the kerf (part axes): the wedge spreads the tenon along it. `diameter` is the tenon's, `host` the
    part that it is wedged in.
    """

    word: ClassVar[str] = "kerf"
    end: Face
    across: Vec = field(metadata=TOLD)
    diameter: Number = field(metadata=TOLD)
    kerf: Number
    deep: Number
    host: str = ""

    def made(self, part: Part) -> Made:
        """Return the kerf, its sizes, how it is marked and sawn."""
        need(
            4 * self.kerf < self.diameter,
            "kerfs-crowded",
            f"a kerf {figure(self.kerf)} wide leaves too little of a tenon {figure(self.diameter)} thick",
            "wedge",
            "a finer saw: no more than a quarter of the tenon",
        )
        inward, tip = axis(0, -outward(self.end)), self._at(part, level(part, self.end))
        through = cross(inward, self.across)
        reach = math.hypot(float(part.size[1]), float(part.size[2])) / 2 + OVER
        half = float(self.kerf) / 2
        outline = Outline.rectangle(-OVER, -half, float(self.deep), half)
        return Made(
            cuts=(Cut(Extrusion(outline, frame_along(tip, through, inward), -reach, reach), mated=True),),
            sizes=self._sizes(part),
            settings=(
                Setting(
                    "hand saw",
                    "kerf for the wedge",
                    (("kerf", self.kerf, "length"), ("deep from the tip", self.deep, "length")),
                    note=f"start the round end by hand in its own socket and number both, turn the part as it will stand, mark the kerf "
                    f"through the middle of its end square to the grain of {self.host}; take it out and saw",
                ),
            ),
            cautions=(Caution("hand saw"),),
            assumed=(Assumed(f"kerf through the middle of the tenon, square to the grain of {self.host}"),),
        )

    def _at(self, part: Part, x: Number) -> Vec:
        return (float(x), float(part.size[1]) / 2, float(part.size[2]) / 2)

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        """Return the sizes; the kerf's width and its depth are seen from the side, the kerf itself on the tip."""
        tip = level(part, self.end)
        floor = tip - self.deep if self.end.side else tip + self.deep
        one, two = (
            tuple(c + s * float(self.kerf) / 2 * w for c, w in zip(self._at(part, tip), self.across, strict=True))
            for s in (-1, 1)
        )
        way = axis(0, -outward(self.end))
        return (
            length(
                (one[0], one[1], one[2]),
                (two[0], two[1], two[2]),
                self.across,
                self.kerf,
                ("kerf",),
                self.end,
                label="kerf",
            ),
            length(
                self._at(part, tip), self._at(part, floor), way, self.deep, ("deep",), Face(2, 1), label="kerf, deep"
            ),
        )
