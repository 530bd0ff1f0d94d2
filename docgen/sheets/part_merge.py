"""Fewer pages for the parts: two pages that are half empty become one where their blocks fit it, some a step smaller.

The further drawings of a part may come down to the scale of its first one, a part in one block by one step of the ladder, as
long as its figures keep their height. What does not save a page stays as large as it was.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.sheets.context import Context
from docgen.sheets.part_block import fitted, poor
from docgen.sheets.part_broken import along
from docgen.sheets.part_pages import BETWEEN, Page, repacked
from docgen.sheets.part_share import GOOD, Entry

REACH = 6  # pages: parts that are further apart than this stay where their numbers put them
MOST = 4  # blocks on a page that is looked at: more are hardly ever worth the search


@dataclass(slots=True)
class Merger:
    """Merges pages of blocks; what a block is like when it is smaller is worked out once."""

    context: Context
    _tight: dict[tuple[int, float], tuple[Entry, Entry | None]] = field(init=False, default_factory=dict)
    _first: dict[str, float] = field(init=False, default_factory=dict)

    def merged(self, pages: list[Page[Entry]]) -> list[Page[Entry]]:
        """Return the pages, those that fit one another made one; drawings of one part stay in their order."""
        for page in pages:
            for s in page.blocks:
                self._first.setdefault(s.block.kind.first, s.block.placed.setting.factor)
        out = list(pages)
        self._merge(out)
        if _rejoined(out):
            self._merge(out)
        return out

    def _merge(self, out: list[Page[Entry]]) -> None:
        n = 0
        while n < len(out):
            found = next(self._partners(out, n), None)
            if found is None:
                n += 1
            else:
                q, page = found
                out[n] = page
                del out[q]

    def _partners(self, pages: Sequence[Page[Entry]], n: int) -> Iterator[tuple[int, Page[Entry]]]:
        """Yield a page after page n that it can take in, with what the two become."""
        for q in range(n + 1, min(len(pages), n + 1 + REACH)):
            between = {s.block.kind.first for page in pages[n + 1 : q] for s in page.blocks}
            if not any(s.block.kind.first in between for s in pages[q].blocks):
                page = self._together(pages[n], pages[q])
                if page is not None:
                    yield q, page

    def _together(self, one: Page[Entry], other: Page[Entry]) -> Page[Entry] | None:
        """Return the page that takes the blocks of both: as they are, with one that keeps to what is left, or several smaller."""
        blocks = [s.block for s in (*one.blocks, *other.blocks)]
        page = repacked(one, blocks)
        if page is not None or len(blocks) > MOST or self._too_high(blocks, one.high):
            return page
        tall = sum(e.placed.height for e in blocks) + BETWEEN * (len(blocks) - 1)
        for n, entry in reversed(list(enumerate(blocks))):
            tight = self._within(entry, one.high - tall + entry.placed.height)
            if tight is not None:
                return repacked(one, [*blocks[:n], tight, *blocks[n + 1 :]])
        half = (one.high - BETWEEN) / 2
        return repacked(one, [self._within(e, half) or e for e in blocks])

    def _too_high(self, blocks: Sequence[Entry], high: float) -> bool:
        """Return True for blocks that are higher together than a page however small they may be drawn."""
        return sum(self._least(e) for e in blocks) + BETWEEN * (len(blocks) - 1) > high

    def _lowest(self, entry: Entry) -> float:
        """Return the smallest factor at which a block may be drawn to share a page; its own where it has to stay."""
        subject, factor = entry.subject, entry.placed.setting.factor
        if subject.gone and along(subject.stations(False)):  # what is left out suits its scale
            return factor
        if subject.only and subject.first not in subject.only:
            return min(factor, self._first[entry.kind.first])
        if subject.only or entry.kept or entry.whole is not None:
            return factor
        scales = self.context.layout.scales[self.context.piece.units.system]
        smaller = [a / b for a, b in scales if a / b < factor - 1e-9]
        return max([GOOD, *smaller[:1]]) if factor > GOOD else factor

    def _least(self, entry: Entry) -> float:
        """Return a height under which the block cannot come: its views alone shrink, its words do not."""
        placed = entry.placed
        views = max(v[3] for v in placed.spread.fields) - min(v[1] for v in placed.spread.fields)
        return placed.height - views * (1 - self._lowest(entry) / placed.setting.factor)

    def _within(self, entry: Entry, high: float) -> Entry | None:
        """Return the block at the largest scale at which it is no higher than `high` mm; None if it may come to none.

        Its figures stay as high as they are.
        """
        key = (id(entry), round(high, 1))
        if key not in self._tight:
            made = self._made(entry, high) if high >= self._least(entry) else None
            self._tight[key] = (entry, made)  # the block itself is kept, so that no other can have its id
        return self._tight[key][1]

    def _made(self, entry: Entry, high: float) -> Entry | None:
        placed = entry.placed
        if entry.subject.gone and along(entry.subject.stations(False)):  # what is left out suits its block
            return None
        room, between = (self.context.layout.area.width, high), (self._lowest(entry), placed.setting.factor)
        tight = fitted(entry.subject, entry.kind, self.context, room, between)
        if tight is None or tight.setting.height < placed.setting.height or poor(tight):
            return None
        smaller = tight.setting.factor < placed.setting.factor - 1e-9
        return replace(entry, placed=tight, whole=(entry.whole or entry) if smaller else entry.whole)


def _rejoined(pages: list[Page[Entry]]) -> bool:
    """Put ends that fill no page of their own back to the other views of their parts; True where that saved a page."""
    saved = False
    for q in range(len(pages) - 1, -1, -1):
        alone = [s.block.joined for s in pages[q].blocks if s.block.joined is not None]
        rest = [_without_ends(pages[:q], whole) for whole in alone] if len(alone) == len(pages[q].blocks) == 1 else []
        for found in rest:
            if found is not None:
                pages[found[0]] = found[1]
                del pages[q]
                saved = True
    return saved


def _without_ends(pages: Sequence[Page[Entry]], whole: Entry) -> tuple[int, Page[Entry]] | None:
    """Return the page that takes a part with all its views in place of its first drawing, and its number."""
    for n, page in enumerate(pages):
        blocks = [s.block for s in page.blocks]
        drawn = [b.placed.setting.factor for b in blocks if b.kind is whole.kind]
        if drawn and max(drawn) > whole.placed.setting.factor + 1e-9:
            return None  # it was drawn larger, broken, in the meantime
        if drawn:
            made = repacked(page, [whole if b.kind is whole.kind else b for b in blocks])
            return (n, made) if made is not None else None
    return None


def further(context: Context, entry: Entry, first: Entry) -> Entry:
    """Return a further drawing of a part on half a page, if the scale of the first one is enough for that.

    It is drawn larger again where it shares its page with nothing after all.
    """
    subject, placed, area = entry.subject, entry.placed, context.layout.area
    half, factor = (area.height - BETWEEN) / 2, first.placed.setting.factor
    may = subject.only and subject.first not in subject.only and not subject.gone and entry.whole is None
    if not may or placed.height <= half or factor >= placed.setting.factor - 1e-9:
        return entry
    small = fitted(subject, entry.kind, context, (area.width, half), (factor, placed.setting.factor))
    good = small is not None and small.setting.height >= placed.setting.height
    return replace(entry, placed=small, whole=entry) if small is not None and good else entry
