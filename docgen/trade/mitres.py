"""Mitres: both readings of the scale, the gap of a wrong angle, wood left at rounded corners, frames. mm, degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass

from docgen.units import Number

ROOT2 = math.sqrt(2.0)


def readings(from_square: Number) -> tuple[Number, Number]:
    """Return the same cut as both scales read it: (from square, from the table or the fence), degrees. Geometry."""
    return from_square, 90 - from_square


def heel_gap(thickness: Number, error: float) -> float:
    """Return by how much the heel (or the outside) stands open when both mitres are `error` degrees off 45°, mm.

    2 · T · √2 · sin |e|: the heel opens when the tips are sharper than 45°, the outside when they are blunter. Geometry.
    """
    return 2.0 * float(thickness) * ROOT2 * math.sin(math.radians(abs(error)))


def corner_angle(error: float) -> float:
    """Return the angle at which a corner stands that is clamped shut with both mitres `error` degrees beyond 45°."""
    return 90.0 - 2.0 * error


def frame_error(error: float, rails: int = 4) -> float:
    """Return by how many degrees the last joint of a frame stands open: 2 · rails · e, eight cuts of a square frame."""
    return 2.0 * rails * error


@dataclass(frozen=True, slots=True)
class FrameSize:
    """One direction of a mitred frame; mm. `opening` in the rabbet, `sight` what is seen, `outside` long points."""

    opening: Number
    sight: Number
    outside: Number


def frame(pane: Number, *, clearance: Number, rabbet: Number, stock: Number) -> FrameSize:
    """Return the sizes of a frame round a pane, mm; `clearance` is a side, `stock` the rails' width.

    Opening = pane + 2 · clearance; sight = opening − 2 · rabbet; outside = sight + 2 · stock width. Common practice.
    """
    opening = pane + 2 * clearance
    sight = opening - 2 * rabbet
    return FrameSize(opening, sight, sight + 2 * stock)
