"""The lines of a view as records, and the views by their names."""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.geometry.shapes import Vec, Vec2


@dataclass(frozen=True, slots=True)
class View:
    """A parallel view: `right` and `up` are unit vectors of the piece; the viewer looks along −(right × up)."""

    right: Vec
    up: Vec

    @property
    def toward(self) -> Vec:
        """The unit vector from the piece to the viewer."""
        r, u = self.right, self.up
        return (r[1] * u[2] - r[2] * u[1], r[2] * u[0] - r[0] * u[2], r[0] * u[1] - r[1] * u[0])

    def flat(self, p: Vec) -> Vec2:
        """Return where the point `p` is seen, view mm."""
        r, u = self.right, self.up
        return (p[0] * r[0] + p[1] * r[1] + p[2] * r[2], p[0] * u[0] + p[1] * u[1] + p[2] * u[2])


_HALF, _SIXTH = math.sqrt(1 / 2), math.sqrt(1 / 6)

VIEWS: dict[str, View] = {
    "front": View((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "back": View((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    "left": View((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
    "right": View((0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "top": View((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
    "bottom": View((1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
    # isometric: front, right side and top are seen at one scale
    "axonometric": View((_HALF, _HALF, 0.0), (-_SIXTH, _SIXTH, 2 * _SIXTH)),
}


@dataclass(frozen=True, slots=True)
class ArcOf:
    """The true circle of a stroke, view mm; runs counter-clockwise from `start_deg` to `end_deg` (larger)."""

    centre: Vec2
    radius: float
    start_deg: float
    end_deg: float


@dataclass(frozen=True, slots=True)
class Stroke:
    """One line of a view from `a` to `b`, view mm (x along right, y along up).

    `owner` numbers the item that it belongs to. `kind` is "sharp" for an edge, "smooth" for the outline of a curved
    surface, "tangent" where one surface runs on into another (only where that is asked for). With `arc` the stroke follows
    that circle. Strokes of one `chain` (not −1) are the chords of one curve, in order, each starting where the one before
    ended.
    """

    a: Vec2
    b: Vec2
    owner: int
    kind: str = "sharp"
    arc: ArcOf | None = None
    chain: int = -1


@dataclass(frozen=True, slots=True)
class Drawn:
    """What one view shows: visible and hidden strokes, each in a settled order."""

    visible: tuple[Stroke, ...]
    hidden: tuple[Stroke, ...]
