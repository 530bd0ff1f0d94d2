"""What to buy of each material, with waste: lumber by board feet or cubic metres, sheet by square feet or metres."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Piece
from docgen.schedules.rows import BlankRow, CutRow, StockRow

LUMBER = {"inch": "board feet", "mm": "m³"}
SHEET = {"inch": "ft²", "mm": "m²"}
WASTE = {"board feet": 25.0, "m³": 25.0, "ft²": 15.0, "m²": 15.0}
"""Per cent added for defects, snipe and offcuts. Common practice."""

SQUARE_FEET = 1 / 0.3048**2
"""In a square metre."""


def volume(row: CutRow | BlankRow) -> float:
    """Return the rough volume in m³ of all of a row, 0 for what is cut from a blank."""
    if isinstance(row, BlankRow):
        return float(row.length) * float(row.width) * float(row.thickness) * 1e-9
    a, b, c = (float(v) for v in row.rough)
    return 0.0 if row.blank else a * b * c * 1e-9 * row.count


def stock(piece: Piece, cutting: Sequence[CutRow], blanks: Sequence[BlankRow]) -> tuple[StockRow, ...]:
    """Return a row for each material as bought, in the order of the cutting list."""
    out = []
    for material, bought in dict.fromkeys((r.material, r.bought) for r in cutting):
        rows = [r for r in cutting if (r.material, r.bought) == (material, bought)]
        sheet, system = rows[0].area_m2 is not None, piece.units.system
        unit = (SHEET if sheet else LUMBER)[system]
        whole = [b for b in blanks if b.material == material]
        if sheet:
            net = sum(r.area_m2 or 0.0 for r in rows) * (SQUARE_FEET if system == "inch" else 1.0)
        elif system == "inch":
            net = sum(r.board_feet or 0.0 for r in rows) + sum(b.board_feet for b in whole)
        else:
            net = sum(volume(r) for r in rows) + sum(volume(b) for b in whole)
        weights = [None if r.weight_kg is None else r.weight_kg * r.count for r in rows]
        known = [w for w in weights if w is not None]
        out.append(
            StockRow(
                material=material,
                bought=bought,
                rows=len(rows),
                net=net,
                unit=unit,
                with_waste=net * (1 + WASTE[unit] / 100),
                waste_percent=WASTE[unit],
                weight_kg=sum(known) if len(known) == len(weights) else None,
            )
        )
    return tuple(out)
