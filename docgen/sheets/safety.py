"""The safety page: cautions that the piece's own operations ask for, which defer to manuals, codes and trained people."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.drawing.records import Picture, Sheet
from docgen.schedules.rows import CautionRow
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, stacked
from docgen.tables import data_path

DEFER = (
    "This page repeats what the work in this packet asks for; it is not complete and replaces nothing. The machine's own "
    "manual, the marking on the cutter, the maker's sheet of the finish or glue, and the law where you work rule over "
    "anything printed here. Whoever is unsure is shown by a trained person first. Electrical work belongs to the licensed trade."
)
SIGN = 9.0  # mm: side of a picture beside a caution


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the page; it stands in every packet, since every piece is cut with something."""
    flow = Flow(context, key="safety", kind="safety", title="Safety")
    flow.text(DEFER, bold=True)
    for row in context.lists.cautions:
        _caution(flow, row)
    if not context.lists.cautions:
        flow.text("No operation of this piece asks for a caution of its own.")
    return flow.sheets()


def _caution(flow: Flow, row: CautionRow) -> None:
    pictures = [name for name in (f"symbols/{s}" for s in row.symbols) if _drawn(name)]
    flow.heading(row.title, keep=22.0)
    if row.why:
        flow.text(f"Asked for by {'; '.join(row.why)}.", height=flow.layout.heights.small)
    if pictures:
        strip = flow.take(SIGN)
        flow.add([Picture(name, (strip.x + i * (SIGN + 2), strip.y, SIGN, SIGN)) for i, name in enumerate(pictures)])
        flow.y -= 1.5
    flow.points([stacked(line) for line in row.lines], sign="–")


def _drawn(name: str) -> bool:
    try:
        data_path("shared", f"{name}.svg")
    except FileNotFoundError:
        return False
    return True
