"""Dovetails: slope as a ratio or an angle, and how tails and pins share a board's width. Lengths in mm, angles in degrees."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from docgen.trade.names import number
from docgen.units import Number

HARDWOOD, SOFTWOOD = "1:8", "1:6"
"""Usual slopes: flatter in hardwood, steeper in softwood. Common practice."""

STEEPEST, FLATTEST = 15.0, 5.0
"""Degrees: steeper tails have short grain that breaks off at their corners, flatter ones hold like fingers. Common practice."""

CHISEL = {"inch": Fraction(254, 40), "mm": Fraction(6)}
"""mm: how far tails stand apart at their ends where nothing is said, a narrow chisel: 1/4 in or 6 mm. Common practice."""

_RATIO = re.compile(r"^\s*1\s*(?::|in)\s*(\d+(?:\.\d+)?)\s*$")
_DEGREES = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*(?:°|deg)\s*$")


@dataclass(frozen=True, slots=True)
class Slope:
    """The slope of a tail's sides: `degrees` from the length, `told` as the maker said it."""

    degrees: float
    told: str


def slope(text: str) -> Slope | None:
    """Return the slope written as "1:8", "1 in 8" or "8 deg"; None for anything else.

    1:n is one across to n along: atan(1 / n). Geometry.
    """
    ratio, angle = _RATIO.match(text), _DEGREES.match(text)
    if ratio and number(ratio[1]) > 0:
        return Slope(math.degrees(math.atan(1 / float(ratio[1]))), f"1:{ratio[1]}")
    if angle:
        return Slope(float(angle[1]), f"1:{1 / math.tan(math.radians(float(angle[1]))):.1f}" if float(angle[1]) else "")
    return None


@dataclass(frozen=True, slots=True)
class Layout:
    """Tails across a width, measured at their ends, where they are widest; mm.

    A half pin of `half` at each edge, `count` tails of `tail`, and between them pins of `pin`.
    """

    count: int
    half: Number
    tail: Number
    pin: Number

    @property
    def step(self) -> Number:
        """From one tail to the next."""
        return self.tail + self.pin

    def root(self, length: Number, degrees: float) -> float:
        """Return the width of a tail at its root, `length` behind its end: tail − 2 · length · tan slope. Geometry."""
        return float(self.tail) - 2 * float(length) * math.tan(math.radians(degrees))


def by_count(width: Number, count: int, *, pin: Number, half: Number) -> Layout:
    """Return `count` equal tails that share what the pins leave of `width`: (width − 2 half − (n − 1) pin) / n. Arithmetic."""
    return Layout(count, half, Fraction(1, count) * (width - 2 * half - (count - 1) * pin), pin)


def by_spacing(width: Number, spacing: Number, *, pin: Number, half: Number) -> Layout:
    """Return the equal tails whose step from tail to tail comes nearest to `spacing`."""
    count = max(1, round(float((width - 2 * half + pin) / spacing)))
    return by_count(width, count, pin=pin, half=half)
