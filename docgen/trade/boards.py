"""Lumber as it is bought: board feet, quarters, what surfacing leaves, rough sizes. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from docgen.tables import rows
from docgen.trade.names import INCH, UnknownName, number
from docgen.units import Number

SAME = Fraction(1, 10**6)
"""Of a step: rounding of a length that was worked out."""

BOARD_FOOT = 144 * INCH**3
"""Cubic millimetres in a board foot: 144 cubic inches, measured rough."""


@dataclass(frozen=True, slots=True)
class Quarters:
    """A thickness of hardwood lumber; mm. `surfaced` is planed on both sides, `one` on one (None: not listed)."""

    name: str
    rough: Fraction
    surfaced: Fraction
    one: Fraction | None


@cache
def quarters(name: str) -> Quarters:
    """Return the stock called "4/4", "5/4", …; `UnknownName` otherwise.

    Source: NHLA grading rules; Wood Handbook, Table 6-2. Many dealers surface 4/4 to 3/4 in: common practice.
    """
    for r in rows("lumber"):
        if r["quarters"] == name.strip():
            one = number(r["surfaced_one"]) * INCH if r["surfaced_one"] else None
            return Quarters(r["quarters"], number(r["rough"]) * INCH, number(r["surfaced_two"]) * INCH, one)
    raise UnknownName("quarter thickness", name, (r["quarters"] for r in rows("lumber")))


def board_feet(thickness: Number, width: Number, length: Number) -> float:
    """Return board feet of a rough size in mm. Stock under 1 in counts as 1 in (surface measure, from memory).

    Source: 144 cubic inches a board foot; surfaced stock counts at its rough thickness.
    """
    return float(max(thickness, INCH) * width * length / BOARD_FOOT)


def flattening(bought: str, thickness: Number) -> Number:
    """Return what is left to flatten (mm) when surfaced `bought` stock is planed to `thickness`; below 0: too thin."""
    return quarters(bought).surfaced - thickness


@dataclass(frozen=True, slots=True)
class Trim:
    """What a rough size adds to the finished one, mm. Common practice."""

    length: Fraction
    width: Fraction


TRIM = {"inch": Trim(INCH, INCH / 4), "mm": Trim(Fraction(25), Fraction(6))}
"""Added to cut rough: 1 in and 1/4 in, or 25 mm and 6 mm. Common practice."""


ROUGH_STEP = {"inch": INCH / 8, "mm": Fraction(1)}
"""What is sawn in the rough is told in whole eighths of an inch, or whole millimetres, rounded up. Common practice."""

PLANED = {"inch": INCH / 4, "mm": Fraction(6)}
"""What milling takes off the thickness of rough boards, both faces together: 1/4 in, or 6 mm. Common practice: 4/4 for 3/4."""

USUAL_WIDTH = {"inch": 8 * INCH, "mm": Fraction(200)}
"""Widest board that is counted on where the stock's width is not stated: 8 in, or 200 mm. Common practice; dealers differ."""


def rough_size(length: Number, width: Number, system: str) -> tuple[Number, Number]:
    """Return rough (length, width) in mm for a finished one; `system` is inch or mm. Common practice."""
    trim = TRIM[system]
    return in_the_rough(length + trim.length, system), in_the_rough(width + trim.width, system)


def in_the_rough(mm: Number, system: str) -> Number:
    """Return a size, mm, rounded up to what one saws to in the rough."""
    step = ROUGH_STEP[system]
    return step * math.ceil(Fraction(mm) / step - SAME)
