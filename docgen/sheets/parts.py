"""Part sheets: each different part once, several small ones on a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from docgen.drawing.placing import moved
from docgen.drawing.records import Line, Pen, Record, Sheet, Text
from docgen.layout.model import Rect
from docgen.piece.model import DrawingWish, Kind
from docgen.schedules.showing import shows_elsewhere
from docgen.sheets import part_glued
from docgen.sheets.context import Context
from docgen.sheets.part_block import ALONE, fitted, poor
from docgen.sheets.part_clear import clear, levelled
from docgen.sheets.part_detail import Letters, detailed
from docgen.sheets.part_even import evened
from docgen.sheets.part_grow import filled
from docgen.sheets.part_order import bound
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_share import GOOD, blocks
from docgen.sheets.part_share import Entry as Entry
from docgen.sheets.part_shorter import shorter
from docgen.sheets.part_twins import twinned
from docgen.sheets.part_view import Subject
from docgen.sheets.part_words import placing, title


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return one block for each kind of part that is made, in the order of their numbers, packed on pages.

    Sheets of what is cut after the glue-up follow.
    """
    letters = Letters(context.piece)
    pages = packed(context, letters)
    keys = _keys(pages)
    every = [_sheet(context, page, key, _elsewhere(pages, keys, page)) for page, key in zip(pages, keys, strict=True)]
    return (*every, *part_glued.make(context, letters))


def packed(context: Context, letters: Letters | None = None) -> list[Page[Entry]]:
    """Return the blocks of all parts on their pages; `letters` are those that enlarged details may have."""
    area = context.layout.area
    made = [k for k in context.kinds if not context.piece.part(k.first).hardware]
    drawn = [clear(context, shorter(context, _entries(context, kind, area))) for kind in made]
    letters = letters or Letters(context.piece)
    every = [ways(detailed(context, entries, letters)) for entries in twinned(context, levelled(context, drawn))]
    return evened(context, filled(context, bound(context, every)))


def ways(entries: list[Entry]) -> list[list[Entry]]:
    """Return a part as it is drawn, and with its ends beside its other views where they stand apart."""
    whole = [e.joined for e in entries if e.joined is not None]
    factor = max(e.placed.setting.factor for e in entries if e.joined is None)
    return [entries, *([w] for w in whole if w.placed.setting.factor >= factor - 1e-9)]


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


def _keys(pages: list[Page[Entry]]) -> list[str]:
    """Return a key for each page: the first part on it, with a number where that has several."""
    names = [page.blocks[0].block.kind.first for page in pages]
    many = [names[: n + 1].count(name) for n, name in enumerate(names)]
    return [f"part/{name}" + (f"/{n}" if n > 1 else "") for name, n in zip(names, many, strict=True)]


def _elsewhere(pages: list[Page[Entry]], keys: list[str], page: Page[Entry]) -> dict[str, tuple[str, ...]]:
    """Return the keys of the other pages on which more of a part stands, by part."""
    others = [
        (s.block.kind.first, key)
        for other, key in zip(pages, keys, strict=True)
        if other is not page
        for s in other.blocks
    ]
    own = dict.fromkeys(s.block.kind.first for s in page.blocks)
    return {name: tuple(dict.fromkeys(key for part, key in others if part == name)) for name in own}


def _sheet(context: Context, page: Page[Entry], key: str, elsewhere: dict[str, tuple[str, ...]]) -> Sheet:
    """Return a page with its blocks; `elsewhere` holds the keys of the pages with more of a part."""
    area, records = context.layout.area, list[Record]()
    for s in page.blocks:
        x, y = area.x + s.free.x, area.top - s.free.y
        wide, high = s.block.size
        records += [moved(r, x, y) for r in s.block.placed.records]
        if more := elsewhere.pop(s.block.kind.first, ()):  # once a page
            records.append(_more(context, s.block, (x, y), more))
        if s.free.y > 0:
            end = x + (wide if s.beside else s.free.wide)
            records.append(Line((x, y + BETWEEN / 2), (end, y + BETWEEN / 2), Pen.THIN))
        if s.free.x > 0:
            records.append(Line((x - BETWEEN / 2, y), (x - BETWEEN / 2, y - high), Pen.THIN))
    entries = [s.block for s in page.blocks]
    names = dict.fromkeys(title(e.kind, context.lists) for e in entries)
    scales = dict.fromkeys(f"{e.placed.setting.scale[0]} : {e.placed.setting.scale[1]}" for e in entries)
    return Sheet(
        key=key,
        kind="parts",
        title=", ".join(names),
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )


def _more(context: Context, entry: Entry, at: tuple[float, float], keys: tuple[str, ...]) -> Text:
    """Return where more of a part stands, for the heading of a block that hangs from a point."""
    heights, number = context.layout.heights, entry.subject.part.number
    text = f"more of part {number}: sheet{'s' if len(keys) > 1 else ''}"
    end = at[0] + entry.placed.width - ALONE
    return Text((end, at[1] - heights.heading), text, heights.note, "right", sheets=keys)
