"""A view on its paper: where its points lie, and on which side of it a dimension belongs."""

from __future__ import annotations

from dataclasses import dataclass, field

from docgen.drawing.dimensions.sides import Bounds, Side, sides
from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.records import Point

DEEP = 12.0  # mm on paper: what lies further inside the outline is dimensioned inside if it can be
SQUARE = 1e-6


@dataclass(frozen=True, slots=True)
class Field:
    """A view's outline on paper, its scale, and the paper place `at` of the view's origin."""

    outline: Bounds
    scale: float
    at: Point
    sides: dict[str, Side] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "sides", sides(self.outline))

    def paper(self, p: Point) -> Point:
        """Return the place on paper of a point in view mm."""
        return (p[0] * self.scale + self.at[0], p[1] * self.scale + self.at[1])

    def deep(self, w: Linear) -> bool:
        """Return True for a slanted dimension, and for one whose points lie far inside the view."""
        if slanted(w):
            return True
        return not w.overall and not w.datum and not w.over and self._depth(w, self.side(w)) > DEEP

    def _depth(self, w: Linear, side: Side) -> float:
        target = -side.v(self.paper(w.b))
        return target if w.datum else max(-side.v(self.paper(w.a)), target)

    def side(self, w: Linear) -> Side:
        """Return the nearer side; where both are as near, positions from a datum go below and left, sizes opposite."""
        names = ("bottom", "top") if abs(w.along[0]) > 0.5 else ("left", "right")
        if not w.datum:
            names = (names[1], names[0])
        near, far = (self._depth(w, self.sides[n]) for n in names)
        return self.sides[names[1] if (far < near - 0.5) != w.over else names[0]]


def slanted(w: Linear) -> bool:
    """Return True for a dimension that runs neither level nor plumb."""
    return min(abs(w.along[0]), abs(w.along[1])) > SQUARE
