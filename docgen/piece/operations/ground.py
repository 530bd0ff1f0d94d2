"""Points, directions and sizes on the faces of a part, as the operations need them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from docgen.geometry.shapes import Vec
from docgen.piece.faults import Fault, figure
from docgen.piece.model import Part
from docgen.piece.records import Axis, Face, Size, SizeKind
from docgen.units import Number

OVER = 1.0
"""How far a cutter reaches beyond an open side, mm."""

SAME = 1e-6
"""Lengths closer than this are the same, mm."""


def axis(i: Axis, sign: float = 1.0) -> Vec:
    """Return the unit vector along part axis `i`, or against it."""
    return (sign * (i == 0), sign * (i == 1), sign * (i == 2))


def spot(values: dict[Axis, Number]) -> Vec:
    """Return the point with the given coordinates; axes that are absent are 0."""
    return (float(values.get(0, 0)), float(values.get(1, 0)), float(values.get(2, 0)))


def in_plane(face: Face) -> tuple[Axis, Axis]:
    """Return the two axes that lie in `face`, in rising order."""
    u, v = (i for i in range(3) if i != face.axis)
    return u, v


def third(a: Axis, b: Axis) -> Axis:
    """Return the axis that is neither `a` nor `b`."""
    return 3 - a - b


def level(part: Part, face: Face) -> Number:
    """Return where the nominal `face` stands on its axis, mm."""
    return part.size[face.axis] if face.side else 0


def outward(face: Face) -> float:
    """Return +1 for a high face and −1 for a low one."""
    return 1.0 if face.side else -1.0


def inside(part: Part, face: Face, depth: Number) -> Number:
    """Return the coordinate that lies `depth` under the nominal `face`."""
    return part.size[face.axis] - depth if face.side else depth


def bite(part: Part, face: Face, depth: Number) -> tuple[float, float]:
    """Return the low and high of a cutter that goes `depth` into `face` and starts outside it."""
    if face.side:
        return float(inside(part, face, depth)), float(part.size[face.axis]) + OVER
    return -OVER, float(depth)


def run_out(part: Part, along: Axis, start: Number | None, stop: Number | None) -> tuple[float, float]:
    """Return a cutter's low and high along a run; an open end reaches beyond the blank."""
    low, high = part.span(along)
    return (
        float(low) - OVER if start is None else float(start),
        float(high) + OVER if stop is None else float(stop),
    )


def open_ended(part: Part, along: Axis, low: Number, high: Number) -> tuple[float, float]:
    """Return (low, high) with any end that reaches the nominal face pushed beyond the blank."""
    first, last = part.span(along)
    return (
        float(first) - OVER if low <= SAME else float(low),
        float(last) + OVER if high >= part.size[along] - SAME else float(high),
    )


def exactly(value: Number) -> Number:
    """Return a number as it is where it is exact, else `settled`."""
    return value if isinstance(value, (int, Fraction)) else settled(value)


def settled(value: float) -> Number:
    """Return `value` as the exact 1/128 in, 1/100 mm or 1/100 degree that it is within 1e-7, or as it is.

    Lengths that went through a turn and came back carry noise in the 13th digit; printed, it would read as an
    inexact figure.
    """
    for step in (Fraction(254, 1280), Fraction(1, 100)):
        n = round(value / float(step))
        if abs(value - n * float(step)) < 1e-7:
            return n * step
    return value


def positive(value: Number) -> Number:
    """Return the value without its sign, exact if it was."""
    return value if value >= 0 else -value


def tangent(degrees: Number) -> float:
    """Return the tangent of an angle in degrees."""
    return math.tan(math.radians(float(degrees)))


def length(
    start: Vec,
    end: Vec,
    along: Vec,
    value: Number,
    parameters: tuple[str, ...],
    face: Face | None,
    **more: Any,
) -> Size:
    """Return a length size."""
    return Size(SizeKind.LENGTH, start, end, along, value, parameters, face, **more)


def several(count: int, what: str) -> str:
    """Return what stands before a figure that holds so often: "3× spacing", and "spacing" where there is one."""
    return f"{count}× {what}" if count > 1 else what


def need(condition: bool, code: str, message: str, field: str, expected: str = "") -> None:
    """Raise a `Fault` unless `condition` holds."""
    if not condition:
        raise Fault(code, message, field, expected)


def need_floor(part: Part, face: Face, depth: Number, what: str) -> None:
    """Raise a `Fault` unless a cut that is `depth` deep in a face leaves a floor of wood."""
    thick = part.size[face.axis]
    need(
        0 < depth < thick,
        "depth-range",
        f"the {what} is {figure(depth)} deep in {figure(thick)}",
        "depth",
        "less than the thickness",
    )


def within(part: Part, along: Axis, low: Number, high: Number, what: str, field: str) -> None:
    """Raise a `Fault` unless low–high lies inside the blank on `along`."""
    first, last = part.span(along)
    if low < first - SAME or high > last + SAME:
        name = ("length", "width", "thickness")[along]
        raise Fault(
            "outside-part",
            f"the {what} reaches from {figure(low)} to {figure(high)} on the {name} of {part.path}, "
            f"which goes from {figure(first)} to {figure(last)}",
            field,
            "a place inside the part",
        )


@dataclass(frozen=True, slots=True)
class Ground:
    """A face to measure on: points by their coordinates on its two axes in rising order, and a depth under it."""

    part: Part
    face: Face

    @property
    def axes(self) -> tuple[Axis, Axis]:
        """Return the two axes that lie in the face."""
        return in_plane(self.face)

    def at(self, a: Number, b: Number, depth: Number = 0) -> Vec:
        """Return the point at (a, b) of the face, `depth` under it."""
        u, v = self.axes
        return spot({u: a, v: b, self.face.axis: inside(self.part, self.face, depth)})

    @property
    def inward(self) -> Vec:
        """Return the direction into the wood."""
        return axis(self.face.axis, -outward(self.face))
