"""Holes in a line at equal spacing."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import ClassVar

from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import Ground, axis, in_plane, length, need
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Assumed, Axis, Made
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class HoleLine:
    """Holes in a line at equal spacing: the first, then `count` − 1 more, each `spacing` further along `along`."""

    word: ClassVar[str] = "hole row"
    hole: Hole  # one hole, at the first place
    along: Axis
    spacing: Number
    count: int = field(metadata=TOLD)

    def _holes(self) -> Hole:
        u, _ = in_plane(self.hole.face)
        a, b = self.hole.points[0]
        points = tuple(
            (a + n * self.spacing, b) if self.along == u else (a, b + n * self.spacing) for n in range(self.count)
        )
        return replace(self.hole, points=points)

    def made(self, part: Part) -> Made:
        """Return the holes; the first is placed from the datum, the rest by the spacing."""
        need(self.count >= 2, "count-range", "a row has at least two holes", "count", "2 or more")
        need(self.spacing > 0, "spacing-range", "the holes need a spacing", "spacing", "more than 0")
        need(self.along in in_plane(self.hole.face), "row-direction", "the row does not lie in the face", "run")
        all_made = self._holes().made(part)
        one = self.hole.made(part)
        ground = Ground(part, self.hole.face)
        first = ground.at(*self.hole.points[0])
        second = ground.at(*self._holes().points[1])
        spacing = length(
            first, second, axis(self.along), self.spacing, ("spacing",), self.hole.face, label=f"{self.count - 1} ×"
        )
        sizes = tuple(replace(s, parameters=tuple(f"hole.{p}" for p in s.parameters)) for s in one.sizes)
        sizes = tuple(replace(s, label=f"{self.count} ×") if s.parameters == ("hole.diameter",) else s for s in sizes)
        return replace(all_made, sizes=(*sizes, spacing), assumed=(*all_made.assumed, Assumed("holes in line")))
