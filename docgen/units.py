"""Quantities: lengths in millimetres as exact fractions, angles in degrees, plain numbers.

Lengths stay exact until the first root or angle function makes a float of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

Number: TypeAlias = Fraction | float

MM_PER = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10), "ft": Fraction(3048, 10)}


class Kind(StrEnum):
    """What a quantity measures."""

    NUMBER = "number"
    LENGTH = "length"
    ANGLE = "angle"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value of one kind: mm for lengths, degrees for angles."""

    value: Number
    kind: Kind


@dataclass(frozen=True, slots=True)
class Units:
    """How bare numbers read and how lengths are printed.

    `system` is "inch" or "mm"; `finest` is the finest printed division in that unit
    (1/32 of an inch, 1/10 of a millimetre).
    """

    system: str = "mm"
    finest: Fraction = Fraction(1, 10)
