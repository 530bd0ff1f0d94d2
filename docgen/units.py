"""Quantities: lengths in millimetres as exact fractions, angles in degrees, plain numbers.

Lengths stay exact until the first root or angle function makes a float of them. What is printed is exact,
or says that it is not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

Number: TypeAlias = Fraction | float

MM_PER = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10), "ft": Fraction(3048, 10)}
# One pound is 0.45359237 kg exactly. Source: international yard and pound agreement of 1959.
KG_PER = {"kg": Fraction(1), "g": Fraction(1, 1000), "lb": Fraction(45359237, 100000000)}

SLASH = "\u2044"  # between the digits of a stacked fraction
MINUS = "\u2212"
FINE = Fraction(1, 64)  # of an inch: the finest line of a shop rule, the step of drills and bits
HAIR = Fraction(1, 125)  # of an inch, about half of FINE: what is off a division by more is nearer to a finer one
TAPE = FINE / 4  # of an inch: by less no mark is set beside a line of a tape
LEAST = Fraction(1, 2000)  # of an inch: less does not show in three decimals
SMALL = (Fraction(1, 10), Fraction(1, 20), Fraction(1, 100))  # mm: how finely a tolerance is told
SAME_MM = Fraction(1, 1_000_000)  # floats this close to the grid count as on it: solids are snapped to the same


class Kind(StrEnum):
    """What a quantity measures."""

    NUMBER = "number"
    LENGTH = "length"
    ANGLE = "angle"
    AREA = "area"  # only between the factors of a formula: a product of two lengths, mm²
    MASS = "mass"  # kg


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value of one kind: mm for lengths, degrees for angles, kg for masses."""

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

    @property
    def mm(self) -> Fraction:
        """How many millimetres a bare 1 is."""
        return MM_PER["in"] if self.system == "inch" else MM_PER["mm"]

    @property
    def sign(self) -> str:
        """The unit as written behind a number: "in" or "mm"."""
        return "in" if self.system == "inch" else "mm"


@lru_cache(maxsize=1 << 12, typed=True)  # the same figures stand on many sheets; a float is told apart from its equal
def format_length(mm: Number, units: Units, *, rest: bool = True) -> str:
    """Return a length as it is printed, without its unit: ``11 7⁄8``, ``11.871 ≈ 11 7⁄8 − 0.004``, ``302.4``, ``≈302.4``.

    This is the one way in which a figure that is worked or measured to is told, wherever it stands: on a dimension line, in
    a list, in a sentence. What lies on a sixty-fourth of an inch is told so on a coarser grid too: 21⁄64 is no 5⁄16, and 17⁄64
    no 1⁄4. What lies on none is told for a calliper, and for a tape by the line beside it, with what that leaves out where a
    mark could be set beside the line by as much (TAPE). Without `rest` the decimal stands alone: in a size of several
    figures, ``a × b``, a sum would be read wrong, and with the line alone one figure would be told in two ways. The fraction's digits
    stand around U+2044, a minus is U+2212.
    """
    size, near, off, negative = _split(mm, units)
    if units.system == "inch":
        return _inches(size, near, off, negative=negative, rest=rest)
    text = _decimal(size, near, off, units.finest)
    return _negative(text) if negative else text


def near_length(mm: Number, units: Units) -> str:
    """Return a length for an overview, which nobody works to: the nearest division alone, ``≈11 7⁄8`` where it is off that."""
    size, near, off, negative = _split(mm, units)
    if units.system == "mm" or near == 0 or min(abs(size - near), abs(size - _line(size))) <= off:
        return format_length(mm, units)
    return f"≈{MINUS if negative else ''}{_mixed(near)}"


def _split(mm: Number, units: Units) -> tuple[Fraction, Fraction, Fraction, bool]:
    """Return size and nearest division in the unit, what still counts as on a division, and whether it is negative."""
    if isinstance(mm, float) and not math.isfinite(mm):
        raise ValueError(f"no length: {mm}")
    size = abs(exact(mm)) / units.mm
    off = SAME_MM / units.mm if isinstance(mm, float) else Fraction(0)
    return size, round(size / units.finest) * units.finest, off, mm < 0 and size > off


def set_length(mm: Number, units: Units) -> str:
    """Return a length that is set or measured with a calliper, with its unit: ``0.746 ≈ 3⁄4 − 0.004 in``, ``5.75 mm``.

    A fit that the finest division would swallow is told in millimetres too: by half a division more; what is no larger than
    two divisions, as a tolerance is, to a hundredth.
    """
    half = units.finest / 2
    size, _, off, _ = _split(mm, units)
    steps = (half, *(step for step in SMALL if step < half)) if size <= 2 * units.finest else (half,)
    step = next((s for s in steps if abs(size - round(size / s) * s) <= off), None)
    told = Units("mm", step) if units.system == "mm" and step is not None else units
    return f"{format_length(mm, told)} {units.sign}"


def plain_length(mm: Number, units: Units, *, rest: bool = True) -> str:
    """Return a length as prose says it: the same in plain characters, ``11 7/8``, ``-3``, ``0.383 ≈ 3/8 + 0.008``."""
    return format_length(mm, units, rest=rest).replace(SLASH, "/").replace(MINUS, "-")


