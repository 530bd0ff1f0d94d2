"""The chain of sizes: what hangs on what as one picture, what is measured before which cut, what a difference moves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from docgen.drawing.cells import TIE
from docgen.drawing.chains import BETWEEN, TIGHT, Item, drawn
from docgen.drawing.columns import Column
from docgen.drawing.records import Record, Sheet
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.tables import Row, Style
from docgen.layout.model import Rect
from docgen.piece.naming import in_words
from docgen.schedules.holds import listed, size_words, times
from docgen.schedules.rows import ChainBox, ChainRows, HoldRow, MoveRow
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, drawn_together, length, signs_line, stacked
from docgen.units import format_length

INTRO = (
    "An arrow goes from a part to what is fitted to it{blank}: what stands at its foot comes first, and when it comes out different, "
    "all that its arrows lead to follows. Each box has its finished size, length × width × thickness, and below it the sizes that "
    "lie between other parts, + what tongues and tenons add."
)
LEFT_OUT = (
    "Not in this table, though a change of it moves things too: angles, sizes that turn with one, and sizes made of others. Enter the "
    "value and print again to see what it moves"
)
HOLDS = (
    Column("", "middle"),
    Column("", bold=True),
    Column("have in hand or measure", grow=1.0),
    Column("as drawn"),
    Column("found"),
    Column("before", grow=1.0),
    Column("what a difference moves, so many times", grow=2.0),
)
HANGS = (
    Column("part", bold=True, grow=1.0),
    Column("finished size, and sizes that lie between other parts", grow=2.0),
    Column("is fitted to", grow=1.0),
)
"""Where no page has room for the boxes with their arrows."""

LISTED = (
    "What a part is fitted to comes first; when that comes out different, the part follows. Sizes are length × width × thickness, "
    "below them those that lie between other parts, + what tongues and tenons add."
)

MOVES = (
    Column("named size", bold=True),
    Column("is"),
    Column("what moves when it is more: times the difference, + longer, − shorter", grow=3.0),
    Column("used by", grow=1.0),
)
LONG, SHORT = 26, 19  # characters of a size that asks for a second line, and of each line of it
TO_WRITE = TIE * 16  # room for a figure in pencil
SOURCE = {"measured": "measured", "set": "set for this printing", "size": ""}


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the chain; nothing when no part hangs on another and nothing is measured."""
    chain = context.lists.chain
    if not chain.boxes and not chain.holds:
        return ()
    return drawn_together(partial(_filled, context)).sheets()


