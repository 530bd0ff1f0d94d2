"""What to buy of each material: board feet of lumber, square metres of sheet, with waste."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Piece
from docgen.schedules.rows import BlankRow, CutRow, StockRow

WASTE = {"board feet": 25.0, "m²": 15.0}
"""Per cent added for defects, snipe and offcuts. Common practice."""


def stock(piece: Piece, cutting: Sequence[CutRow], blanks: Sequence[BlankRow]) -> tuple[StockRow, ...]:
    """Return a row for each material as bought, in the order of the cutting list."""
    out = []
    for material, bought in dict.fromkeys((r.material, r.bought) for r in cutting):
        rows = [r for r in cutting if (r.material, r.bought) == (material, bought)]
        unit = "m²" if rows[0].area_m2 is not None else "board feet"
        whole = [b for b in blanks if b.material == material]
        net = sum(r.board_feet or 0.0 for r in rows) + sum(b.board_feet for b in whole)
        if unit == "m²":
            net = sum(r.area_m2 or 0.0 for r in rows)
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
