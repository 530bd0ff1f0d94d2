"""Wood left on: a part is cut larger at one side and fitted there later. The solid is the part as it is in the end."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.base import TOLD
from docgen.piece.operations.ground import need
from docgen.piece.records import Face, Made, Spare
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class LeftOn:
    """`amount` more than the figure at `face` of the nominal box; `note` says in words how it goes."""

    word: ClassVar[str] = "wood left on"
    face: Face
    amount: Number = field(metadata=TOLD)
    note: str = ""

    def made(self, part: Part) -> Made:
        """Return what is left on; `Fault` for an amount that is none."""
        need(
            self.amount > 0,
            "over-range",
            f"{figure(self.amount)} left on {part.path} is nothing",
            "",
            "more than nothing",
        )
        return Made(spare=(Spare(self.face, self.amount, self.note),))
