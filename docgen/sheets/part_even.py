"""Figures of one height in all drawings of a part: the larger one where its pages have room for it, else the lower one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from docgen.sheets.context import Context
from docgen.sheets.part_block import drawn_at, fitted
from docgen.sheets.part_grow import rooms
from docgen.sheets.part_pages import Page, repacked
from docgen.sheets.part_share import Entry


def evened(context: Context, pages: Sequence[Page[Entry]]) -> list[Page[Entry]]:
    """Return the pages with the figures of each part at one height, its drawings at their scales."""
    heights: dict[str, set[float]] = {}
    for e in (s.block for page in pages for s in page.blocks):
        heights.setdefault(e.kind.first, set()).add(e.placed.setting.height)
    out = list(pages)
    for part, found in heights.items():
        if len(found) > 1:
            out = _at(context, out, part, max(found)) or _at(context, out, part, min(found)) or out
    return out


def _at(context: Context, pages: Sequence[Page[Entry]], part: str, height: float) -> list[Page[Entry]]:
    """Return the pages with a part's figures at a height; none where a drawing has no room for that."""
    out = []
    for page in pages:
        for n, block in enumerate([s.block for s in page.blocks]):
            if block.kind.first == part and block.placed.setting.height != height:
                made = _changed(context, page, n, height)
                if made is None:
                    return []
                page = made
        out.append(page)
    return out


def _changed(context: Context, page: Page[Entry], n: int, height: float) -> Page[Entry] | None:
    """Return a page with one drawing's figures at a height; it may be turned where they are higher."""
    blocks = [s.block for s in page.blocks]
    entry, setting = blocks[n], blocks[n].placed.setting
    for room in rooms(page, n):
        if height > setting.height:
            at = (setting.factor, setting.factor)
            placed = fitted(entry.subject, entry.kind, context, room, at, low=False)
        else:
            placed = drawn_at(entry.subject, entry.kind, context, room, replace(setting, height=height))
        made = replace(entry, placed=placed) if placed is not None else entry
        held = repacked(page, [*blocks[:n], made, *blocks[n + 1 :]]) if placed is not None else None
        if held is not None:
            return held
    return None
