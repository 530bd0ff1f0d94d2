"""Clamps for a glue-up: pressure spreads at about 45°. Lengths in mm. Common practice throughout."""

from __future__ import annotations

import math

from docgen.units import Number


def greatest_spacing(reach: Number) -> Number:
    """Return the greatest distance between clamps: twice `reach`, jaw to nearest glue line, caul included."""
    return 2 * reach


def clamps(length: Number, reach: Number) -> int:
    """Return how many clamps a glue line of `length` needs, the outer ones within `reach` of its ends; at least 1."""
    if reach <= 0:
        raise ValueError("the distance from the jaw to the glue line must be above 0")
    return max(1, math.ceil(float(length) / float(greatest_spacing(reach)) - 1e-9))


def clock(*, faces: int, tenons: int, clamps: int, seconds: tuple[float, float, float]) -> float:
    """Return the time a glue-up takes, s: faces, tenons and clamps each times its `seconds`, against the open time."""
    return faces * seconds[0] + tenons * seconds[1] + clamps * seconds[2]
