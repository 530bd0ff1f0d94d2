"""Drawings made larger where their page has room: the last step, when it is known what shares a page with what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from docgen.sheets.context import Context
from docgen.sheets.part_block import drawn_at, fine, fitted
from docgen.sheets.part_broken import SHARES, SMALL, WORTH, along, longish
from docgen.sheets.part_pages import BETWEEN, Page, repacked
from docgen.sheets.part_share import Entry
from docgen.sheets.part_shorter import OVER, Room, left
from docgen.sheets.part_view import Setting

Scale = tuple[int, int]
SHORTEST = 0.6  # times the length on paper at the smaller scale: a broken part comes out no shorter
TRUE = 1.0  # parts are not drawn larger than they are


def filled(context: Context, pages: Sequence[Page[Entry]]) -> list[Page[Entry]]:
    """Return the pages with each drawing at the largest scale for which its page has room beside all else that stands there.

    A part's first drawing is made no larger than its further ones.
    """
    most: dict[str, float] = {}
    out: list[Page[Entry]] = []
    for page in reversed(pages):
        out.insert(0, _full(context, page, most))
        for s in out[0].blocks:
            name, factor = s.block.kind.first, s.block.placed.setting.factor
            most[name] = min(factor, most.get(name, factor))
    return out


def _full(context: Context, page: Page[Entry], most: dict[str, float]) -> Page[Entry]:
    """Return a page with its drawings made larger, the smallest first, until none finds room for a further step."""
    done: set[tuple[str, str]] = set()
    while True:
        able = [n for n, s in enumerate(page.blocks) if (s.block.kind.first, s.block.subject.block) not in done]
        if not able:
            return page
        n = min(able, key=lambda n: (page.blocks[n].block.placed.setting.factor, -n))
        entry = page.blocks[n].block
        again = _larger(context, page, n, _limit(page, n, most))
        if again is None:
            done.add((entry.kind.first, entry.subject.block))
        else:
            page = again


def _limit(page: Page[Entry], n: int, most: dict[str, float]) -> float:
    """Return the largest factor that a drawing may have: that of the further drawings of its part."""
    entry = page.blocks[n].block
    later = [s.block.placed.setting.factor for s in page.blocks[n + 1 :] if s.block.kind is entry.kind]
    return min([TRUE, most.get(entry.kind.first, TRUE), *later])


def _larger(context: Context, page: Page[Entry], n: int, most: float) -> Page[Entry] | None:
    """Return the page with one drawing a step larger, or more; None where it has no room for that."""
    blocks = [s.block for s in page.blocks]
    entry = blocks[n]
    scale = larger(context, entry, most)
    if scale is None:
        return None
    for room in rooms(page, n):
        made = enlarged(context, entry, room, scale, most)
        held = repacked(page, [*blocks[:n], made, *blocks[n + 1 :]]) if made is not None else None
        if held is not None:
            return held
    return None


def larger(context: Context, entry: Entry, most: float) -> Scale | None:
    """Return the next larger scale of the ladder, as long as it is no larger than `most`."""
    now = entry.placed.setting.factor + 1e-9
    every = [s for s in context.layout.scales[context.piece.units.system] if now < s[0] / s[1] <= most + 1e-9]
    return min(every, key=lambda s: s[0] / s[1], default=None)


def rooms(page: Page[Entry], n: int) -> list[Room]:
    """Return the rooms that a drawing may take: what the rows of the others leave, and its own rectangle with what is free under all."""
    own = page.blocks[n]
    if not any(s.beside for s in page.blocks):
        others = sum(s.block.size[1] + BETWEEN for m, s in enumerate(page.blocks) if m != n)
        return [(page.wide, page.high - others)]
    slack = page.free[-1].high if page.free and page.free[-1].x == 0 else 0.0
    return [(own.free.wide, own.block.size[1] + slack)]


def enlarged(context: Context, entry: Entry, room: Room, scale: Scale, most: float) -> Entry | None:
    """Return a drawing at a scale or a larger one, up to `most`, in a room, its figures no smaller; None if it does not fit.

    A long part is broken, or broken less, where it would not fit unbroken and has something that comes out fine.
    """
    factor, subject = scale[0] / scale[1], entry.subject
    low = entry.placed.setting.height < context.layout.heights.figure - 1e-9
    long = subject.whole is not None and along(subject.stations(False))
    plain = subject.unbroken() if long else subject
    placed = fitted(plain, entry.kind, context, room, (factor, most), low=low)
    if placed is not None:
        return replace(entry, placed=placed, subject=plain, whole=None)
    if not (long or fine(entry.placed)):
        return None
    return broken(context, replace(entry, subject=plain), room, scale, low=low)


def broken(context: Context, entry: Entry, room: Room, scale: Scale, *, low: bool) -> Entry | None:
    """Return a drawing at a larger scale, broken as little as the room asks for; None if it does not fit, or is not long enough.

    Figures of the least height are taken where they may be `low`.
    """
    plain, setting, heights = entry.subject, entry.placed.setting, context.layout.heights
    if setting.factor >= SMALL or not longish(plain.part) or not along(plain.stations(False)):
        return None
    factor, span = scale[0] / scale[1], plain.part.span(0)
    whole = float(span[1] - span[0])
    ways = [Setting(scale, h, way) for h in (heights.figure, heights.least)[: 1 + low] for way in (False, True)]
    for at in ways:
        most = min(left(context, plain, room, at) - OVER, whole * factor - WORTH)
        for share in SHARES:
            if most * share < SHORTEST * whole * setting.factor:
                break
            cut = plain.restricted((), "").broken(factor, whole * factor - most * share)
            if cut is None:
                break
            subject = cut.restricted(plain.only, plain.block, plain.told)
            placed = drawn_at(subject, entry.kind, context, room, at)
            if placed is not None:
                return replace(entry, placed=placed, subject=subject, whole=None)
    return None
