"""A cut that is made in the piece's axes, through several parts at once, as it stands on one of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import ClassVar

from docgen.geometry.shapes import Shape, Vec
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.placement import direction_into, into, point_into
from docgen.piece.records import Assumed, Caution, Cut, Face, Made, Mark, Setting, Size, Template
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class PieceCut:
    """Cutters that were carried into the part's axes, with what belongs to them.

    `figures` are the numbers that shaped the cutters, by name; the maker of the shapes answers for them.
    """

    word: ClassVar[str] = "piece cut"
    shapes: tuple[Shape, ...] = field(metadata=TOLD)
    figures: tuple[tuple[str, Number], ...] = field(default=(), metadata=TOLD)
    sizes: tuple[Size, ...] = field(default=(), metadata=TOLD)
    marks: tuple[Mark, ...] = field(default=(), metadata=TOLD)
    settings: tuple[Setting, ...] = field(default=(), metadata=TOLD)
    cautions: tuple[Caution, ...] = field(default=(), metadata=TOLD)
    templates: tuple[Template, ...] = field(default=(), metadata=TOLD)
    assumed: tuple[Assumed, ...] = field(default=(), metadata=TOLD)

    def made(self, part: Part) -> Made:
        """Return the records as they were worked out."""
        return Made(
            cuts=tuple(Cut(s) for s in self.shapes),
            sizes=self.sizes,
            marks=self.marks,
            settings=self.settings,
            cautions=self.cautions,
            templates=self.templates,
            assumed=self.assumed,
        )


def size_into(part: Part, size: Size) -> Size:
    """Return a size of the piece's axes in the part's axes, best seen on the face its direction is square to."""
    return replace(
        size,
        start=point_into(part, size.start),
        end=point_into(part, size.end),
        along=direction_into(part, size.along),
        other=None if size.other is None else point_into(part, size.other),
    )


def facing(part: Part, direction: Vec) -> Face:
    """Return the face of the part that looks nearest along a direction of the piece."""
    d = direction_into(part, direction)
    axis = max(range(3), key=lambda i: abs(d[i]))
    return Face(axis, 1 if d[axis] > 0 else 0)


def on_part(part: Part, shapes: Iterable[Shape]) -> tuple[Shape, ...]:
    """Return shapes of the piece's axes in the part's."""
    return tuple(into(part, s) for s in shapes)
