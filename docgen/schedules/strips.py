"""Thin strips: parts too narrow to be ripped by themselves; they come off a wide board. mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from docgen.piece.model import Part, Piece
from docgen.piece.records import Authority, Stage
from docgen.schedules.milled import is_turned

THIN = Fraction(254, 10)
"""Solid parts no wider than this are strips, mm: 1 in. Common practice; saw makers' manuals ask for a push block from 50 mm on."""

HELD = {"mm": Fraction(100), "inch": Fraction(254, 10) * 4}
"""How wide a board has to be that a strip is ripped off, mm: 100 mm, 4 in. Common practice."""


def strips(piece: Piece) -> tuple[str, ...]:
    """Return the paths of the parts that are thin strips of solid wood."""
    made = (p for p in piece.parts if not p.hardware and p.material.solid_wood and not is_turned(p))
    return tuple(p.path for p in made if p.size[1] <= THIN)


def ripped_late(piece: Piece) -> tuple[str, ...]:
    """Return the strips that holes or slots are cut in, on a board still: nothing holds a strip under a router or a drill."""
    return tuple(path for path in strips(piece) if _machined(piece.part(path)))


def _machined(part: Part) -> bool:
    cut = (f for f in part.features if f.stage is Stage.PART and (f.made.holes or f.made.slots))
    mated = any(h.authority is Authority.MATE for f in part.features for h in f.made.holes)
    return part.authority is not Authority.MEASURE and not mated and any(cut)


def off_board(thin: Sequence[str], whole: Sequence[str]) -> str:
    """Return how strips are ripped off their board when all is cut to size, and which of them wait; by their titles."""
    out = f" Rip {', '.join(thin)} off the board last, the strip away from the fence." if thin else ""
    if whole:
        wait = "waits" if len(whole) == 1 and not whole[0][:1].isdigit() else "wait"
        out += (
            f" {', '.join(whole)} {wait}: the board is cut to length only, the strips are drawn on it with a saw's cut between, and "
            "ripped when holes and slots are in them."
        )
    return out
