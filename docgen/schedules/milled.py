"""How thick wood is milled: to its figure, or thicker, where what is made of it is fitted or turned later. mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from docgen.piece.model import Part, Piece
from docgen.piece.records import Setting
from docgen.units import Number, Units, unit_length

TURNED_OVER = {"inch": Fraction(254, 80), "mm": Fraction(3)}
"""By which a square is milled larger than the largest diameter that is turned of it. Common practice."""


def by_material(piece: Piece) -> dict[str, list[Part]]:
    """Return the parts that are made, by the name of their material."""
    out: dict[str, list[Part]] = {}
    for part in piece.parts:
        if not part.hardware:
            out.setdefault(part.material.name, []).append(part)
    return out


def milled(piece: Piece, parts: Sequence[Part]) -> str:
    """Return how thick the material of some parts, all that are made of it, is milled, and by how much that is over its figure."""
    material, square = parts[0].material, are_squares(parts)
    more = TURNED_OVER[piece.units.system] if square else milled_over(piece, material.name)
    thick, over = (unit_length(v, piece.units) for v in (material.thickness + more, more))
    if square:
        return f"{thick} square, {over} over the largest diameter"
    return f"{thick}, {over} over its figure" if more else thick


def milled_over(piece: Piece, material: str) -> Number:
    """Return how much thicker than its figure a material is milled, since all that is made of it is fitted later."""
    found = {p.over(2) for p in piece.parts if p.material.name == material and not p.hardware}
    return found.pop() if len(found) == 1 else 0


def are_squares(parts: Sequence[Part]) -> bool:
    """Return whether all of some parts are turned of squares that the lathe brings to their figure."""
    return all(map(_skimmed, parts))


def before_turning(part: Part, units: Units) -> Number:
    """Return the side of the square that a part is turned of: more than its box, where it is turned to its full width."""
    return part.size[2] + (TURNED_OVER[units.system] if _skimmed(part) else 0)


def is_turned(part: Part) -> bool:
    """Return whether a part goes on the lathe."""
    return any(_lathe(part))


def left_rough(part: Part) -> bool:
    """Return whether a part is left at its rough size until its outline is cut: its sides are lines drawn on the blank."""
    return any(f.made.outlined for f in part.features)


def _skimmed(part: Part) -> bool:
    """Return whether a part is turned to the full width of its box: there is no turning a square to the size it has."""
    return is_turned(part) and all(s.skims for s in _lathe(part))


def _lathe(part: Part) -> Iterator[Setting]:
    return (s for f in part.features for s in f.made.settings if s.machine == "lathe")
