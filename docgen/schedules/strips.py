"""Thin strips: parts too narrow to be ripped by themselves; they come off a wide board. mm."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.model import Piece
from docgen.schedules.milled import is_turned

THIN = Fraction(254, 10)
"""Solid parts no wider than this are strips, mm: 1 in. Common practice; saw makers' manuals ask for a push block from 50 mm on."""

HELD = {"mm": Fraction(100), "inch": Fraction(254, 10) * 4}
"""How wide a board has to be that a strip is ripped off, mm: 100 mm, 4 in. Common practice."""


def strips(piece: Piece) -> tuple[str, ...]:
    """Return the paths of the parts that are thin strips of solid wood."""
    made = (p for p in piece.parts if not p.hardware and p.material.solid_wood and not is_turned(p))
    return tuple(p.path for p in made if p.size[1] <= THIN)
