"""Long parts drawn broken where that shows them a step of scale larger: how long they come out, in which blocks."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from docgen.drawing.placing import around
from docgen.piece.records import Face
from docgen.sheets.context import Context
from docgen.sheets.part_block import HEADING, drawn_at, fitted
from docgen.sheets.part_broken import SHARES, SMALL, along, fuses, slender
from docgen.sheets.part_guess import extents
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_room import laid
from docgen.sheets.part_share import Entry, groups
from docgen.sheets.part_view import HERE, LATER, Setting, Subject

OVER = 4.0  # mm that figures may take beyond what was reckoned
LONGER = 1.25  # times the length on paper at the smaller scale: what a part in new blocks comes to
PAPER = 1.15  # times the height of its blocks: what a part drawn another step larger may take
THIN = 12.0  # mm on paper: a part that comes out no wider is worth another page
Groups = tuple[tuple[Face, ...], ...]
Room = tuple[float, float]


def shorter(context: Context, entries: list[Entry]) -> list[Entry]:
    """Return a long part broken where that draws it a step of scale larger, two where that takes hardly more paper, else as it is.

    The blocks stay what they are where that does; one that comes out thin is shared out anew, on hardly more paper.
    """
    subject, factor = entries[0].subject, min(e.placed.setting.factor for e in entries)
    larger = [(a, b) for a, b in context.layout.scales[context.piece.units.system] if a / b > factor + 1e-9]
    able = slender(subject.part) or fuses(subject.part, factor)
    if subject.bare or not larger or factor >= SMALL or not able:
        return entries
    scale, *more = sorted(larger, key=lambda s: s[0] / s[1])
    made = _same(context, entries, scale) or _anew(context, entries, scale, _tall(entries) + context.layout.area.height)
    if made and more and scale[0] / scale[1] < SMALL - 1e-9:
        most = PAPER * _tall(made)
        again = _same(context, entries, more[0]) or _anew(context, entries, more[0], most)
        made = again if again and _tall(again) <= most else made
    return made or entries


def _tall(entries: list[Entry]) -> float:
    return sum(e.placed.height for e in entries)


def _thin(entries: list[Entry]) -> bool:
    """Return True for a part that comes out narrow on paper."""
    part = entries[0].subject.part
    wide = max(float(part.span(i)[1] - part.span(i)[0]) for i in (1, 2))
    factor = min(e.placed.setting.factor for e in entries)
    return wide * factor < THIN or fuses(part, factor)


def _half(context: Context) -> Room:
    return (context.layout.area.width, (context.layout.area.height - BETWEEN) / 2)


def _same(context: Context, entries: list[Entry], scale: tuple[int, int]) -> list[Entry]:
    """Return the same blocks with the part broken to about the length that it had at the smaller scale; none if they do not fit."""
    subject, half, area = entries[0].subject, _half(context), context.layout.area
    span, factor = subject.part.span(0), min(e.placed.setting.factor for e in entries)
    long = float(span[1] - span[0])
    page = (area.width, area.height)
    ways = [(half, False), (half, True), (page, False)]
    if len(entries) == 1 and entries[0].placed.height <= half[1]:
        ways.pop()
    shares = SHARES if sum(map(_long, entries)) == 1 else SHARES[:1]  # of several blocks the first try tells
    cut = [subject.broken(scale[0] / scale[1], long * (scale[0] / scale[1] - share * factor)) for share in shares]
    for (room, turned), (share, broken) in product(ways, zip(shares, cut, strict=True)):
        at = [_at(e, scale, turned) for e in entries]
        views = zip(entries, at, strict=True)
        if any(left(context, e.subject, room, s) < share * factor * long for e, s in views if _long(e)):
            continue
        made = _all_broken(context, entries, broken, at, room) if broken is not None else []
        if made:
            return made
    return []


def _all_broken(context: Context, entries: list[Entry], broken: Subject, at: list[Setting], room: Room) -> list[Entry]:
    """Return every block with its views broken; none when one of them does not fit."""
    made: list[Entry] = []
    for entry, setting in zip(entries, at, strict=True):
        one = _broken(context, entry, broken, setting, room)
        if one is None:
            return []
        made.append(one)
    return made


def _long(entry: Entry) -> bool:
    return along(entry.subject.stations(False))


def _at(entry: Entry, scale: tuple[int, int], turned: bool) -> Setting:
    setting = entry.placed.setting
    return replace(setting, scale=scale, upright=setting.upright is not turned)


def _broken(context: Context, entry: Entry, broken: Subject, setting: Setting, room: Room) -> Entry | None:
    """Return a block with its views broken, at a setting; one that looks along the length as it is, None if it does not fit."""
    if not _long(entry):
        return entry
    subject = broken.restricted(entry.subject.only, entry.subject.block)
    placed = drawn_at(subject, entry.kind, context, room, setting)
    if placed is None:
        return None
    return Entry(entry.kind, placed, subject, whole=_unbroken([entry], setting.scale))


def _anew(context: Context, entries: list[Entry], scale: tuple[int, int], most: float) -> list[Entry]:
    """Return a part that came out thin, broken and in other blocks, at most `most` mm high; none where it does not fit.

    Where each view has a block of its own the first one may leave the words about stock and work to the next.
    """
    if not _thin(entries):
        return []
    whole = entries[0].subject.restricted((), "")
    *_, apart = every = list(groups(whole))
    for shares in every[-2:]:  # fewer blocks would have taken the larger scale unbroken
        told = (LATER, HERE) if shares is apart and len(shares) > 1 else ("", "")
        made = _blocks(context, entries, restricted(whole, shares, told), scale, most)
        if made:
            return made
    return []


def restricted(whole: Subject, shares: Groups, told: tuple[str, str]) -> list[Subject]:
    """Return a part's blocks; what stands in `told` holds for the first and for the one after it."""
    many = len(shares)
    says = [*told, *("" for _ in shares)]
    return [
        whole.restricted(only, f", {n + 1} of {many}" if many > 1 else "", says[n]) for n, only in enumerate(shares)
    ]


