"""Part sheets: each different part once, several small ones on a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from docgen.drawing.placing import PaperFault, moved
from docgen.drawing.records import Line, Pen, Record, Sheet
from docgen.layout.model import Rect
from docgen.piece.model import DrawingWish, Kind
from docgen.schedules.showing import shows_elsewhere
from docgen.sheets import part_glued
from docgen.sheets.context import Context
from docgen.sheets.part_block import fitted, poor
from docgen.sheets.part_clear import clear, levelled
from docgen.sheets.part_detail import Letters, detailed
from docgen.sheets.part_grow import filled
from docgen.sheets.part_merge import Merger, further
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_share import GOOD, blocks
from docgen.sheets.part_share import Entry as Entry
from docgen.sheets.part_shorter import shorter
from docgen.sheets.part_view import Subject
from docgen.sheets.part_words import placing, title


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return one block for each kind of part that is made, in the order of their numbers, packed on pages.

    Sheets of what is cut after the glue-up follow.
    """
    pages = packed(context)
    return (*(_sheet(context, page, context.layout.area) for page in pages), *part_glued.make(context))


def packed(context: Context, letters: Letters | None = None) -> list[Page[Entry]]:
    """Return the blocks of all parts on their pages; `letters` are those that enlarged details may have."""
    area = context.layout.area
    pages: list[Page[Entry]] = []
    made = [k for k in context.kinds if not context.piece.part(k.first).hardware]
    drawn = [clear(context, shorter(context, _entries(context, kind, area))) for kind in made]
    letters = letters or Letters(context.piece)
    for entries in levelled(context, drawn):
        first = 0
        for entry in detailed(context, entries, letters):
            first = _put(context, pages, first, further(context, entry, entries[0]), area)
    return filled(context, Merger(context).merged(pages))


def _put(context: Context, pages: list[Page[Entry]], first: int, entry: Entry, area: Rect) -> int:
    """Put a part on the first page from `first` on with room for it, a step smaller if that is as good, or on a new one.

    Returns the page's number: blocks of one part stay in their order.
    """
    for n, page in enumerate(pages[first:], first):
        if page.take(lambda room: _again(context, entry, room)):
            return n
    if len(pages) > first and pages[-1].take(lambda room: _tight(context, entry, room, area)):
        return len(pages) - 1
    pages.append(Page(area.width, area.height))
    if not pages[-1].take(lambda room: entry):
        raise PaperFault(f"the sheet of {entry.subject.part.path}")
    return len(pages) - 1


def _again(context: Context, entry: Entry, room: tuple[float, float]) -> Entry | None:
    """Return the part as it stands in a free rectangle, at the same scale and with figures of the same height."""
    placed = entry.placed
    if placed.width <= room[0] and placed.height <= room[1]:
        return entry
    if room[0] >= context.layout.area.width - 1e-6:
        return None  # it was made for this width
    factor = placed.setting.factor
    narrow = fitted(entry.subject, entry.kind, context, room, (factor, factor))
    good = narrow is not None and narrow.setting.height >= placed.setting.height
    return replace(entry, placed=narrow) if narrow is not None and good else None


def _tight(context: Context, entry: Entry, room: tuple[float, float], area: Rect) -> Entry | None:
    """Return the part a step smaller where that brings it into what is left of a page."""
    if room[0] < area.width or room[1] < area.height / 5:
        return None
    tight = _squeezed(context, entry, room)
    return tight if tight.placed.height <= room[1] else None


def _entries(context: Context, kind: Kind, area: Rect) -> list[Entry]:
    """Return the part as one block, on half a page where that costs no more than one step of scale, or as several.

    Several blocks, each with some of the views, are taken where one would need a scale under 1 : 10.
    """
    part = context.piece.part(kind.first)
    third = context.piece.projection != "first angle"
    names = {p.path: p.called for p in context.piece.parts}
    asked, within = _asked(context, kind), placing(context.piece)
    shown = shows_elsewhere(context.piece, kind.parts)
    subject = Subject(
        part, context.solids, context.piece.units, third, names=names, asked=asked, placing=within, shown=shown
    )
    made = blocks(context, kind, subject, (area.width, area.height))
    if len(made) > 1 or made[0].placed.height <= area.height / 2:
        return made
    return [_squeezed(context, made[0], (area.width, (area.height - BETWEEN) / 2))]


def _ladder(context: Context) -> list[float]:
    """Return the scales of the layout as factors, largest first."""
    return sorted((a / b for a, b in context.layout.scales[context.piece.units.system]), reverse=True)


def _asked(context: Context, kind: Kind) -> tuple[DrawingWish, ...]:
    """Return what the file asks of the sheet of any of the parts that are made alike."""
    return tuple(w for w in context.piece.drawing if w.part in kind.parts)


def _squeezed(context: Context, entry: Entry, room: tuple[float, float]) -> Entry:
    """Return the part as it fits less room, if that costs no more than one step of scale and stays large enough."""
    if entry.subject.gone or entry.subject.only or entry.kept:  # what is left out, or in other blocks, suits its scale
        return entry
    whole = entry.placed
    smaller = [s for s in _ladder(context) if s < whole.setting.factor - 1e-9]
    between = (max(smaller[0] if smaller else 0.0, GOOD), whole.setting.factor)
    tight = fitted(entry.subject, entry.kind, context, room, between)
    good = tight is not None and tight.setting.height >= whole.setting.height and not poor(tight)
    return replace(entry, placed=tight, whole=entry) if tight is not None and good else entry


def _sheet(context: Context, page: Page[Entry], area: Rect) -> Sheet:
    records: list[Record] = []
    for s in page.blocks:
        x, y = area.x + s.free.x, area.top - s.free.y
        wide, high = s.block.size
        records += [moved(r, x, y) for r in s.block.placed.records]
        if s.free.y > 0:
            end = x + (wide if s.beside else s.free.wide)
            records.append(Line((x, y + BETWEEN / 2), (end, y + BETWEEN / 2), Pen.THIN))
        if s.free.x > 0:
            records.append(Line((x - BETWEEN / 2, y), (x - BETWEEN / 2, y - high), Pen.THIN))
    entries = [s.block for s in page.blocks]
    names = dict.fromkeys(title(e.kind, context.lists) for e in entries)
    scales = dict.fromkeys(f"{e.placed.setting.scale[0]} : {e.placed.setting.scale[1]}" for e in entries)
    return Sheet(
        key=f"part/{entries[0].kind.first}",
        kind="parts",
        title=", ".join(names),
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )
