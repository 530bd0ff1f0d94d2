"""What tongues and tenons are given by, before anything is made of it: a face, two cheeks, a length, notches."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, need, third
from docgen.piece.records import Axis, Face
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class TongueShape:
    """A tongue on `face` (an end or an edge), from `low` to `high` on the `cheek` axis, `length` long.

    `cheek` is the axis of the faces from which it is thinned: 2, the thickness, for a panel in a housing. A side at
    the nominal box's own face is not cut: the tongue is bare-faced there. `over` is the fat left on the cut cheeks
    (shared when both are cut) until the tongue is fitted. `notch_low` and `notch_high` shorten the tongue at the low
    and high end of the third axis, as behind a stopped dado; there a haunch of `haunch_low` or `haunch_high` may stay.
    A `rounded` tongue has half-round edges, as a router leaves its mortise.
    """

    face: Face
    low: Number
    high: Number
    length: Number
    over: Number = 0
    notch_low: Number = 0
    notch_high: Number = 0
    cheek: Axis = 2
    label: str = "tongue"
    reason: str = "tongue"
    beside: str = "notch"  # what the sheets call the wood missing at the ends of the third axis
    mate: str = "dado"
    haunch_low: Number = 0
    haunch_high: Number = 0
    rounded: bool = False

    @property
    def cut_low(self) -> bool:
        """Whether the cheek at the low face is cut."""
        return self.low > SAME

    def cut_high(self, part: Part) -> bool:
        """Whether the cheek at the high face is cut."""
        return self.high < part.size[self.cheek] - SAME

    def notches(self) -> Iterator[tuple[Face, Number, Number]]:
        """Yield the sides at which the tongue is shorter than its end: the side, by how much, and the haunch left there."""
        run = third(self.face.axis, self.cheek)
        for side, wide, haunch in ((0, self.notch_low, self.haunch_low), (1, self.notch_high, self.haunch_high)):
            if wide:
                yield Face(run, side), wide, haunch


def need_tongue(tongue: TongueShape, thick: Number, wide: Number) -> None:
    """Raise a `Fault` unless a tongue lies in a part `thick` between its cheeks and `wide` along its shoulder, mm."""
    need(
        -SAME <= tongue.low < tongue.high <= thick + SAME,
        "tongue-range",
        f"the {tongue.label} from {figure(tongue.low)} to {figure(tongue.high)} does not lie in {figure(thick)}",
        "thickness",
        "a tongue inside the thickness",
    )
    need(tongue.length > 0, "length-range", f"the {tongue.label} has no length", "length", "a length above 0")
    need(
        tongue.over >= 0 and tongue.high - tongue.low + tongue.over <= thick + SAME,
        "over-range",
        f"the {tongue.label} cannot be {figure(tongue.over)} fat in {figure(thick)}",
        "over",
        "no more than the wood beside it",
    )
    need(
        tongue.notch_low >= 0 and tongue.notch_high >= 0 and tongue.notch_low + tongue.notch_high < wide,
        "notch-range",
        f"the notches leave nothing of the {tongue.label}",
        "notch",
        "notches shorter than the tongue",
    )
