"""Place line: where something comes to lie on a part. Nothing is cut; the story stick has its mark."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import within
from docgen.piece.records import BOTH, Face, Made, Mark
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class PlaceLine:
    """A line across `face`, `position` along the part's length, at which an edge or an end of something lies."""

    word: ClassVar[str] = "place line"
    face: Face
    position: Number = field(metadata=TOLD)
    label: str = "line"

    def made(self, part: Part) -> Made:
        """Return the mark; the wood on both its sides stays."""
        within(part, 0, self.position, self.position, self.label, "position")
        return Made(marks=(Mark(self.position, BOTH, self.label, self.face),))
