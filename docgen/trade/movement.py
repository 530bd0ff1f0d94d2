"""Seasonal movement of wood across the grain. Lengths in mm, moisture in per cent."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from docgen.tables import rows
from docgen.trade.names import UnknownName
from docgen.units import Number

VALID = (6.0, 14.0)
"""Moisture contents between which the coefficients hold. Source: Wood Handbook, FPL-GTR-190, chapter 13."""


@dataclass(frozen=True, slots=True)
class Movement:
    """Coefficients of one species per 1 % of moisture content; shrinkage from green to ovendry in per cent."""

    species: str
    radial: float  # quarter-sawn boards: across their width
    tangential: float  # flat-sawn boards: across their width
    shrink_radial: float
    shrink_tangential: float
    shrink_start: float  # moisture content at which shrinkage starts, %
    source: str


@cache
def species(name: str) -> Movement:
    """Return the coefficients of a species by its table name; `UnknownName` with the nearest one otherwise.

    Source: Wood Handbook, FPL-GTR-190 (2010), Table 13-5, shrinkage Tables 4-3 and 4-4.
    """
    for r in rows("wood_movement"):
        if r["name"].lower() == name.lower():
            return Movement(
                r["name"],
                float(r["radial"]),
                float(r["tangential"]),
                float(r["shrink_radial"]),
                float(r["shrink_tangential"]),
                float(r["shrink_start"]),
                r["source"],
            )
    raise UnknownName("species", name, (r["name"] for r in rows("wood_movement")))


def change(dimension: Number, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """Return the change of a dimension, mm, positive when it swells: ΔD = D · C · (M₂ − M₁).

    Source: Wood Handbook, FPL-GTR-190, Equation 13-2; valid from 6 to 14 % moisture content.
    """
    return float(dimension) * coefficient * (moisture_to - moisture_from)


def greatest_height(gap: Number, coefficient: float, swing: float) -> float:
    """Return the greatest height of a solid inset front, mm, for a total gap `gap` over a moisture `swing` in %.

    g / (C · ΔM), from Equation 13-2 of the Wood Handbook. ValueError unless coefficient and swing are above 0.
    """
    if coefficient <= 0 or swing <= 0:
        raise ValueError("coefficient and swing must be above 0")
    return float(gap) / (coefficient * swing)


def coefficient_from_shrinkage(shrinkage: float, start: float = 30.0) -> float:
    """Return the coefficient per 1 % from total shrinkage in %: C = (S/F) / (100 − S · (F − 10) / F).

    Source: footnote of Table 13-5, Wood Handbook (from memory; it reproduces 20 of 22 pairs of the table).
    """
    return (shrinkage / start) / (100.0 - shrinkage * (start - 10.0) / start)
