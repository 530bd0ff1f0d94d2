"""Speeds of router cutters by diameter. mm, rpm, m/s. The speed marked on the cutter always rules."""

from __future__ import annotations

import math

from docgen.units import Number

SMALL = 25.4
"""Diameter in mm up to which a router bit may run at a router's full speed: 1 in. Common practice of makers' charts."""

_MOST = ((25.4, 24000), (50.8, 18000), (63.5, 16000), (88.9, 12000))


def rim_speed(diameter: Number, rpm: float) -> float:
    """Return the speed of the cutting edge, m/s: π · d · n / 60 000. Geometry."""
    return math.pi * float(diameter) * rpm / 60000.0


def most_rpm(diameter: Number) -> int | None:
    """Return the usual upper speed for a cutter, None over 3 1/2 in: 24 000 to 1 in, 18 000 to 2, 16 000 to 2 1/2, 12 000.

    A fall-back, common practice of makers' charts: what is marked on the cutter or its packet rules.
    """
    return next((rpm for limit, rpm in _MOST if float(diameter) <= limit + 1e-9), None)