def _filled(context: Context, air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    chain = context.lists.chain
    flow = Flow(context, key="chain", kind="chain", title="Chain of sizes", wide=True, air=air)
    note = context.layout.heights.note
    small = Style(note, note, note, note)
    if chain.boxes:
        flow.text(
            LISTED
            if not _drawable(flow, context, chain)
            else INTRO.format(
                blank=", from a blank to what is cut from it" if any(not b.parts for b in chain.boxes) else ""
            )
        )
        used = {b.authority for b in chain.boxes} | {h.authority for h in chain.holds}
        if signs_line(used):
            flow.text(signs_line(used))
        _picture(flow, context, chain)
        if chain.alone:
            flow.text(
                f"{'These hang' if len(chain.alone) > 1 else 'This hangs'} on no other part: {'; '.join(chain.alone)}."
            )
    if chain.holds:
        flow.heading("Hold points: in hand or measured, before that cut", keep=30.0)
        flow.table(HOLDS, [_hold(row) for row in chain.holds], small)
    if chain.sizes:
        flow.heading("What each named size moves", keep=30.0)
        flow.text(
            "Enter what the calliper says under “measured” in the project file and print again: then no figure has to be "
            f"worked out by hand.{_joined(chain)} Parts only; joints that use a size are named beside it and follow too."
        )
        flow.table(MOVES, [_move(context, row) for row in chain.sizes], small)
        if chain.untold:
            flow.text(f"{LEFT_OUT}: {', '.join(map(size_words, chain.untold))}.")
    return flow


def _joined(chain: ChainRows) -> str:
    """Return how the file writes names of several words, by one of those that stand here; nothing where all are one word."""
    name = next((n for n in (*(row.name for row in chain.sizes), *chain.untold) if "_" in n), "")
    return (
        f" A name of several words has _ between them in the file: “{size_words(name)}” is {name} there."
        if name
        else ""
    )


def _picture(flow: Flow, context: Context, chain: ChainRows) -> None:
    """Draw the boxes: closer together, then with less in each, then on a page of their own; where no page takes them, a list."""
    for room in (flow.rest, flow.following()):
        for full in (True, False):
            items = [_item(context, box, full=full) for box in chain.boxes]
            for between in (BETWEEN, TIGHT):
                if _taken(flow, items, chain, room, between) is None:
                    continue
                if room != flow.rest:
                    flow.turn_page()
                if (picture := _taken(flow, items, chain, flow.rest, between)) is not None:
                    records, tall = picture
                    flow.add(records)
                    flow.take(tall)
                    flow.gap(3.0)
                    return
    note = context.layout.heights.note
    flow.table(HANGS, [_hanging(context, chain, n) for n in range(len(chain.boxes))], Style(note, note, note, note))


def _drawable(flow: Flow, context: Context, chain: ChainRows) -> bool:
    """Return whether a page of its own takes the boxes, the sizes alone in each."""
    items = [_item(context, box, full=False) for box in chain.boxes]
    return _taken(flow, items, chain, flow.following(), TIGHT) is not None


def _taken(
    flow: Flow, items: Sequence[Item], chain: ChainRows, room: Rect, between: float
) -> tuple[list[Record], float] | None:
    """Return the picture in a room and how high it is; None where it does not fit."""
    return drawn(items, chain.arrows, room, flow.layout.heights.note, flow.context.metrics, between=between)


def _hanging(context: Context, chain: ChainRows, nth: int) -> Row:
    """Return a box as a row: its sizes, and what its arrows come from."""
    item = _item(context, chain.boxes[nth], full=True)
    feet = [_item(context, chain.boxes[a], full=False).title for a, b in chain.arrows if b == nth]
    return Row(cells=(item.title, "\n".join(item.lines), "\n".join(feet) or "–"))


def _item(context: Context, box: ChainBox, *, full: bool) -> Item:
    sign = AUTHORITY[box.authority]
    size = _in_lines([format_length(v, context.piece.units, rest=False) for v in box.size])
    lines = (size, *(stacked(line) for line in box.lines)) if full else (size,)
    count = f"{len(box.parts)}× " if len(box.parts) > 1 else ""
    return Item(box.column, f"{count}{box.title}{f' {sign}' if sign else ''}", lines)


def _in_lines(figures: Sequence[str]) -> str:
    """Return the figures of a box with × between them; on several lines, parted before a ×, where one would be too long."""
    whole = " × ".join(figures)
    if len(whole) <= LONG:
        return whole
    lines = [figures[0]]
    for figure in figures[1:]:
        if len(lines[-1]) + len(figure) + 3 <= SHORT:
            lines[-1] += f" × {figure}"
        else:
            lines.append(f"× {figure}")
    return "\n".join(lines)


def _hold(row: HoldRow) -> Row:
    what = f"{AUTHORITY[row.authority]} {stacked(row.what)}".strip()
    figure = stacked(row.figure).replace("; ", "\n")  # the place, then what goes there
    return Row(cells=("□", row.name, what, figure, TO_WRITE, stacked(row.before), stacked(row.moves)))


def _move(context: Context, row: MoveRow) -> Row:
    told = "; ".join(
        f"{what} of {listed(context.piece, paths, context.kinds)} {times(factor)}" for factor, what, paths in row.moves
    )
    state = ", ".join(s for s in (SOURCE[row.source], row.on) if s)
    value = f"{length(context, row.value)} {context.piece.units.sign}" + (f"\n{state}" if state else "")
    names = {p.path: p.called for p in context.piece.parts}
    return Row(cells=(size_words(row.name), value, in_words(told, names) or "places only", ", ".join(row.used) or "–"))
