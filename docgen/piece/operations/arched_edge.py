"""A side of a face cut to an arch: an arc, or half an ellipse, of a given rise."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from docgen.geometry.curves import arc_through, ellipse
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.curve_work import Curve, Values, arc_size, run_of, sides
from docgen.piece.operations.ground import axis, inside, length, level, need, outward, settled, spot
from docgen.piece.operations.side_line import SideLine
from docgen.piece.records import Face, Made, Mark, Size
from docgen.trade import arcs
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class ArchedEdge:
    """The side `edge` of `face` cut to an arch: an arc, or half an ellipse, that rises `rise` in its middle.

    It goes from `begin` to `end` along the side (None: from corner to corner). Hollow, it is cut into the wood by
    `rise`; a `crown` is highest in its middle and leaves the ends `rise` lower.
    """

    word: ClassVar[str] = "curved edge"
    face: Face
    edge: Face
    rise: Number
    begin: Number | None = None
    end: Number | None = None
    shape: str = "arc"
    crown: bool = False
    ease: Number | None = None
    label: str = "curve"

    def made(self, part: Part) -> Made:
        """Return the cutter, the rise and where the arch stands, marks, saw and trimming, and a template."""
        line = self._line(part)
        line.check(self.label, "rise")
        (a, side), (b, _) = line.start, line.stop
        pins = ((a, side), ((a + b) / 2, float(self.rise) - side), (b, side))
        curve = Curve(line, self.label, self._values(part), pins, ease=self.ease)
        made = curve.made()
        return replace(made, sizes=(*self._sizes(part), *made.sizes), marks=self._marks(part))

    def _reach(self, part: Part) -> tuple[Number, Number]:
        along = run_of(self.face, self.edge)
        low: Number = 0 if self.begin is None else self.begin
        return low, part.size[along] if self.end is None else self.end

    def _line(self, part: Part) -> SideLine:
        sides(self.face, self.edge)
        low, high = self._reach(part)
        need(low < high, "run-range", f"the {self.label} ends before it begins", "rise", "a from–to that leaves a run")
        need(self.rise > 0, "curve-depth", f"the {self.label} has no rise", "rise", "more than 0")
        need(
            not self.crown or (self.begin is None and self.end is None),
            "crown-reach",
            "a crown runs from corner to corner",
            "crown",
            "no from–to beside it",
        )
        need(
            self.shape != "arc" or self.rise <= (high - low) / 2,
            "curve-rise",
            f"an arc over {figure(high - low)} cannot rise {figure(self.rise)}",
            "rise",
            f"no more than {figure((high - low) / 2)}, half its chord",
        )
        a, b, rise = float(low), float(high), float(self.rise)
        middle, side = (a + b) / 2, rise if self.crown else 0.0
        if self.shape == "arc":
            run = arc_through((a, side), (middle, rise - side), (b, side))
        elif self.crown:
            run = ellipse((middle, rise), ((b - a) / 2, rise), 180.0, 360.0)
        else:
            run = ellipse((middle, 0.0), ((b - a) / 2, rise), 180.0, 0.0)
        return SideLine(part, self.face, self.edge, (a, side), run)

    def _sizes(self, part: Part) -> tuple[Size, ...]:
        along = run_of(self.face, self.edge)
        low, high = self._reach(part)
        on = {self.face.axis: level(part, self.face), self.edge.axis: level(part, self.edge)}
        sizes: list[Size] = []
        if self.begin is not None:
            zero, at = spot(on | {along: 0}), spot(on | {along: low})
            sizes.append(length(zero, at, axis(along), low, ("begin",), self.face))
        if self.end is not None:
            names = ("end", "begin") if self.begin is not None else ("end",)
            from_, at = spot(on | {along: low}), spot(on | {along: high})
            sizes.append(length(from_, at, axis(along), high - low, names, self.face, label="chord"))
        middle = (low + high) / 2
        top = spot(on | {along: middle})
        bottom = spot(on | {along: middle, self.edge.axis: inside(part, self.edge, self.rise)})
        sizes.append(
            length(
                top, bottom, axis(self.edge.axis, -outward(self.edge)), self.rise, ("rise",), self.face, label="rise"
            )
        )
        if self.shape == "arc":
            radius = arcs.radius(high - low, self.rise)
            centre = radius if self.crown else self.rise - radius
            apex = 0 if self.crown else self.rise
            flat = (float(middle), float(centre))
            sizes.append(arc_size(part, self.face, self.edge, flat, (flat[0], float(apex)), radius, ()))
        return tuple(sizes)

    def _marks(self, part: Part) -> tuple[Mark, ...]:
        if run_of(self.face, self.edge) != 0:
            return ()
        low, high = self._reach(part)
        out = [Mark(low, -1, f"{self.label} begins", self.face)] if self.begin is not None else []
        out.append(Mark((low + high) / 2, 0, f"{self.label}, {'highest' if self.crown else 'deepest'}", self.face))
        return (*out, *((Mark(high, 1, f"{self.label} ends", self.face),) if self.end is not None else ()))

    def _values(self, part: Part) -> Values:
        low, high = self._reach(part)
        chord: tuple[str, Number | str, str] = ("chord", high - low, "length")
        if self.shape == "arc":
            return (
                ("radius", arcs.radius(high - low, self.rise), "length"),
                chord,
                ("rise over the chord", self.rise, "length"),
            )
        long, short = sorted((float(high - low) / 2, float(self.rise)), reverse=True)
        return (
            chord,
            ("rise over the chord", self.rise, "length"),
            ("pins for a string, apart", settled(2 * arcs.focus(long, short)), "length"),
            ("string round both pins and the pencil", settled(2 * long + 2 * arcs.focus(long, short)), "length"),
        )
