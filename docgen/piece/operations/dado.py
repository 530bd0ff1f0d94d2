"""Dado (housing) and groove: a flat-bottomed trench across or along a face, through or stopped.

Across the grain the trade says dado or housing, along it groove; the cut is the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from docgen.geometry.make import along_axis, stadium
from docgen.geometry.shapes import Outline
from docgen.piece.model import Part
from docgen.piece.operations.base import Fault
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Mark, Setting, Size, SizeKind
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Dado:
    """A trench in `face`, running along axis `along`, from `low` to `high` on the other axis of the face.

    `start` and `stop` are where the full width ends along the run; None runs out of the part.
    `round_end` leaves the cutter's own radius beyond a stop.
    """

    word: ClassVar[str] = "dado"
    face: Face
    along: int
    low: Number
    high: Number
    depth: Number
    start: Number | None = None
    stop: Number | None = None
    round_end: bool = False
    label: str = "dado"

    def made(self, part: Part) -> Made:
        """Return the cutter, the sizes from the datum edges, the stick marks and the set-up."""
        across = 3 - self.along - self.face.axis
        thick = part.size[self.face.axis]
        if not 0 < self.depth < thick:
            raise Fault(
                "depth-range",
                f"the {self.label} is {float(self.depth):.3f} mm deep in {float(thick):.3f} mm",
                "depth",
                "less than the thickness",
            )
        if not self.low < self.high:
            raise Fault("width-range", f"the {self.label} has no width", "high", "a width above 0")
        return Made(
            cuts=(Cut(self._cutter(part, across)),),
            sizes=self._sizes(part, across),
            marks=self._marks(across),
            settings=(self._setting(),),
            cautions=(Caution("router"),),
            assumed=(Assumed("bottom flat and parallel to the face, walls square to it"),),
        )

    def _run(self, part: Part) -> tuple[float, float]:
        low, high = part.span(self.along)
        return (
            float(low) - 1.0 if self.start is None else float(self.start),
            float(high) + 1.0 if self.stop is None else float(self.stop),
        )

    def _cutter(self, part: Part, across: int):  # type: ignore[no-untyped-def]
        a, b = self._run(part)
        lo, hi = float(self.low), float(self.high)
        radius = (hi - lo) / 2
        if self.round_end:
            mid = (lo + hi) / 2
            p, q = ((a, mid), (b, mid)) if self.along < across else ((mid, a), (mid, b))
            outline = stadium(p, q, radius)
        elif self.along < across:
            outline = Outline.rectangle(a, lo, b, hi)
        else:
            outline = Outline.rectangle(lo, a, hi, b)
        surface = float(part.size[self.face.axis]) if self.face.side else 0.0
        if self.face.side:
            return along_axis(outline, self.face.axis, surface - float(self.depth), surface + 1.0)
        return along_axis(outline, self.face.axis, -1.0, float(self.depth))

    def _sizes(self, part: Part, across: int) -> tuple[Size, ...]:
        surface = float(part.size[self.face.axis]) if self.face.side else 0.0
        inward = -1.0 if self.face.side else 1.0
        a, b = self._run(part)
        start = float(part.span(self.along)[0]) if self.start is None else a

        def at(run: float, cross: Number, level: float = surface) -> tuple[float, float, float]:
            p = [0.0, 0.0, 0.0]
            p[self.along], p[across], p[self.face.axis] = run, float(cross), level
            return (p[0], p[1], p[2])

        def axis(i: int, sign: float = 1.0) -> tuple[float, float, float]:
            return (sign * (i == 0), sign * (i == 1), sign * (i == 2))

        sizes = [
            Size(SizeKind.LENGTH, at(start, 0), at(start, self.low), axis(across), self.low, ("low",), self.face),
            Size(
                SizeKind.LENGTH,
                at(start, self.low),
                at(start, self.high),
                axis(across),
                self.high - self.low,
                ("high", "low"),
                self.face,
                label=self.label,
            ),
            Size(
                SizeKind.LENGTH,
                at(start, self.low),
                at(start, self.low, surface + inward * float(self.depth)),
                axis(self.face.axis, inward),
                self.depth,
                ("depth",),
                Face(self.along, 0),
                label="deep",
            ),
        ]
        word = "to the end of the arc" if self.round_end else "full width"
        if self.start is not None:
            reach = self.start - (self.high - self.low) / 2 if self.round_end else self.start
            sizes.append(
                Size(
                    SizeKind.LENGTH,
                    at(0.0, self.low),
                    at(float(reach), self.low),
                    axis(self.along),
                    reach,
                    ("start",),
                    self.face,
                    label="stop",
                    note=word,
                )
            )
        if self.stop is not None:
            reach = self.stop + (self.high - self.low) / 2 if self.round_end else self.stop
            total = part.size[self.along]
            sizes.append(
                Size(
                    SizeKind.LENGTH,
                    at(float(total), self.low),
                    at(float(reach), self.low),
                    axis(self.along, -1.0),
                    total - reach,
                    ("stop",),
                    self.face,
                    label="stop",
                    note=word,
                )
            )
        return tuple(sizes)

    def _marks(self, across: int) -> tuple[Mark, ...]:
        if across == 0:
            return (Mark(self.low, -1, self.label, self.face), Mark(self.high, 1, self.label, self.face))
        if self.along == 0:
            ends = [(self.start, -1), (self.stop, 1)]
            return tuple(Mark(p, wood, f"{self.label} stops", self.face) for p, wood in ends if p is not None)
        return ()

    def _setting(self) -> Setting:
        values: list[tuple[str, Number | str, str]] = [
            ("straight bit", self.high - self.low, "length"),
            ("depth", self.depth, "length"),
        ]
        return Setting("router", f"{self.label}, flat-bottomed", tuple(values))
