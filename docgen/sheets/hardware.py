"""What is bought besides wood: fasteners, slides, sleeves, panes, each with the size worked out."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.tables import Row
from docgen.schedules.rows import HardwareRow
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, stacked

COLUMNS = (
    Column("count", "right", bold=True),
    Column("what"),
    Column("size"),
    Column("where", grow=1.0),
    Column("buy after", grow=1.0),
    Column("got"),
)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the list; nothing when all is wood and glue."""
    rows = context.lists.hardware
    if not rows:
        return ()
    flow = Flow(context, key="hardware", kind="hardware", title="Hardware list")
    flow.text(
        "The hardware's own sheet rules over any figure here: have it in hand before you drill. What depends on a "
        "measurement is bought after that measurement, and lengths once the wood is milled."
    )
    flow.table(COLUMNS, [_row(row) for row in rows])
    return flow.sheets()


def _row(row: HardwareRow) -> Row:
    return Row(
        cells=(
            str(row.count),
            row.what,
            stacked(row.size) or "–",
            row.where or "–",
            "; ".join(_after(row.depends)) or "–",
            "□",
        ),
        under=stacked(row.note),
    )


def _after(depends: tuple[str, ...]) -> list[str]:
    """Return what is measured before buying; several measures of one kind are told together."""
    kinds: dict[str, list[str]] = {}
    for text in depends:
        plain = text.removeprefix("buy after measuring:").removeprefix("buy after").strip()
        what, of, which = plain.partition(" of ")
        kinds.setdefault(what + of, []).append(which)
    return [what + ", ".join(which) for what, which in kinds.items()]
