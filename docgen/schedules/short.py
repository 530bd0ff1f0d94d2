"""Short parts: too short for the milling machines by themselves; they are milled in one length and sawn apart after it. mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from docgen.piece.model import Piece
from docgen.schedules.rows import CutRow

LEAST = {"mm": Fraction(300), "inch": Fraction(254, 10) * 12}
"""Least length that goes over a surface planer or through a thicknesser, mm: 300 mm, 12 in. Common practice; manuals may ask more."""


def short(piece: Piece, cutting: Sequence[CutRow]) -> tuple[CutRow, ...]:
    """Return the rows of solid parts, cut one by one, that are shorter in the rough than the machines may take."""
    least = LEAST[piece.units.system]
    return tuple(
        row
        for row in cutting
        if not row.blank and piece.part(row.parts[0]).material.solid_wood and row.rough[0] < least
    )
