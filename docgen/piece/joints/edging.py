"""Boards edge to edge: which edges look at each other, how far apart they stand, and a band through both."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.housing_place import Band
from docgen.piece.joints.meeting import NEAR, Seen, seen
from docgen.piece.joints.telling import fault
from docgen.piece.model import Part
from docgen.piece.records import Face
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Edges:
    """Two neighbouring boards: the edge of each that looks at the other, and the gap between them, mm."""

    one: Part
    two: Part
    edge: Face
    other: Face
    gap: Number
    at: Seen

    def band(self, band: Band) -> Band:
        """Return a band of the first board's thickness in that of the second one."""
        low, high = self.at.low[2], self.at.high[2]
        if self.at.sign[2] > 0:
            return Band(low + band.low, low + band.high)
        return Band(high - band.high, high - band.low)


def edges(one: Part, two: Part) -> Edges | None:
    """Return the edges with which two boards lie beside each other; None when they lie otherwise."""
    at = seen(one, two)
    if at is None or at.axis != (0, 1, 2):
        return None
    if any(float(at.high[k]) <= NEAR or float(at.low[k]) >= float(two.size[k]) - NEAR for k in (0, 2)):
        return None
    gaps: tuple[Number, Number] = (-at.high[1], at.low[1] - two.size[1])
    side = next((s for s in (0, 1) if float(gaps[s]) >= -NEAR), None)
    if side is None:
        return None
    return Edges(one, two, at.guest_face(Face(1, 1 - side)), Face(1, side), gaps[side], at)


def pairs(bench: Bench, values: Bound, most: Number) -> Iterator[Edges]:
    """Yield the neighbours among the statement's `boards`, in turn; those further apart than `most` are told."""
    paths = values["boards"]
    for first, second in pairwise(paths):
        one, two = bench.part(first), bench.part(second)
        found = edges(one, two)
        if found is None:
            message = f"no edge of {first} lies along an edge of {second}"
            bench.fault(values, "boards", "edges-do-not-meet", message, "boards side by side, in their order")
        elif float(found.gap) >= float(most):
            message = f"{first} stands {figure(found.gap)} away from {second}, further than the joint bridges"
            fault(values, "boards", "edges-do-not-meet", message, "boards that touch, or nearly", on=bench)
        else:
            yield found


def flush_is_a_face(bench: Bench, values: Bound) -> bool:
    """Tell whether the face that a tongue or groove is flush with or measured from is a broad one; else say so."""
    first = bench.part(values["boards"][0])
    if values["flush"] is not None and first.face(values["flush"]).axis != 2:
        faces = " or ".join(first.word(Face(2, side)) for side in (0, 1))
        bench.fault(values, "flush", "flush-face", f"{values['flush']} is no broad face of {first.path}", faces)
        return False
    return True
