"""Rounded corners: rabbets left round by a bearing, what nests in them, the lip, big round-overs. mm."""

from __future__ import annotations

import math

from docgen.units import Number

ROOT2 = math.sqrt(2.0)


def rabbet_radius(bearing_radius: Number, rabbet: Number) -> Number:
    """Return the radius a bearing-guided bit leaves in a rabbet's corner, mm: bearing radius + rabbet width. Geometry."""
    return bearing_radius + rabbet


def even_lip_radius(thickness: Number, bearing_radius: Number) -> Number:
    """Return the outside radius at which the lip beside the rabbet is even all round, mm: T + bearing radius."""
    return thickness + bearing_radius


def lip(thickness: Number, rabbet: Number, outside: Number, rabbet_corner: Number) -> float:
    """Return the width of the lip on the corner's diagonal, mm; along the sides it is T − w.

    (T − w) · √2 + (r_c − R) · (√2 − 1). Geometry.
    """
    along = float(thickness) - float(rabbet)
    return along * ROOT2 + (float(rabbet_corner) - float(outside)) * (ROOT2 - 1.0)
