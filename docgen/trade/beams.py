"""Sag of shelves and rails. N, mm, MPa (N/mm²)."""

from __future__ import annotations

from docgen.units import Number

GRAVITY = 9.80665
"""Standard gravity, m/s²."""

CREEP = 2.0
"""Wood under a load that stays sags in time to about twice the first figure. Source: Wood Handbook, chapter 5 (creep), from memory."""


def second_moment(width: Number, thickness: Number) -> float:
    """Return b · h³ / 12 in mm⁴, for a board lying flat."""
    return float(width) * float(thickness) ** 3 / 12.0


def sag_uniform(load: float, span: Number, modulus: float, inertia: float) -> float:
    """Return the sag in mm at mid-span of a simply supported beam under `load` N spread evenly.

    5 · W · L³ / (384 · E · I), bending term only. Source: Wood Handbook, Equation 9-2, k_b = 5/384.
    """
    return 5.0 * load * float(span) ** 3 / (384.0 * modulus * inertia)
