"""What stands around a sheet's drawing: frame, title block, page number, fingerprint, and the word of warning.

The fields of the title block are those of ISO 7200:2004 (legal owner, identification number, revision index, date of
issue, sheet number and number of sheets, title and supplementary title, approval person, creator, document type, document
status), with scale, paper, unit and projection, as is usual. The language code, an optional field, is left out: packets
are in English.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from docgen.drawing.lettering import width, wrap
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Arc, Line, Path, Pen, Record, Sheet, Text
from docgen.drawing.symbols import symbol
from docgen.drawing.tiling.printer_note import note_records
from docgen.layout.model import Layout, Rect
from docgen.layout.printers import Printer
from docgen.piece.model import Piece

STOPPED = "NOT TO BE CUT FROM: has stop findings"
BANNER_AIR = 0.45  # mm between the frame and the warning above it
CELL_AIR = 1.2  # mm between a cell's edge and its text
ROWS = (0.4, 0.3, 0.3)  # parts of the title block's height, from the top
GAP = 1.5  # baseline pitch as a multiple of the height (ISO 3098, with lower case letters)


@dataclass(frozen=True, slots=True)
class Field:
    """A cell of the title block: its name in small print, its text, its share of the row."""

    name: str
    text: str
    share: float
    bold: bool = False


def page_records(
    sheet: Sheet,
    layout: Layout,
    piece: Piece,
    metrics: Metrics,
    *,
    page: int,
    pages: int,
    fingerprint: str,
    stopped: bool,
    printer: Printer | None = None,
) -> tuple[Record, ...]:
    """Return everything on a page that is not the sheet's own; `layout` is that of the sheet's size."""
    of = f"sheet {page} of {pages}"
    if not sheet.framed:
        told = note_records(printer, layout, metrics, _foot_line(layout)) if printer else ()
        return (*_foot(sheet, layout, piece, metrics, of, fingerprint, stopped), *told)
    frame = layout.frame
    records: list[Record] = [Path(_corners(frame), Pen.FRAME, closed=True)]
    block = Rect(frame.x, frame.y, frame.width, layout.title_block)
    records.append(Line((block.x, block.top), (block.right, block.top), Pen.FRAME))
    records += _block(block, _fields(sheet, layout, piece, of, fingerprint, stopped), layout, metrics)
    records += _projection(block, piece, layout, metrics)
    if stopped:
        records += _banner(frame, layout, metrics)
    return tuple(records)


def _corners(r: Rect) -> tuple[tuple[float, float], ...]:
    return ((r.x, r.y), (r.right, r.y), (r.right, r.top), (r.x, r.top))


PROJECTION = "projection"
TYPES = {
    "views": "assembly drawing",
    "exploded": "assembly drawing",
    "parts": "component drawing",
    "joinery": "detail drawing",
    "templates": "template",
    "sticks": "story stick",
    "cutting": "parts list",
    "hardware": "parts list",
}
"""Sheet word → document type; ISO 7200 leaves the words to the user."""
OTHER_TYPE = "workshop sheet"
OVERSHOOT = 0.3  # of the projection symbol's height: how far its centre lines reach beyond it


def _fields(
    sheet: Sheet, layout: Layout, piece: Piece, of: str, fingerprint: str, stopped: bool
) -> tuple[tuple[Field, ...], ...]:
    status = STOPPED if stopped else "no finding stops the work"
    unit = "inches" if piece.units.system == "inch" else "millimetres"
    return (
        (
            Field("title", piece.title, 5.0, bold=True),
            Field("sheet", sheet.title, 5.0, bold=True),
            Field("number", piece.number, 2.0, bold=True),
            Field("revision", piece.revision, 1.1, bold=True),
        ),
        (
            Field("owner", piece.owner, 2.4),
            Field("creator", piece.author, 2.2),
            Field("approved by", piece.approved, 2.0),
            Field("date of issue", piece.date, 1.9),
            Field("scale", sheet.scale, 1.3),
            Field("all sizes in", unit, 1.7),
            Field(PROJECTION, "", 2.5),
        ),
        (
            Field("document type", TYPES.get(sheet.kind, OTHER_TYPE), 2.6),
            Field("status", status, 4.6, bold=stopped),
            Field("fingerprint", fingerprint, 2.1),
            Field("paper", layout.paper or layout.name, 1.7),
            Field("page", of, 2.3, bold=True),
        ),
    )


def _block(block: Rect, rows: tuple[tuple[Field, ...], ...], layout: Layout, metrics: Metrics) -> Iterator[Record]:
    top = block.top
    for part, fields in zip(ROWS, rows, strict=True):
        height = part * block.height
        for field, cell in _cells(block, top, height, fields):
            if cell.x > block.x:
                yield Line((cell.x, cell.y), (cell.x, cell.top), Pen.THIN)
            yield from _cell(field, cell, layout, metrics)
        top -= height
        if top > block.y + 1e-6:
            yield Line((block.x, top), (block.right, top), Pen.THIN)


def _cells(block: Rect, top: float, height: float, fields: tuple[Field, ...]) -> Iterator[tuple[Field, Rect]]:
    unit = block.width / sum(field.share for field in fields)
    x = block.x
    for field in fields:
        yield field, Rect(x, top - height, unit * field.share, height)
        x += unit * field.share


def _cell(field: Field, cell: Rect, layout: Layout, metrics: Metrics) -> Iterator[Record]:
    small = layout.heights.small
    x, label = cell.x + CELL_AIR, cell.top - 0.8 - small
    yield Text((x, label), field.name, small)
    if field.text:
        room = Rect(x, cell.y + 0.9, cell.width - 2 * CELL_AIR, label - 0.9 - 0.3 * small - (cell.y + 0.9))
        height, lines = fitted(field.text, room, layout, metrics, bold=field.bold)
        for i, line in enumerate(lines):
            at = (x, room.y + 0.15 * height + (len(lines) - 1 - i) * GAP * height)
            yield Text(at, line, height, bold=field.bold)


def fitted(
    text: str, room: Rect, layout: Layout, metrics: Metrics, *, bold: bool = False
) -> tuple[float, tuple[str, ...]]:
    """Return the largest height of the layout, and the lines, in which `text` fits `room`.

    At the least height what still does not fit is shortened and ends in "…"; the cover has it whole.
    """
    h = layout.heights
    for height in sorted({h.heading, h.note, h.small}, reverse=True):
        most = int((room.height - height) / (GAP * height) + 1e-6) + 1 if room.height >= height - 1e-6 else 0
        lines = wrap(text, room.width, height, metrics, bold)
        whole = all(word in " ".join(lines) for word in text.split())  # no word was broken
        if len(lines) <= most and (whole or height == h.small):
            return height, tuple(lines)
    most = max(1, int((room.height - h.small) / (GAP * h.small)) + 1)
    kept = wrap(text, room.width, h.small, metrics, bold)[:most]
    while kept[-1] and width(kept[-1] + "…", h.small, metrics, bold) > room.width:
        kept[-1] = kept[-1][:-1]
    return h.small, (*kept[:-1], kept[-1] + "…")


def _projection(block: Rect, piece: Piece, layout: Layout, metrics: Metrics) -> Iterator[Record]:
    """Draw the projection symbol in its cell, right of its name, in narrow lines since it is small."""
    rows = _fields(Sheet("", "", "", (0, 0), ()), layout, piece, "", "", False)
    top = block.top - ROWS[0] * block.height
    for field, cell in _cells(block, top, ROWS[1] * block.height, rows[1]):
        if field.name != PROJECTION:
            continue
        named = metrics.width(field.name, layout.heights.small)
        height = (cell.height - 2.0) / (1 + 2 * OVERSHOOT)
        x = cell.x + 2 * CELL_AIR + named + OVERSHOOT * height + 1.0
        for record in symbol(piece.projection, (x, cell.y + 1.0 + OVERSHOOT * height), height):
            if isinstance(record, (Line, Path, Arc)) and record.pen is Pen.VISIBLE:
                yield replace(record, pen=Pen.THIN)
            else:
                yield record


def _banner(frame: Rect, layout: Layout, metrics: Metrics) -> Iterator[Record]:
    """Repeat the warning along the upper edge, between frame and the edge that printers leave white.

    Capitals alone, since there is no room for what reaches below the baseline.
    """
    height = layout.heights.note
    between = "   ▲   "
    words = STOPPED.upper()
    one = width(words + between, height, metrics, True)
    count = max(1, int((frame.width + width(between, height, metrics, True)) / one))
    at = (frame.x + frame.width / 2, frame.top + BANNER_AIR)
    yield Text(at, between.join([words] * count), height, "middle", bold=True)


def _foot_line(layout: Layout) -> float:
    """Return the baseline of the line at the foot of an unframed page."""
    return layout.unprintable + 0.4 * layout.heights.small


def _foot(
    sheet: Sheet, layout: Layout, piece: Piece, metrics: Metrics, of: str, fingerprint: str, stopped: bool
) -> Iterator[Record]:
    """Name an unframed page in one line at its foot: what it belongs to, its number, its fingerprint."""
    area = layout.open_area
    height = layout.heights.small
    baseline = _foot_line(layout)
    name = " · ".join(t for t in (piece.number, piece.title, f"rev {piece.revision}" if piece.revision else "") if t)
    left = " · ".join((name, sheet.title, sheet.scale)) if sheet.scale else f"{name} · {sheet.title}"
    right = f"{of} · {fingerprint}"
    room = area.width - width(right, height, metrics, stopped) - 4
    if stopped:
        right = f"{STOPPED} · {right}"
        room = area.width - width(right, height, metrics, True) - 4
    _, lines = fitted(left, Rect(0, 0, room, height), layout, metrics)
    yield Text((area.x, baseline), lines[0], height)
    yield Text((area.right, baseline), right, height, "right", bold=stopped)
