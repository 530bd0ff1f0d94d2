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


def sag_middle(load: float, span: Number, modulus: float, inertia: float) -> float:
    """Return the sag in mm under `load` N at mid-span: W · L³ / (48 · E · I). Source: as above, k_b = 1/48."""
    return load * float(span) ** 3 / (48.0 * modulus * inertia)


def stress_uniform(load: float, span: Number, width: Number, thickness: Number) -> float:
    """Return the bending stress in MPa at mid-span: (W · L / 8) / (b · h² / 6). Elementary beam theory."""
    return load * float(span) / 8.0 / (float(width) * float(thickness) ** 2 / 6.0)
