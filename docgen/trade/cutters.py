"""Router cutters: diameters that are sold, speeds by diameter. mm, rpm, m/s. The speed marked on the cutter always rules."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from docgen.units import Number

SMALL = 25.4
"""Diameter in mm up to which a router bit may run at a router's full speed: 1 in. Common practice of makers' charts."""

HAND_MOST = 38.1
"""Widest cutter that is told for a router held by hand, mm: 1 1/2 in. Common practice; the manuals may allow less."""

PILOT = Fraction(254, 20)
"""Diameter of an ordinary pilot bearing, mm: 1/2 in. Common practice."""

WOOD_LEFT = "with the wood on the left of the travel"
"""How a router held by hand goes along an open edge: seen from above its cutter turns clockwise. Geometry of the cut."""

TABLE_WAY = ", from right to left past the front of the cutter"
"""How wood is fed on a router table: against the cutter's turn, the fence or the bearing behind it. Common practice."""

_MOST = ((25.4, 24000), (50.8, 18000), (63.5, 16000), (88.9, 12000))

BITS: dict[str, tuple[Number, ...]] = {
    "mm": (3, 4, 5, 6, 8, 10, 12, 14, 15, 16, 18, 20, 22, 24, 25),
    "inch": tuple(Fraction(254, 10) * Fraction(n, 16) for n in (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 20)),
}
"""Diameters in which straight router bits are usually sold, mm, by the unit of the file. Common practice, from memory."""

NO_MATTER = 0.05
"""mm by which a bit may differ from a width and still be the bit for it."""


def bits_beside(width: Number, sold: Sequence[Number]) -> tuple[Number | None, Number | None] | None:
    """Return the next smaller and the next larger diameter, each None where there is none; None where one fits as it is."""
    if any(abs(float(bit - width)) <= NO_MATTER for bit in sold):
        return None
    below, above = [b for b in sold if b < width], [b for b in sold if b > width]
    return max(below, default=None), min(above, default=None)


def router_for(radius: Number) -> str:
    """Return the machine for a bit of a radius with an ordinary bearing: a router held by hand, or a table for a large one."""
    return "router" if float(2 * radius + PILOT) <= HAND_MOST + 1e-6 else "router table"


def rim_speed(diameter: Number, rpm: float) -> float:
    """Return the speed of the cutting edge, m/s: π · d · n / 60 000. Geometry."""
    return math.pi * float(diameter) * rpm / 60000.0


def most_rpm(diameter: Number) -> int | None:
    """Return the usual upper speed for a cutter, None over 3 1/2 in: 24 000 to 1 in, 18 000 to 2, 16 000 to 2 1/2, 12 000.

    A fall-back, common practice of makers' charts: what is marked on the cutter or its packet rules.
    """
    return next((rpm for limit, rpm in _MOST if float(diameter) <= limit + 1e-9), None)
