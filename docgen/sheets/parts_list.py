"""The parts by their balloon numbers: names in columns at the foot of a page, or a table where there is room."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, combinations

from docgen.drawing.cells import block
from docgen.drawing.columns import Column
from docgen.drawing.placing import PaperFault
from docgen.drawing.records import Record, Text
from docgen.drawing.tables import Row, Style, table
from docgen.layout.model import Rect
from docgen.piece.model import Kind
from docgen.schedules.rows import CutRow
from docgen.sheets.context import Context
from docgen.sheets.flow import length, stacked
from docgen.sheets.part_words import title

Listed = tuple[list[Record], float]
"""Records with their upper left corner at the origin, and their height, mm."""

SHARED = "Equal parts, and a left and a right, go by the number of the first of them: the numbers between are theirs."
AIR = 1.8  # mm between the list and that
LINE = 4.6  # mm between lines of names
COLUMN = 56.0  # mm
ROW = 1.3  # heights of a figure: no row of the table is lower
LEAST = 130.0  # mm: the width that the table needs
TABLE = (
    Column("no.", "right", bold=True),
    Column("part", grow=2.0),
    Column("count", "right"),
    Column("material", grow=1.0),
    Column("finished: length", "figures"),
    Column("width", "figures"),
    Column("thick", "figures"),
)


def names(context: Context, wide: float, more: Sequence[tuple[str, str]] = ()) -> Listed:
    """Return number, name and count of each kind in as many columns as the width takes; `more` are told after them."""
    columns = max(1, int(wide // COLUMN))
    each = wide / columns
    height = context.layout.heights.note
    told: list[tuple[str, str]] = []
    for kind in in_order(context):
        name = title(kind, context.lists)
        told.append((str(context.piece.part(kind.first).number), name if kind.count == 1 else f"{kind.count}× {name}"))
    told += more
    texts = [(number, block(name, each - 9, height, context.metrics)) for number, name in told]
    rises = [max(LINE, text.tall + 1.4) for _, text in texts]
    deep = _depth(rises, columns)
    records: list[Record] = []
    column, y = 0, 0.0
    for (number, text), rise in zip(texts, rises, strict=True):
        if y + rise > deep + 1e-6:
            column, y = column + 1, 0.0
        x = column * each
        records.append(Text((x + 5, -y - height), number, height, "right", bold=True))
        records += text.records((x + 7, -y))
        y += rise
    return records, deep


def noted(context: Context, listed: Listed, wide: float, room: float) -> Listed:
    """Return a list, `wide` mm, with a word below it that says why numbers are missing.

    Where some are, and `room` mm of height take it.
    """
    records, deep = listed
    numbers = [context.piece.part(kind.first).number for kind in in_order(context)]
    text = block(SHARED, wide, context.layout.heights.note, context.metrics)
    tall = text.tall + AIR
    if numbers == [*range(1, len(numbers) + 1)] or deep + tall > room:
        return listed
    return [*records, *text.records((0.0, -deep - AIR))], deep + tall


def _depth(rises: Sequence[float], columns: int) -> float:
    """Return the least height at which entries so high, one below the other in order, fill no more than these columns."""
    if not rises:
        return 0.0

    def fits(deep: float) -> bool:
        used, y = 1, 0.0
        for rise in rises:
            used, y = (used + 1, rise) if y + rise > deep + 1e-6 else (used, y + rise)
        return used <= columns

    below = [0.0, *accumulate(rises)]
    depths = sorted({high - low for low, high in combinations(below, 2) if high - low > max(rises) - 1e-6})
    return depths[bisect_left(depths, True, key=fits)]


def full(context: Context, wide: float, room: float) -> Listed | None:
    """Return the table of all kinds with material and finished size; None where `room` mm of height are too few."""
    if (len(context.kinds) + 1) * ROW * context.layout.heights.least > room:
        return None
    rows = [_row(context, kind) for kind in in_order(context)]
    area = Rect(0.0, -room, wide, room)
    for height in (context.layout.heights.figure, context.layout.heights.least):
        try:
            pages = table(TABLE, rows, (area, area), context.metrics, Style(height=height))
        except PaperFault:  # not even one row
            continue
        if len(pages) == 1:
            return noted(context, (list(pages[0].records), pages[0].box.height), wide, room)
    return None


def in_order(context: Context) -> list[Kind]:
    """Return the kinds in the order of their numbers."""
    return sorted(context.kinds, key=lambda k: context.piece.part(k.first).number)


def _row(context: Context, kind: Kind) -> Row:
    part = context.piece.part(kind.first)
    cut = next((r for r in context.lists.cutting if kind.first in r.parts), None)
    return Row(
        cells=(
            str(part.number),
            title(kind, context.lists),
            str(kind.count),
            stacked(part.material.name),
            *(_size(context, cut, axis) for axis in range(3)),
        )
    )


def _size(context: Context, cut: CutRow | None, axis: int) -> str:
    return length(context, cut.finished[axis]) if cut else "–"
