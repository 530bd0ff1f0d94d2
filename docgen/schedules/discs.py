"""Parts that are round in one of their faces: which they are, and places on that face from their centre lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Face, Size, SizeKind, Stage
from docgen.units import Number

SQUARE = 1e-6
SAME = 1e-4  # mm


@dataclass(frozen=True, slots=True)
class Disc:
    """A round part: the axis square to its round face, and its centre (part axes, mm)."""

    axis: int
    centre: Vec

    @property
    def across(self) -> tuple[int, ...]:
        """The two axes of the round face."""
        return tuple(i for i in range(3) if i != self.axis)


def disc_of(part: Part) -> Disc | None:
    """Return the disc whose circle touches all four sides of the part's box; None for any other part.

    Nothing can be measured from a side of the box then: it is a line that touches the rim.
    """
    for feature in part.features:
        for size in feature.made.sizes if feature.stage is Stage.PART and not feature.made.holes else ():
            axis = next((i for i in range(3) if abs(size.along[i]) > 1 - SQUARE), None)
            if size.kind is SizeKind.DIAMETER and size.other is None and axis is not None:
                disc = Disc(axis, size.start)
                if all(_touches(part, i, size) for i in disc.across):
                    return disc
    return None


def _touches(part: Part, axis: int, size: Size) -> bool:
    low, high = map(float, part.span(axis))
    half = float(size.value) / 2
    return abs(size.start[axis] - half - low) < SAME and abs(size.start[axis] + half - high) < SAME


def from_centre_line(part: Part, axis: int, places: Sequence[Number]) -> tuple[str, tuple[Number, ...]]:
    """Return from where places along an axis of a disc are told, and how far each is from there, mm.

    All on one side of the centre line are told toward that side, others with a sign.
    """
    low, high = part.span(axis)
    far = tuple(2 * place - low - high for place in places)
    toward = {side: part.side(Face(axis, side)) for side in (0, 1)}
    if all(abs(v) < SAME for v in far):
        return "centre line", tuple(v / 2 for v in far)
    if all(v > -SAME for v in far):
        return f"centre line, to the {toward[1]}", tuple(v / 2 for v in far)
    if all(v < SAME for v in far):
        return f"centre line, to the {toward[0]}", tuple(-v / 2 for v in far)
    return f"centre line, + to the {toward[1]}", tuple(v / 2 for v in far)
