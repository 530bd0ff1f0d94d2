"""Pins: sockets for dovetails in the end of a board, through its thickness or stopped at a lap."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.comb import ONE_END
from docgen.piece.operations.ground import (
    OVER,
    axis,
    inside,
    length,
    level,
    need,
    outward,
    several,
    spot,
    tangent,
    within,
)
from docgen.piece.records import BOTH, Assumed, Authority, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Pins:
    """`count` sockets for tails in the end `end`, `deep` along the board, open toward `inner`, a broad face.

    Places run along the width from its low edge and are those at the tails' ends, where a socket is widest: `first`,
    then every `step`, each `socket` wide. `into` is how far the sockets go into the thickness from `inner`; None goes
    through. They narrow toward `inner` by `slope`, degrees.
    """

    word: ClassVar[str] = "pins"
    end: Face
    inner: Face
    deep: Number
    first: Number
    socket: Number
    slope: Number
    step: Number = 0
    into: Number | None = None
    count: int = field(default=1, metadata=TOLD)
    told: str = ""

    def made(self, part: Part) -> Made:
        """Return the sockets, their baseline and depth, the layout that the tails rule, the mark and the set-up."""
        self._check(part)
        through = self.into is None
        return Made(
            cuts=tuple(self._cut(part, self.first + i * self.step) for i in range(self.count)),
            sizes=self._sizes(part),
            marks=(Mark(self._baseline(part), BOTH, "baseline of the pins", self.inner),),
            settings=(
                Setting(
                    "hand saw",
                    "pins, cut by hand" if through else "half-blind pins, cut by hand",
                    self._values(),
                    note="mark the pins from their tails, joint by joint; saw on the waste side, then chop to the baseline",
                    mate="tails and pins of a sample corner",
                ),
            ),
            cautions=(Caution("hand saw"), Caution("chisel")),
            assumed=(
                Assumed("pins square to the end" if through else "sockets stopped at the lap, walls cut square"),
                Assumed(ONE_END.format("pin")),
            ),
        )

    def _check(self, part: Part) -> None:
        thick, wide = part.size[2], part.size[1]
        need(self.inner.axis == 2, "pins-face", "pins open toward a broad face", "inner")
        within(part, 0, self._baseline(part), self._baseline(part), "pins", "deep")
        need(
            self.into is None or 0 < self.into < thick,
            "depth-range",
            f"the sockets are {figure(self.into or 0)} deep in {figure(thick)}",
            "into",
            "less than the thickness",
        )
        last = self.first + (self.count - 1) * self.step + self.socket
        need(
            self.first > 0 and last < wide and (self.count < 2 or self.step > self.socket),
            "comb-crowded",
            f"the sockets from {figure(self.first)} to {figure(last)} leave no pins in {figure(wide)}",
            "count",
            "fewer tails, or narrower ones",
        )

    def _level(self, part: Part) -> Number:
        return part.size[0] if self.end.side else 0

    def _baseline(self, part: Part) -> Number:
        return part.size[0] - self.deep if self.end.side else self.deep

    def _reach(self, part: Part) -> Number:
        return part.size[2] if self.into is None else self.into

    def _cut(self, part: Part, start: Number) -> Cut:
        """Return one socket, drawn in the end (width, thickness) and swept along the length."""
        t, deep = tangent(self.slope), float(self._reach(part))
        mouth, floor = float(level(part, self.inner)), float(inside(part, self.inner, self._reach(part)))
        sign = outward(self.inner)
        beyond = OVER if self.into is None else 0.0
        a, b = float(start), float(start + self.socket)
        out = t * beyond
        shrink = t * (deep + OVER)
        points = [
            (a - out, floor - sign * beyond),
            (b + out, floor - sign * beyond),
            (b - shrink, mouth + sign * OVER),
            (a + shrink, mouth + sign * OVER),
        ]
        base = float(self._baseline(part))
        tip = float(self._level(part)) + outward(self.end) * OVER
        outline = Outline.polygon(points if sign > 0 else points[::-1])
        return Cut(along_axis(outline, 0, min(base, tip), max(base, tip)))

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        tip, base = self._level(part), self._baseline(part)
        floor, mouth = inside(part, self.inner, self._reach(part)), level(part, self.inner)

        def at(across: Number, thick: Number = floor, along: Number = tip) -> Vec:
            return spot({0: along, 1: across, 2: thick})

        up, mate = axis(1), Authority.MATE
        sizes = [
            length(
                at(0, mouth, base), at(0, mouth), axis(0, outward(self.end)), self.deep, ("deep",), self.inner,
                label="baseline",
            ),
            length(at(0), at(self.first), up, self.first, ("first",), self.end, label="half pin", authority=mate),
            length(
                at(self.first), at(self.first + self.socket), up, self.socket, ("socket",), self.end,
                label=several(self.count, "socket"), authority=mate,
            ),
        ]  # fmt: skip
        if self.count > 1:
            ends = at(self.first), at(self.first + self.step)
            sizes.append(
                length(
                    *ends, up, self.step, ("step",), self.end, label=several(self.count - 1, "spacing"), authority=mate
                )
            )
        if self.into is not None:
            ends = at(0, mouth), at(0, floor)
            way = axis(2, -outward(self.inner))
            sizes.append(length(*ends, way, self.into, ("into",), self.end, label="socket deep"))
        sizes.append(self._angle(part, float(floor), float(mouth)))
        return tuple(sizes)

    def _angle(self, part: Part, floor: float, mouth: float) -> Size:
        """Return the corner of the first socket at its floor, 90° less the slope."""
        tip, a = self._level(part), float(self.first)
        lean = tangent(self.slope) * abs(mouth - floor)
        return Size(
            SizeKind.ANGLE,
            spot({0: tip, 1: a, 2: floor}),
            spot({0: tip, 1: a + abs(mouth - floor), 2: floor}),
            axis(0),
            90 - self.slope,
            ("slope",),
            self.end,
            other=spot({0: tip, 1: a + lean, 2: mouth}),
            authority=Authority.MATE,
            note=f"slope {self.told}, from the face" if self.told else "",
        )

    def _values(self) -> tuple[tuple[str, Number | str, str], ...]:
        values: list[tuple[str, Number | str, str]] = [("marking gauge, baseline", self.deep, "length")]
        if self.into is not None:
            values.append(("second gauge, on the end from the inner face", self.into, "length"))
        return (*values, ("sockets", self.count, "count"))
