"""What sums, products and functions of quantities are, and which kinds go together.

Sums, products and quotients of exact fractions stay exact; roots and angle functions give floats.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

from docgen.units import Kind, Number, Quantity, Units

MOST_BITS = 2048  # of a fraction's numerator and denominator together: squaring a size again and again ends here
LARGEST = 10**30  # of any value: a fraction under it is a float too

_SAID = {
    Kind.NUMBER: "a plain number",
    Kind.LENGTH: "a length",
    Kind.ANGLE: "an angle",
    Kind.AREA: "an area",
    Kind.MASS: "a mass",
}

# Sines that the float series misses by a hair: 0, a half and 1, and equal ones for tan 45 = 1.
_DIAGONAL = math.sqrt(0.5)
_SINES = {
    **{0: 0.0, 30: 0.5, 45: _DIAGONAL, 90: 1.0, 135: _DIAGONAL, 150: 0.5},
    **{180: 0.0, 210: -0.5, 225: -_DIAGONAL, 270: -1.0, 315: -_DIAGONAL, 330: -0.5},
}


class KindFault(ValueError):
    """Quantities that do not go together, or a result that does not exist; `code` is the problem's code."""

    def __init__(self, code: str, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.code, self.message, self.hint = code, message, hint


def as_length(quantity: Quantity, units: Units | None) -> Number:
    """Return mm; a plain number counts in the file's unit. KindFault for other kinds."""
    if quantity.kind is Kind.LENGTH:
        return quantity.value
    if quantity.kind is Kind.NUMBER:
        if units is None and quantity.value != 0:
            raise KindFault("no-unit", "a plain number stands where a length is needed, and no unit is known")
        return _kept(quantity.value * units.mm) if units else quantity.value
    raise KindFault("wrong-kind", f"{_SAID[quantity.kind]} stands where a length is needed")


def as_angle(quantity: Quantity) -> Number:
    """Return degrees; a plain number counts as degrees. KindFault for other kinds."""
    if quantity.kind in (Kind.ANGLE, Kind.NUMBER):
        return quantity.value
    raise KindFault("wrong-kind", f"{_SAID[quantity.kind]} stands where an angle is needed", "write it as 14 deg")


def as_plain(quantity: Quantity) -> Number:
    """Return a plain number. KindFault for other kinds."""
    if quantity.kind is Kind.NUMBER:
        return quantity.value
    raise KindFault("wrong-kind", f"{_SAID[quantity.kind]} stands where a plain number is needed")


def as_mass(quantity: Quantity) -> Number:
    """Return kg. KindFault for other kinds, plain numbers too: 30 could be kilograms or pounds."""
    if quantity.kind is Kind.MASS:
        return quantity.value
    raise KindFault("wrong-kind", f"{_SAID[quantity.kind]} stands where a mass is needed", "write it as 30 kg or 66 lb")


def taken_as(quantity: Quantity, kind: Kind, units: Units | None) -> Quantity:
    """Return the quantity as one of `kind`; KindFault when it is none."""
    match kind:
        case Kind.LENGTH:
            return Quantity(as_length(quantity, units), kind)
        case Kind.ANGLE:
            return Quantity(as_angle(quantity), kind)
        case Kind.MASS:
            return Quantity(as_mass(quantity), kind)
        case Kind.NUMBER:
            return Quantity(as_plain(quantity), kind)
        case Kind.AREA:
            raise KindFault("wrong-kind", "an area stands by itself nowhere in the file")


def add(a: Quantity, b: Quantity, units: Units | None) -> Quantity:
    """Return the sum; a plain number takes the file's unit beside a length, degrees beside an angle."""
    a, b = alike(a, b, units, "added to")
    return Quantity(_kept(a.value + b.value), a.kind)


def subtract(a: Quantity, b: Quantity, units: Units | None) -> Quantity:
    """Return the difference, with kinds as in `add`."""
    a, b = alike(a, b, units, "set against")
    return Quantity(_kept(a.value - b.value), a.kind)


def alike(a: Quantity, b: Quantity, units: Units | None, verb: str) -> tuple[Quantity, Quantity]:
    """Return both as one kind; KindFault when they are not."""
    if a.kind is b.kind:
        return a, b
    if a.kind is Kind.NUMBER and b.kind in (Kind.LENGTH, Kind.ANGLE):
        return taken_as(a, b.kind, units), b
    if b.kind is Kind.NUMBER and a.kind in (Kind.LENGTH, Kind.ANGLE):
        return a, taken_as(b, a.kind, units)
    raise KindFault("wrong-kind", f"{_SAID[b.kind]} cannot be {verb} {_SAID[a.kind]}")


def multiply(a: Quantity, b: Quantity) -> Quantity:
    """Return the product; two lengths give an area."""
    value = _kept(a.value * b.value)
    if a.kind is Kind.NUMBER or b.kind is Kind.NUMBER:
        return Quantity(value, b.kind if a.kind is Kind.NUMBER else a.kind)
    if a.kind is b.kind is Kind.LENGTH:
        return Quantity(value, Kind.AREA)
    raise KindFault("wrong-kind", f"{_SAID[a.kind]} cannot be multiplied by {_SAID[b.kind]}")


def divide(a: Quantity, b: Quantity) -> Quantity:
    """Return the quotient; equal kinds give a plain number."""
    kinds = (a.kind, b.kind)
    if b.kind is not Kind.NUMBER and a.kind is not b.kind and kinds != (Kind.AREA, Kind.LENGTH):
        hint = "write a fraction of a unit without spaces, 3/8 in, and give the upper number its unit"
        hint = hint if kinds == (Kind.NUMBER, Kind.LENGTH) else ""
        raise KindFault("wrong-kind", f"{_SAID[a.kind]} cannot be divided by {_SAID[b.kind]}", hint)
    if b.value == 0:
        raise KindFault("division-by-zero", "the divisor is 0")
    value = _kept(a.value / b.value)
    if b.kind is Kind.NUMBER:
        return Quantity(value, a.kind)
    return Quantity(value, Kind.LENGTH if kinds == (Kind.AREA, Kind.LENGTH) else Kind.NUMBER)


def negate(a: Quantity) -> Quantity:
    """Return the quantity with its sign turned."""
    value: Number = -a.value
    return Quantity(value, a.kind)


def magnitude(a: Quantity) -> Quantity:
    """Return the quantity without its sign."""
    return Quantity(a.value if a.value >= 0 else -a.value, a.kind)


def root(a: Quantity) -> Quantity:
    """Return the square root: of an area a length, of a plain number a plain number."""
    if a.kind not in (Kind.NUMBER, Kind.AREA):
        raise KindFault(
            "wrong-kind", f"{_SAID[a.kind]} has no root here", "a root is taken of an area or a plain number"
        )
    if a.value < 0:
        raise KindFault("no-result", "the root of a number below 0 does not exist")
    return Quantity(math.sqrt(a.value), Kind.LENGTH if a.kind is Kind.AREA else Kind.NUMBER)


def sine(a: Quantity) -> Quantity:
    """Return the sine of an angle."""
    return Quantity(_sine(as_angle(a)), Kind.NUMBER)


def cosine(a: Quantity) -> Quantity:
    """Return the cosine of an angle."""
    return Quantity(_sine(as_angle(a) + 90), Kind.NUMBER)


def tangent(a: Quantity) -> Quantity:
    """Return the tangent of an angle; KindFault at 90 degrees."""
    degrees = as_angle(a)
    low = _sine(degrees + 90)
    if low == 0:
        raise KindFault("no-result", "the tangent of 90 degrees does not exist")
    return Quantity(float(_sine(degrees) / low), Kind.NUMBER)


def arc(function: Callable[[float], float], name: str) -> Callable[[Quantity], Quantity]:
    """Return the function that gives the angle in degrees for a ratio."""

    def angle(a: Quantity) -> Quantity:
        ratio = float(as_plain(a))
        if name != "atan" and abs(ratio) > 1:
            raise KindFault("no-result", f"{name} is taken of a ratio from -1 to 1, here it is {ratio:.6g}")
        return Quantity(math.degrees(function(ratio)), Kind.ANGLE)

    return angle


def _sine(degrees: Number) -> float:
    turn = degrees % 360
    known = _SINES.get(int(turn)) if turn == int(turn) else None
    return known if known is not None else math.sin(math.radians(turn))


def _kept(value: Number) -> Number:
    """Return the value if it is of a size that furniture has; KindFault otherwise."""
    if isinstance(value, Fraction):
        too_long = value.numerator.bit_length() + value.denominator.bit_length() > MOST_BITS
    else:
        too_long = not math.isfinite(value)
    if too_long or not -LARGEST <= value <= LARGEST:
        raise KindFault(
            "number-too-large", "the result is larger, or has more digits, than any piece of furniture needs"
        )
    return value