def _blocks(
    context: Context, entries: list[Entry], plain: list[Subject], scale: tuple[int, int], most: float
) -> list[Entry]:
    """Return the blocks, those that show the length broken so that they fit a page; none when one does not.

    They are no higher than `most` mm together.
    """
    kind, factor, room = entries[0].kind, scale[0] / scale[1], (context.layout.area.width, context.layout.area.height)
    span = plain[0].part.span(0)
    whole = float(span[1] - span[0])
    long = LONGER * whole * min(e.placed.setting.factor for e in entries)
    if any(_able(context, s, room, scale) < long + OVER for s in plain if along(s.stations(False))):
        return []
    broken = plain[0].restricted((), "").broken(factor, whole * factor - long)
    if broken is None:
        return []
    blocks = [broken.restricted(s.only, s.block, s.told) if along(s.stations(False)) else s for s in plain]
    made: list[Entry] = []
    for s in blocks:
        placed = fitted(s, kind, context, room, (factor, factor if s.gone else 1.0))
        most -= placed.height if placed is not None else 0.0
        if placed is None or most < 0:
            return []
        made.append(Entry(kind, placed, s, whole=_unbroken(entries, scale) if len(blocks) == 1 else None))
    return made


def _unbroken(entries: list[Entry], scale: tuple[int, int]) -> Entry | None:
    """Return a part in one block as it stood before it was drawn smaller, where that was as large as it is broken."""
    whole = entries[0].whole if len(entries) == 1 else None
    return whole if whole is not None and whole.placed.setting.factor >= scale[0] / scale[1] - 1e-9 else None


def _able(context: Context, subject: Subject, room: Room, scale: tuple[int, int]) -> float:
    """Return about how long the part may come out on paper for a block to fit, mm: in the direction that leaves more."""
    setting = Setting(scale, context.layout.heights.least, False)
    return max(left(context, subject, room, replace(setting, upright=way)) for way in (False, True))


def left(context: Context, subject: Subject, room: Room, setting: Setting) -> float:
    """Return about how long the part may come out on paper at a setting for a block to fit, mm; 0 where it is too broad."""
    every = extents(subject, setting, context.metrics)
    x0, y0, x1, y1 = around(e.moved(by) for e, by in zip(every, laid(every), strict=True))
    wide, high = x1 - x0, y1 - y0
    span = subject.part.span(0)
    long = float(span[1] - span[0]) * setting.factor
    if setting.upright:
        return room[1] - HEADING - (high - long) if wide <= room[0] else 0.0
    return room[0] - (wide - long) if high <= room[1] - HEADING else 0.0
