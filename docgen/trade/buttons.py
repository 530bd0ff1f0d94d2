"""Buttons that hold a solid top down and let it move. Lengths in mm, moisture in per cent."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from docgen.trade.movement import change
from docgen.units import Number

SWING = 4.0
"""Per cent of moisture that wood indoors goes through in a year: 6 to 10. Source: Wood Handbook, chapter 13, from memory."""

HOLD = 3
"""mm of a button's tongue that must stay in its slot at the worst, about 1/8 in. Common practice."""

DRAW = {"inch": Fraction(254, 320), "mm": Fraction(1)}
"""mm: how much lower the slot lies than the button, so that its screw draws the top down: 1/32 in or 1 mm. Common practice."""

PLAY = {"inch": Fraction(254, 640), "mm": Fraction(1, 2)}
"""mm: what the tongue is thinner than its slot: 1/64 in or 0.5 mm. Common practice."""


@dataclass(frozen=True, slots=True)
class Seat:
    """How a button sits that moves toward and away from its apron by `move`; mm.

    `gap` is left between button and apron, `enters` of the tongue is in the slot on the day, `least` at the driest, and
    `deepest` at the dampest.
    """

    gap: Number
    enters: Number
    least: float
    deepest: float


def move(distance: Number, coefficient: float, swing: float) -> float:
    """Return how far a point of the top, `distance` across the grain from where it is held, may move either way, mm.

    Whatever the moisture on the day, the whole swing may lie ahead: D · C · swing (Equation 13-2, Wood Handbook).
    """
    return abs(change(distance, coefficient, 0.0, swing))


def seat(tongue: Number, moves: float, step: Fraction) -> Seat:
    """Return the seat of a button with a tongue `tongue` long: the gap is the movement, rounded up to `step`. Arithmetic."""
    gap = math.ceil(round(moves / float(step), 6)) * step
    enters = tongue - gap
    return Seat(gap, enters, float(enters) - moves, float(enters) + moves)


def places(length: Number, ends: Number, spacing: Number) -> tuple[Number, ...]:
    """Return where buttons stand along an apron: `ends` from both ends, and between no further apart than `spacing`."""
    between = length - 2 * ends
    if between <= 0:
        return (length / 2,)
    count = max(1, math.ceil(round(float(between / spacing), 6)))
    return tuple(ends + between * i / count for i in range(count + 1))
