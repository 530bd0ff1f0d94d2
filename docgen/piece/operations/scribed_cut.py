"""An end cut that is scribed where the piece stands, and sawn by hand: feet cut level, tenons cut flush."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from docgen.piece.model import Part
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import settled
from docgen.piece.records import Caution, Made, Setting


@dataclass(frozen=True, slots=True)
class ScribedCut(EndCut):
    """The same plane as an end cut; it is marked from what stands beside it, not set at a machine."""

    word: ClassVar[str] = "scribed cut"

    def made(self, part: Part) -> Made:
        """Return what the end cut answers, with the hand saw in place of the machine."""
        made = EndCut.made(self, part)
        gauge, tilt = self.readings()
        values = tuple(
            (name, settled(angle), "angle")
            for name, angle in (("across the width, from square", gauge), ("through the thickness, from square", tilt))
            if angle > 1e-6
        )
        note = (
            "stand the piece on a flat top, wedged level and at its height; carry a pencil on a block round the part, "
            "saw just off the line, and pare to it"
        )
        setting = Setting("hand saw", self.label, values, note=note)
        return replace(made, settings=(setting,), cautions=(Caution("hand saw"), Caution("chisel")))
