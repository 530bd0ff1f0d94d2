"""Cheeks: wood taken off both broad faces so that a tenon stays in the middle, at an end or across the part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import OVER, SAME, axis, exactly, length, need, positive, run_out, spot, within
from docgen.piece.records import BOTH, Assumed, Authority, Caution, Cut, Face, Made, Mark, Setting, Size, Stage
from docgen.units import Number

_WIDE, _EDGE = Face(2, 1), Face(1, 0)


@dataclass(frozen=True, slots=True)
class Cheeks:
    """A tenon from `start` to `stop` on the length, `low` to `high` in the thickness; None runs out of the part.

    It lies inside the nominal box, so that the blank does not grow. `over` is the fat left on the cut cheeks, shared
    when both are cut, until it is fitted.
    """

    word: ClassVar[str] = "cheeks"
    start: Number | None
    stop: Number | None
    low: Number
    high: Number
    over: Number = 0
    label: str = "tenon"
    mate: str = "slot"

    def made(self, part: Part) -> Made:
        """Return the cuts beside the tenon, its sizes and shoulder marks, and how it is fitted."""
        thick = part.size[2]
        first = part.span(0)[0] if self.start is None else self.start
        last = part.span(0)[1] if self.stop is None else self.stop
        need(first < last, "length-range", f"the {self.label} has no length", "length", "a length above 0")
        within(part, 0, first, last, self.label, "length")
        need(
            -SAME <= self.low < self.high <= thick + SAME and self.high - self.low < thick - SAME,
            "tongue-range",
            f"the {self.label} from {figure(self.low)} to {figure(self.high)} is not cut out of {figure(thick)}",
            "thickness",
            "a tenon thinner than the part",
        )
        return Made(
            cuts=self._cuts(part),
            sizes=self._sizes(part),
            marks=self._marks(),
            settings=(
                Setting(
                    "band saw",
                    f"{self.label}, cheeks and shoulders",
                    self._values(part),
                    note=f"fit each {self.label} to its {self.mate}" if self.over else "",
                    mate=self.mate if self.over else "",
                ),
            ),
            cautions=(Caution("band saw"), Caution("chisel")),
            assumed=(Assumed("shoulders square and in line all round"),),
        )

    def _sides(self, part: Part) -> list[tuple[float, float, float]]:
        """Return from–to of the wood beside the tenon and the fat on that cheek, the low side first."""
        thick = float(part.size[2])
        sides = [(-OVER, float(self.low))] if self.low > SAME else []
        if self.high < part.size[2] - SAME:
            sides.append((float(self.high), thick + OVER))
        fat = float(self.over) / len(sides)
        return [(a, b, fat) for a, b in sides]

    def _cuts(self, part: Part) -> tuple[Cut, ...]:
        x0, x1 = run_out(part, 0, self.start, self.stop)
        y0, y1 = -OVER, float(part.size[1]) + OVER
        out = []
        for a, b, fat in self._sides(part):
            below = a < 0
            near = (a, b - fat) if below else (a + fat, b)
            out.append(Cut(along_axis(Outline.rectangle(x0, near[0], x1, near[1]), 1, y0, y1)))
            if fat:
                whole = along_axis(Outline.rectangle(x0, a, x1, b), 1, y0, y1)
                out.append(Cut(whole, Stage.FITTED))
        return tuple(out)

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        long = part.size[0]
        a, b = 0 if self.start is None else self.start, long if self.stop is None else self.stop

        def at(along: Number, thick: Number = 0, across: Number = 0) -> Vec:
            return spot({0: along, 1: across, 2: thick})

        sizes = []
        if self.start is not None and self.stop is not None:
            sizes.append(length(at(0), at(a), axis(0), a, ("start",), _EDGE, label=""))
            sizes.append(length(at(a), at(b), axis(0), b - a, ("stop", "start"), _EDGE, label=self.label))
        elif self.start is not None:
            ends = at(long), at(a)
            sizes.append(length(*ends, axis(0, -1.0), positive(long - a), ("start",), _EDGE, label=self.label))
        elif self.stop is not None:
            sizes.append(length(at(0), at(b), axis(0), b, ("stop",), _EDGE, label=self.label))
        tip = b if self.start is not None else a
        names = ("high", "low", "over") if self.over else ("high", "low")
        sizes.append(
            length(
                at(tip, self.low), at(tip, self.high), axis(2), self.high - self.low, names, _EDGE, label=self.label,
                authority=Authority.FIT if self.over else Authority.CUT, over=self.over,
            )
        )  # fmt: skip
        if self.low > SAME:
            sizes.append(length(at(tip), at(tip, self.low), axis(2), self.low, ("low",), _EDGE))
        return tuple(sizes)

    def _marks(self) -> tuple[Mark, ...]:
        """Return the shoulders: of a lap between two the wood goes, beyond a single one some of it stays."""
        low, high = (-1, 1) if self.start is not None and self.stop is not None else (BOTH, BOTH)
        ends = ((self.start, low), (self.stop, high))
        return tuple(Mark(at, wood, f"{self.label}, shoulder", _WIDE) for at, wood in ends if at is not None)

    def _values(self, part: Part) -> tuple[tuple[str, Number | str, str], ...]:
        values: list[tuple[str, Number | str, str]] = [
            (f"{self.label} thickness, fat" if self.over else f"{self.label} thickness",
             self.high - self.low + self.over, "length"),
        ]  # fmt: skip
        off = [(face, deep) for face, deep in (("low", self.low), ("high", part.size[2] - self.high)) if deep > SAME]
        fat = self.over / len(off) if self.over else 0  # it stays until the fitting
        values += [(f"off the {face} face", exactly(deep - fat), "length") for face, deep in off]
        return tuple(values)
