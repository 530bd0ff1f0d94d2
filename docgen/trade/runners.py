"""Wooden runners at the sides of a drawer: usual room round them, and heads sunk into a thin strip. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from docgen.trade.fasteners import HEAD, WoodScrew
from docgen.units import Number

PLAY = {"inch": Fraction(254, 640), "mm": Fraction(1, 2)}
"""mm that a groove is wider and deeper than its strip: 1/64 in or 0.5 mm. Common practice."""

CLEARANCE = {"inch": Fraction(254, 320), "mm": Fraction(1)}
"""mm between a drawer's side and the part beside it: 1/32 in or 1 mm. Common practice."""

ABOVE = {"inch": Fraction(254, 160), "mm": Fraction(2)}
"""mm to leave above the sides of a drawer that slides on wood: 1/16 in or 2 mm. Common practice."""

ENDS = {"inch": Fraction(254, 10), "mm": Fraction(25)}
"""mm from a strip's ends to its first and last screw: 1 in or 25 mm. Common practice."""

BEHIND = {"inch": Fraction(254, 80), "mm": Fraction(3)}
"""mm that a strip ends before the back of its opening, so that a case that shrinks does not push it out: 1/8 in or 3 mm. Common
practice."""

BEFORE = {"inch": Fraction(254, 80), "mm": Fraction(3)}
"""mm that a stopped groove goes on before its strip, where the front and not the strip stops the drawer. Common practice."""

LEFT = {"inch": Fraction(254, 80), "mm": Fraction(3)}
"""mm that a strip which stops its drawer is left long at the front, to be pared: 1/8 in or 3 mm. Common practice."""

LEAST_STOP = {"inch": Fraction(254, 40), "mm": Fraction(6)}
"""mm behind a drawer's box that a stop block takes at least: 1/4 in or 6 mm, else it splits. Common practice."""

TRAVELS = 1
"""mm that the bore over a head is wider than it, so that it moves freely. Common practice."""

HIGH = Fraction(3, 4)
"""Of the shank: how deep a pan head is sunk; the head is about 0.7 of the shank high. Common practice."""

LEAST_PLAY, MOST_PLAY = 0.4, 1.0
"""mm of play in height: less binds on a damp day, more lets the drawer droop and rattle. Common practice."""

LEAST_WALL = 6.0
"""mm of a drawer's side to leave behind its groove, about 1/4 in. Common practice."""

LEAST_UNDER, LEAST_BESIDE = 3.0, 2.0
"""mm of a strip to leave under a sunk head, and above and below it. Common practice."""


@dataclass(frozen=True, slots=True)
class Bore:
    """A flat-bottomed bore that sinks a pan head: its diameter and depth, mm."""

    diameter: Number
    depth: Number


def up_to(value: Number, step: Fraction) -> Number:
    """Return the next whole `step` that is no less than `value`."""
    return math.ceil(round(float(value / step), 6)) * step


def bore(screw: WoodScrew, step: Fraction) -> Bore:
    """Return the bore for a pan head: twice the shank and a millimetre across, 3/4 of it deep; common practice."""
    return Bore(up_to(HEAD * screw.shank + TRAVELS, step), up_to(screw.shank * HIGH, step))


def places(length: Number, ends: Number, count: int, step: Fraction) -> tuple[Number, ...]:
    """Return where screws stand along a strip, from its front end: `ends` from both ends, those between to the nearest `step`."""
    if count == 1 or length <= 2 * ends:
        return (ends,)
    apart = (length - 2 * ends) / (count - 1)
    between = (round(float((ends + apart * n) / step)) * step for n in range(1, count - 1))
    return (ends, *between, length - ends)
