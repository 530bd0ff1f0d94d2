"""The cover: the piece as it will stand, its sizes, the sheets, how to print at true size, what the signs mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from docgen.drawing.cells import block, measure
from docgen.drawing.records import Link, Record, Sheet, Text
from docgen.drawing.symbols import AUTHORITY, AUTHORITY_WORDS
from docgen.drawing.tiling.printer_note import drawn_for, stretched
from docgen.drawing.tiling.rulers import DEPTH, check_line, warnings
from docgen.layout.model import Rect
from docgen.piece.records import Authority
from docgen.sheets.context import Context
from docgen.sheets.overall import overall, standing
from docgen.units import near_length, told_near

GROUPS = {
    "views": "General views",
    "exploded": "Exploded view",
    "parts": "Part sheets",
    "joinery": "Joinery details",
    "templates": "True-size templates",
    "sticks": "Story sticks, true size",
    "drilling": "Drilling and tapping chart",
    "cutting": "Cutting list",
    "setups": "Machine set-ups",
    "chain": "Chain of sizes",
    "work": "Order of work",
    "hardware": "Hardware list",
    "safety": "Safety",
    "findings": "Findings of the checks",
}
PRINT = (
    "Print at “actual size” or 100 %. “Fit”, “shrink” and “scale to paper” spoil the templates and the sticks.",
    "Print on one side. Then lay a steel rule along both check lines of this page, and of each true-size page: a printer "
    "may err across and down by different amounts. If a line is off, do not use the page.",
    "Damp and wet glue stretch paper: fix pages to wood with dry tape or spray glue, and use them the same day.",
)
AIR = 4.0  # mm between blocks
PICTURE = (0.42, 0.36, 0.3, 0.24, 0.18)  # of a low page's width: the first that leaves the words room beside it
ON_FRONT = 14  # lines of the list that the front page takes; a longer one gets pages of its own
SHORT = 24  # pages: a packet with fewer lists its kinds of sheets alone, and needs no page for that
LIST_AIR, LESS_AIR = 1.4, 1.15  # of the lettering height, a line of the list: the less where it saves a page
LIST_COLUMN = 70.0  # mm: least width of a column of the full list


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the list of sheets: what, on which page, the key it leads to."""

    title: str
    first: int
    last: int
    key: str
    head: bool = False

    @property
    def pages(self) -> str:
        """The page or pages."""
        return str(self.first) if self.first == self.last else f"{self.first}–{self.last}"


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the cover, with the list of sheets on pages of its own where it is long; made last."""
    words = context.layout.sheets
    ahead = sum(len(before.get(w, ())) for w in words[: words.index("cover")]) if "cover" in words else 0
    count = 1
    while True:
        entries = _entries(context, before, ahead, count)
        long = len(entries) > ON_FRONT
        if long and sum(map(len, before.values())) < SHORT:
            entries, long = [e for e in entries if e.head], False
        lists = _full_list(context, entries) if long else []
        if 1 + len(lists) <= count:
            break
        count = 1 + len(lists)
    listed = [e for e in entries if e.head] if lists else entries
    cover = _sheet(context, "cover", "Cover", _front(context, listed, near=_rounded(before)))
    more = [_sheet(context, f"cover/{i + 2}", "List of sheets", r) for i, r in enumerate(lists)]
    return (cover, *more)


def _sheet(context: Context, key: str, title: str, records: Sequence[Record]) -> Sheet:
    return Sheet(key, "cover", title, context.layout.size, tuple(records), scale="none")


def _entries(context: Context, before: Mapping[str, tuple[Sheet, ...]], ahead: int, count: int) -> list[Entry]:
    """Return a head for each kind of sheet, and under it its sheets when there are several."""
    out: list[Entry] = []
    page = 1
    for word in context.layout.sheets:
        if word == "cover":
            page += count
            continue
        sheets = before.get(word, ())
        if not sheets:
            continue
        out.append(Entry(GROUPS[word], page, page + len(sheets) - 1, sheets[0].key, head=True))
        runs = _runs(sheets, page)
        if len(runs) > 1:
            out += runs
        page += len(sheets)
    return out


def _runs(sheets: tuple[Sheet, ...], page: int) -> list[Entry]:
    """Return one entry for each run of sheets with one title."""
    out: list[Entry] = []
    for i, sheet in enumerate(sheets):
        if out and out[-1].title == sheet.title:
            out[-1] = Entry(sheet.title, out[-1].first, page + i, out[-1].key)
        else:
            out.append(Entry(sheet.title, page + i, page + i, sheet.key))
    return out


# -- the front page ---------------------------------------------------------------------------------------------------


def _rounded(before: Mapping[str, tuple[Sheet, ...]]) -> bool:
    """Return True when figures of the packet say that they are not exact."""
    every = (r for sheets in before.values() for sheet in sheets for r in sheet.records)
    return any(isinstance(r, Text) and "≈" in r.text for r in every)


def _front(context: Context, entries: Sequence[Entry], *, near: bool) -> list[Record]:
    area, small = context.layout.area, context.layout.heights.small
    out: list[Record] = []
    for start, up in (((area.x + DEPTH / 2, area.y + 1), True), ((area.x + DEPTH + 4, area.y + DEPTH / 2), False)):
        line = check_line(start, up=up, small=small)
        out += stretched(line, context.printer.factors(context.layout.size), start) if context.printer else line
    room = Rect(area.x + DEPTH + AIR, area.y + DEPTH + 2, area.width - DEPTH - AIR, area.height - DEPTH - 2)
    top = _title(context, room, out)
    if room.width > room.height * 1.15:
        for share in PICTURE:
            left = room.width * share
            beside = Rect(room.x + left + AIR, room.y, room.width - left - AIR, top - room.y)
            if _columns(context, _pair(beside, top), entries, [], near=near) >= room.y:
                break
        _columns(context, _pair(beside, top), entries, out, near=near)
        _picture(context, Rect(room.x, room.y, left, top - room.y), out)
        return out
    tall = top - _columns(context, _pair(room, top), entries, [], near=near)
    split = max(room.y + tall, room.y + 0.3 * room.height)
    _columns(context, _pair(room, split), entries, out, near=near)
    _picture(context, Rect(room.x, split + AIR, room.width, top - split - AIR), out)
    return out


def _pair(room: Rect, top: float) -> tuple[Rect, Rect]:
    """Return two columns of a room, from `top` down."""
    half = (room.width - AIR) / 2
    return (
        Rect(room.x, room.y, half, top - room.y),
        Rect(room.x + half + AIR, room.y, half, top - room.y),
    )


def _title(context: Context, room: Rect, out: list[Record]) -> float:
    """Set the title and the sizes; return where they end."""
    piece, heights = context.piece, context.layout.heights
    title = block(piece.title, room.width, 1.4 * heights.title, context.metrics, bold=True)
    out += title.records((room.x, room.top))
    y = room.top - title.tall - 1.5
    across, deep, up = (near_length(v, context.piece.units) for v in overall(context))
    unit = piece.units.sign
    said = [f"{across} wide × {deep} deep × {up} high, {unit}"]
    said += [t for t in (piece.number, f"revision {piece.revision}" if piece.revision else "", piece.date) if t]
    line = block(_in_lines(context, said, room.width, heights.figure), room.width, heights.figure, context.metrics)
    out += line.records((room.x, y))
    y -= line.tall + 1.5
    for note in piece.notes:
        text = block(note, room.width, heights.note, context.metrics)
        out += text.records((room.x, y))
        y -= text.tall + 1.0
    return y - 1.0


def _in_lines(context: Context, said: Sequence[str], wide: float, height: float) -> str:
    """Return what is said with a dot between, as many on a line as it takes; no line begins or ends with a dot."""
    lines: list[str] = []
    for text in said:
        more = f"{lines[-1]}   ·   {text}" if lines else text
        if lines and measure(more, height, context.metrics) <= wide:
            lines[-1] = more
        else:
            lines.append(text)
    return "\n".join(lines)


def _picture(context: Context, room: Rect, out: list[Record]) -> None:
    """Draw the piece as large as the room takes it, hidden lines removed."""
    out += standing(context, room)


def _columns(
    context: Context, columns: tuple[Rect, Rect], entries: Sequence[Entry], out: list[Record], *, near: bool
) -> float:
    """Set the list of sheets and the signs, and how to print beside them; return where the lower column ends."""
    first, second = columns
    y = _heading(context, "Sheets", first.x, first.top, first.width, out)
    for entry in entries:
        y = _line(context, entry, first, y, out, 0.0 if entry.head else 4.0)
    beside = _printing(context, second, second.top, out)
    # On a low page the signs go under what is shorter, where they would run off the foot of the list's column.
    over = _signs(context, first, y - AIR * 0.7, [], near=near) < first.y
    if over and beside > y:
        return min(y, _signs(context, second, beside - AIR * 0.7, out, near=near))
    return min(_signs(context, first, y - AIR * 0.7, out, near=near), beside)


def _heading(context: Context, text: str, x: float, top: float, width: float, out: list[Record]) -> float:
    words = block(text, width, context.layout.heights.heading, context.metrics, bold=True)
    out += words.records((x, top))
    return top - words.tall - 1.5


def _line(
    context: Context,
    entry: Entry,
    column: Rect,
    y: float,
    out: list[Record],
    indent: float = 0.0,
    air: float = LIST_AIR,
) -> float:
    """Set one line of the list with its page and its link; return the top of the next."""
    height = context.layout.heights.note
    room = column.width - indent - measure(entry.pages, height, context.metrics) - 4.0
    bold = entry.head and indent == 0.0
    words = block(entry.title, room, height, context.metrics, bold=bold)
    records = words.records((column.x + indent, y))
    out += records
    last = records[-1]
    if isinstance(last, Text):
        out.append(Text((column.right, last.at[1]), entry.pages, height, "right", bold))
    out.append(Link((column.x, y - words.tall, column.width, words.tall), entry.key))
    return y - words.tall - (air - 1.0) * height


def _signs(context: Context, column: Rect, top: float, out: list[Record], *, near: bool) -> float:
    height = context.layout.heights.note
    y = _heading(context, "Which figure rules", column.x, top, column.width, out)
    signs = [(AUTHORITY[a], AUTHORITY_WORDS[a]) for a in Authority]
    for sign, words in [*signs, *([("≈", told_near(context.piece.units))] if near else [])]:
        text = block(words, column.width - 8.0, height, context.metrics)
        if sign:
            out.append(Text((column.x, y - text.steps()[0]), sign, height))
        out += text.records((column.x + 8.0, y))
        y -= text.tall + 0.9
    return y


def _printing(context: Context, column: Rect, top: float, out: list[Record]) -> float:
    heights = context.layout.heights
    y = _heading(context, "To print at true size", column.x, top, column.width, out)
    marks = f"Fingerprint {context.fingerprint}: pages that carry another one are of another printing. Do not mix them."
    own = (
        (drawn_for(context.printer, "The check lines here and all true-size pages are drawn"),)
        if context.printer
        else ()
    )
    for height, text in [
        *((heights.note, t) for t in (*PRINT, *own)),
        *((heights.small, t) for t in (*warnings(context.layout.size, context.piece.units.system), marks)),
    ]:
        lines = block(text, column.width, height, context.metrics)
        out += lines.records((column.x, y))
        y -= lines.tall + 1.2
    return y


# -- the list in full -------------------------------------------------------------------------------------------------


def _full_list(context: Context, entries: Sequence[Entry]) -> list[list[Record]]:
    """Return the pages of the full list: no last one for a few lines that the others have room for, closer together."""
    loose = list(_list_pages(context, entries, LIST_AIR))
    if len(loose) == 1:
        return loose
    close = list(_list_pages(context, entries, LESS_AIR))
    return close if len(close) < len(loose) else loose


def _list_pages(context: Context, entries: Sequence[Entry], air: float) -> Iterator[list[Record]]:
    """Yield the pages of the full list, in two columns or as many as a wide sheet has room for."""
    area = context.layout.area
    count = max(2, int((area.width + 3 * AIR) // (LIST_COLUMN + 3 * AIR)))
    wide = (area.width - (count - 1) * 3 * AIR) / count
    out: list[Record] = []
    top = _heading(context, "List of sheets", area.x, area.top, area.width, out) - 2.0
    columns = [Rect(area.x + i * (wide + 3 * AIR), area.y, wide, top - area.y) for i in range(count)]
    at, y = 0, top
    for i, entry in enumerate(entries):
        need = _needed(context, entry, columns[at], air)
        if entry.head and i + 1 < len(entries) and not entries[i + 1].head:
            need += _needed(context, entries[i + 1], columns[at], air)
        if y - need < area.y:
            at, y = at + 1, top
            if at == len(columns):
                yield out
                out = []
                _heading(context, "List of sheets, continued", area.x, area.top, area.width, out)
                at = 0
        if entry.head and y < top:
            y -= 1.5
        y = _line(context, entry, columns[at], y, out, 0.0 if entry.head else 4.0, air)
    yield out


def _needed(context: Context, entry: Entry, column: Rect, air: float) -> float:
    return column.top - _line(context, entry, column, column.top, [], 4.0, air) + 1.5
