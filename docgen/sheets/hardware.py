"""What is bought besides wood: fasteners, slides, sleeves, panes, each with the size worked out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import groupby

from docgen.checks.tipping import UNSTEADY
from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.tables import Row
from docgen.piece.naming import in_words
from docgen.piece.records import Authority
from docgen.schedules.rows import HardwareRow
from docgen.schedules.used_up import USED
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, drawn_together, stacked

AGAINST = "Against tipping"
COLUMNS = (
    Column("count", "right", bold=True),
    Column("what", grow=0.5),
    Column("size", grow=0.6),
    Column("where", grow=2.0),
    Column("buy after", grow=1.0),
    Column("got"),
)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the list; nothing when all is wood and glue: what is used up then stands under the cutting list."""
    rows = (*context.lists.hardware, *_against_tipping(context))
    if all(row.group == USED for row in rows):
        return ()
    return drawn_together(partial(_filled, context, rows)).sheets()


def _filled(context: Context, rows: Sequence[HardwareRow], air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="hardware", kind="hardware", title="Hardware list", air=air)
    flow.text(
        "The hardware's own sheet rules over any figure here: have it in hand before you drill. What depends on a "
        "measurement is bought after that measurement, and lengths once the wood is milled."
    )
    marked = AUTHORITY[Authority.MEASURE]
    if any(row.depends for row in rows):
        flow.text(f"{marked} its size or length waits for what stands beside it: order it when that is known.")
    table: list[Row] = []
    for group, of in groupby(rows, key=lambda row: row.group):
        if group:
            table.append(Row(heading=group))
        table += [_row(context, row) for row in of]
    flow.table(COLUMNS, table)
    return flow


def _against_tipping(context: Context) -> tuple[HardwareRow, ...]:
    """Return what fixes a piece to the wall that the findings say tips easily: the file need not state it."""
    if not any(f.code in UNSTEADY for f in context.findings):
        return ()
    where = "near the top, one at each end, to the wall behind the piece"
    note = "with screws for a stud or with plugs for masonry, as its own sheet says; asked for by the findings"
    return (HardwareRow("strap or bracket against tipping", "", 2, where, ("the wall is known",), note, AGAINST),)


def _row(context: Context, row: HardwareRow) -> Row:
    names = {p.path: p.called for p in context.piece.parts}
    after = "; ".join(_after(row.depends))
    return Row(
        cells=(
            str(row.count),
            row.what,
            stacked(row.size) or "–",
            stacked(in_words(row.where, names)) or "–",
            in_words(f"{AUTHORITY[Authority.MEASURE]} {after}", names) if after else "–",
            "□",
        ),
        under=stacked(in_words(row.note, names)),
    )


def _after(depends: tuple[str, ...]) -> list[str]:
    """Return what is measured before buying; several measures of one kind are told together."""
    kinds: dict[str, list[str]] = {}
    for text in depends:
        plain = text.removeprefix("buy after measuring:").removeprefix("buy after").strip()
        what, of, which = plain.partition(" of ")
        kinds.setdefault(what + of, []).append(which)
    return [what + ", ".join(which) for what, which in kinds.items()]
