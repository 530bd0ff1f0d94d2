"""The base lines of templates that break off: at which step they are drawn on the wood, and where."""

from __future__ import annotations

from docgen.schedules.from_stock import TO_SIZE
from docgen.schedules.holds import named, said
from docgen.schedules.rows import WorkRow
from docgen.sheets.context import Context
from docgen.sheets.true_drawings import shown

PLACES = 6
"""Decimals of a mm to which distances are compared: tapers and angles leave noise behind them."""

Line = tuple[int, str, float]
"""Axis of the face (0: the line runs across it), the end or edge from which it is measured, how far, mm."""


def base_lines(context: Context) -> dict[int, str]:
    """Return what is drawn at steps, by their numbers: where each part gets its size, while all its ends and edges stand."""
    found: dict[Line, dict[str, list[str]]] = {}
    for name, row, crop in shown(context):
        for axis, at in crop.bases:
            line = (axis, row.edge if axis else row.end, round(abs(at), PLACES))
            for path in row.parts:
                found.setdefault(line, {}).setdefault(path, []).append(name)
    steps = [w for w in context.lists.work if w.key == TO_SIZE or w.key.startswith("fit ")] if found else []
    told = {step.number: _told(context, step, found) for step in steps}
    return {number: text for number, text in told.items() if text}


def _told(context: Context, step: WorkRow, found: dict[Line, dict[str, list[str]]]) -> str:
    """Return the lines on the parts of a step, "" for none."""
    piece, out = context.piece, []
    for (axis, side, far), by_part in sorted(found.items()):
        paths = [p for p in by_part if p in step.parts]
        if paths:
            names = dict.fromkeys(name for p in paths for name in by_part[p])
            way = "gauged along" if axis else "square across"
            wood = ", ".join(named(piece, paths, context.kinds))
            out.append(f"{way} {wood}, {said(piece, far)} from the {side} ({', '.join(names)})")
    if not out:
        return ""
    return f"Then draw the base lines of the templates, before an end or edge of these is cut away: {'; '.join(out)}."
