"""The safety page: cautions that the piece's own operations ask for, which defer to manuals, codes and trained people."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from docgen.drawing.cells import block
from docgen.drawing.records import Picture, Sheet
from docgen.schedules.rows import CautionRow
from docgen.sheets.context import Context
from docgen.sheets.flow import NARROW, Flow, drawn_together, stacked
from docgen.tables import data_path

DEFER = (
    "This page repeats what the work in this packet asks for; it is not complete and replaces nothing. The machine's own "
    "manual, the marking on the cutter, the maker's sheet of the finish or glue, and the law where you work rule over "
    "anything printed here. Whoever is unsure is shown by a trained person first. Electrical work belongs to the licensed trade."
)
SIGN = 9.0  # mm: side of a picture beside a caution


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the page; it stands in every packet, since every piece is cut with something."""
    return drawn_together(partial(_filled, context)).sheets()


def _filled(context: Context, air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="safety", kind="safety", title="Safety", column=NARROW, air=air)
    flow.text(DEFER, bold=True)
    for row in context.lists.cautions:
        _caution(flow, row)
    if not context.lists.cautions:
        flow.text("No operation of this piece asks for a caution of its own.")
    return flow


def _caution(flow: Flow, row: CautionRow) -> None:
    """Set a caution: its title and what asks for it, signs at the right, then what to do."""
    context, heights = flow.context, flow.layout.heights
    pictures = [name for name in (f"symbols/{s}" for s in row.symbols) if _drawn(name)]
    room = flow.area.width - len(pictures) * (SIGN + 1.5) - 3.0
    title = block(row.title, room, heights.heading, context.metrics, bold=True)
    why = block(f"Asked for by {'; '.join(row.why)}." if row.why else "", room, heights.small, context.metrics)
    tall = max(title.tall + 1.0 + why.tall, SIGN if pictures else 0.0)
    flow.gap(2.5)
    flow.need(tall + 3 * heights.note)
    strip = flow.take(tall)
    flow.add(title.records((strip.x, strip.top)))
    flow.add(why.records((strip.x, strip.top - title.tall - 1.0)))
    for i, name in enumerate(reversed(pictures), 1):
        flow.add([Picture(name, (strip.right - i * (SIGN + 1.5), strip.top - SIGN, SIGN, SIGN))])
    flow.gap(1.2)
    flow.points([stacked(line) for line in row.lines])


def _drawn(name: str) -> bool:
    try:
        data_path("shared", f"{name}.svg")
    except FileNotFoundError:
        return False
    return True
