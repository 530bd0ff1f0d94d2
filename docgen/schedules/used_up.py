"""What is used up at the work and has to be in the shop beside wood and hardware: glue, finish, bedding, wax.

Which make of it, the file leaves to whoever builds; how much follows from the piece.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.piece.model import Part, Piece
from docgen.schedules.glueups import glueups
from docgen.schedules.holds import is_ordered, listed
from docgen.schedules.rows import HardwareRow

USED = "Used up at the work; of what make is left to you"
COATS = 2
"""Coats of an oil, as the step that finishes the piece says."""

SQUARE = {"mm": (1e6, "m²", 1), "inch": (144 * 25.4**2, "ft²", 0)}
"""mm² of a unit of area, its sign, decimals to which an area is rounded up."""

LONG = {"mm": (1000.0, "m", 1), "inch": (12 * 25.4, "ft", 0)}
"""The same for lengths."""


def used_up(piece: Piece) -> tuple[HardwareRow, ...]:
    """Return what is used up, each once, with how much of it the piece takes."""
    return (*_glue(piece), *_bedding(piece), *_wax(piece), *_finish(piece))


def _glue(piece: Piece) -> Iterator[HardwareRow]:
    units = glueups(piece)
    if units:
        most = max(unit.count for unit in units)
        joints = f"{most} joint{'' if most == 1 else 's'}"
        yield HardwareRow(
            "wood glue", "", 1, "all that is glued", (), f"its open time has to do for {joints} in one go", USED
        )


def _bedding(piece: Piece) -> Iterator[HardwareRow]:
    """Yield what panes lie on in their rabbets: in grooves they need none."""
    panes = [piece.part(p.pane) for p in piece.panes if is_ordered(piece.part(p.pane))]
    if panes:
        round_them = sum(2 * (float(p.size[0]) + float(p.size[1])) for p in panes)
        size = f"at least {_up(round_them, *LONG[piece.units.system])}"
        where = listed(piece, [p.path for p in panes])
        yield HardwareRow(
            "felt, tape or putty", size, 1, where, (), "the bed of the pane, no wider than its rabbet", USED
        )


def _wax(piece: Piece) -> Iterator[HardwareRow]:
    sliding = [d.called for d in piece.drawers if d.runners or d.bed]
    if sliding:
        yield HardwareRow("hard wax", "", 1, ", ".join(sliding), (), "on what slides on wood", USED)


def _finish(piece: Piece) -> Iterator[HardwareRow]:
    made = [p for p in piece.parts if not p.hardware and not is_ordered(p)]
    if made:
        size = f"for {_up(sum(map(_surface, made)), *SQUARE[piece.units.system])} a coat"
        note = f"all faces counted, those inside joints too; of a penetrating oil {COATS} coats, as its label says"
        yield HardwareRow("finish", size, 1, "all wood, inside and outside", (), note, USED)


def _surface(part: Part) -> float:
    long, wide, thick = map(float, part.size)
    return 2 * (long * wide + wide * thick + thick * long)


def _up(mm: float, one: float, sign: str, places: int) -> str:
    """Return a measure in large units, rounded up."""
    step = 10**places
    return f"{math.ceil(mm / one * step - 1e-9) / step:.{places}f} {sign}"