def unit_length(mm: Number, units: Units) -> str:
    """Return a length with its unit as prose says it: ``11 7/8 in``, ``-3 mm``."""
    return f"{plain_length(mm, units)} {units.sign}"


def told_near(units: Units) -> str:
    """Return what ≈ means in the figures of a packet, for the page that explains its signs."""
    if units.system == "mm":
        return f"rounded to {_trimmed(units.finest, 3)} mm"
    return (
        f"on no line of the rule: the decimal rules, then the nearest line, and what to add or take off where it is over "
        f"{_mixed(TAPE)} in; a figure with ≈ before it is rounded"
    )


def format_angle(degrees: Number) -> str:
    """Return an angle with as many decimals as it needs, at most two: ``12°``, ``17.8°``, ``≈17.78°``."""
    if isinstance(degrees, float) and not math.isfinite(degrees):
        raise ValueError(f"no angle: {degrees}")
    size = abs(exact(degrees))
    off = Fraction(1, 1_000_000) if isinstance(degrees, float) else Fraction(0)
    places = next((n for n in (0, 1, 2) if abs(round(size, n) - size) <= off), None)
    text = f"≈{_fixed(size, 2)}" if places is None else _fixed(size, places)
    return f"{text if degrees >= 0 or size <= off else _negative(text)}°"


def format_number(value: Number) -> str:
    """Return a plain number with as many decimals as it needs, at most three: ``5``, ``0.25``, ``≈0.333``."""
    size = abs(exact(value))
    off = Fraction(1, 1_000_000_000) if isinstance(value, float) else Fraction(0)
    places = next((n for n in (0, 1, 2, 3) if abs(round(size, n) - size) <= off), None)
    text = f"≈{_fixed(size, 3)}" if places is None else _fixed(size, places)
    return text if value >= 0 or size <= off else _negative(text)


def format_quantity(quantity: Quantity, units: Units) -> str:
    """Return a quantity with its unit, as a message says it: ``11 7/8 in``, ``12°``, ``5``, ``30 kg``."""
    match quantity.kind:
        case Kind.LENGTH:
            return unit_length(quantity.value, units)
        case Kind.ANGLE:
            return format_angle(quantity.value)
        case Kind.AREA:
            return f"{format_number(quantity.value)} mm²"
        case Kind.MASS:
            return f"{format_number(quantity.value)} kg"
        case Kind.NUMBER:
            return format_number(quantity.value)


def exact(value: Number) -> Fraction:
    """Return the value as a fraction; floats as the binary fraction that they are."""
    return value if isinstance(value, Fraction) else Fraction(value)


def _line(size: Fraction) -> Fraction:
    """Return the nearest line of a shop rule."""
    return round(size / FINE) * FINE


def _inches(size: Fraction, near: Fraction, off: Fraction, *, negative: bool, rest: bool) -> str:
    """Return a size in inches; `near` is the nearest division, `off` what still counts as on it."""
    line = _line(size)
    sign = MINUS if negative else ""
    for grid in (near, line):
        if abs(size - grid) <= off:
            return sign + _mixed(grid)
    if near == 0:  # a fit finer than the finest fraction is told as a decimal
        text = _significant(size, off)
        return _negative(text) if negative else text
    base = line if abs(size - near) > HAIR else near
    if abs(size - base) <= LEAST:  # three decimals would show the same number twice
        return f"≈{sign}{_mixed(base)}"
    if not rest:
        return f"{sign}{_fixed(size, 3)}"
    text = f"{sign}{_fixed(size, 3)} ≈ {sign}{_mixed(base)}"
    more = "+" if (size > base) is not negative else MINUS
    return f"{text} {more} {_fixed(abs(size - base), 3)}" if abs(size - base) > TAPE else text


def _decimal(size: Fraction, near: Fraction, off: Fraction, finest: Fraction) -> str:
    """Return a size >= 0 in millimetres on a decimal grid."""
    places = next((n for n in range(5) if (finest * 10**n).denominator == 1), 4)
    if abs(size - near) <= off:
        return _trimmed(near, places)
    if near == 0:
        return _significant(size, off)
    return f"≈{_trimmed(near, places)}"


def _mixed(inches: Fraction) -> str:
    """Return whole and fraction parts: ``11 7⁄8``, ``7⁄8``, ``11``, ``0``."""
    whole, rest = divmod(inches, 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join(parts + ([f"{rest.numerator}{SLASH}{rest.denominator}"] if rest else []))


def _significant(size: Fraction, off: Fraction) -> str:
    """Return a small size to two figures that count: ``0.01``, ``≈0.0067``."""
    for places in range(1, 9):
        if abs(round(size, places) - size) <= off:
            return _fixed(size, places)
        if size * 10**places >= 10:
            break
    return f"≈{_fixed(size, places)}"


def _trimmed(value: Fraction, places: int) -> str:
    text = _fixed(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _fixed(value: Fraction, places: int) -> str:
    """Return value >= 0 with so many decimals, rounded half to even, without a float on the way."""
    ticks = round(value * 10**places)
    whole, rest = divmod(ticks, 10**places)
    return f"{whole}.{rest:0{places}d}" if places else str(whole)


def _negative(text: str) -> str:
    """Put a minus before the number of a text: ``≈0.0067``."""
    head, about, tail = text.rpartition("≈")
    return f"{head}{about}{MINUS}{tail}"
