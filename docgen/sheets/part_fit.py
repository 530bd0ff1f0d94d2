"""Which drawings share a page: as they stand, beside one another, or some of them smaller by a step or turned.

The further drawings of a part may come down to the scale of its first one, a part in one block by one step of the ladder, as
long as its figures keep their height.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from docgen.drawing.placing import around
from docgen.sheets.context import Context
from docgen.sheets.part_block import drawn_at, fitted, poor
from docgen.sheets.part_broken import along
from docgen.sheets.part_pages import BETWEEN, Page, repacked
from docgen.sheets.part_share import GOOD, Entry

MOST = 5  # drawings on a page of which some may be smaller: more are hardly ever worth the search


@dataclass(slots=True)
class Fits:
    """Makes pages of drawings; what is tried once is kept. `first` holds the factor of each part's first drawing."""

    context: Context
    first: dict[str, float]
    _pages: dict[tuple[int, ...], Page[Entry] | None] = field(init=False, default_factory=dict)
    _again: dict[tuple[int, float, float], Entry | None] = field(init=False, default_factory=dict)
    _smaller: dict[int, tuple[Entry, ...]] = field(init=False, default_factory=dict)
    _held: list[Entry] = field(init=False, default_factory=list)  # kept, so that no other can have the id of one

    def page(self, entries: Sequence[Entry]) -> Page[Entry] | None:
        """Return a page with drawings in their order: as they are, beside one another at their scale, or some smaller."""
        key = tuple(map(id, entries))
        if key not in self._pages:
            self._held += entries
            self._pages[key] = self._made(entries)
        return self._pages[key]

    def _made(self, entries: Sequence[Entry]) -> Page[Entry] | None:
        area = self.context.layout.area
        page: Page[Entry] = Page(area.width, area.height)
        if all(page.take(lambda room, e=e: self._narrow(e, room)) for e in entries):  # type: ignore[misc]
            return page
        return self._smallest(entries, page) if len(entries) <= MOST else None

    def _narrow(self, entry: Entry, room: tuple[float, float]) -> Entry | None:
        """Return a drawing as it stands in a free rectangle, at the same scale and with figures of the same height."""
        placed = entry.placed
        if placed.width <= room[0] and placed.height <= room[1]:
            return entry
        x0, y0, x1, y1 = around(placed.spread.fields)
        if room[0] >= self.context.layout.area.width - 1e-6 or min(x1 - x0, y1 - y0) > min(room):
            return None  # it was made for this width
        key = (id(entry), round(room[0], 1), round(room[1], 1))
        if key not in self._again:
            factor = placed.setting.factor
            narrow = fitted(entry.subject, entry.kind, self.context, room, (factor, factor))
            good = narrow is not None and narrow.setting.height >= placed.setting.height
            self._again[key] = replace(entry, placed=narrow) if narrow is not None and good else None
        return self._again[key]

    def _smallest(self, entries: Sequence[Entry], page: Page[Entry]) -> Page[Entry] | None:
        """Return a page on which some drawings are smaller or turned, those that lose least; None if that is not enough."""
        gaps = BETWEEN * (len(entries) - 1)
        if sum(self.least(e) for e in entries) + gaps > page.high:
            return None
        every = [(e, *self._variants(e)) for e in entries]
        if sum(min(v.placed.height for v in variants) for variants in every) + gaps > page.high:
            return None
        for made in sorted(product(*every), key=lambda made: sum(map(lost, made))):
            if sum(e.placed.height for e in made) + gaps <= page.high:
                return repacked(page, made)
        return None

    def _lowest(self, entry: Entry) -> float:
        """Return the smallest factor at which a block may be drawn to share a page; its own where it has to stay."""
        subject, factor = entry.subject, entry.placed.setting.factor
        if subject.gone and along(subject.stations(False)):  # what is left out suits its scale
            return factor
        if subject.only and subject.first not in subject.only:
            return min(factor, self.first[entry.kind.first])
        if subject.only or entry.kept or entry.whole is not None:
            return factor
        scales = self.context.layout.scales[self.context.piece.units.system]
        smaller = [a / b for a, b in scales if a / b < factor - 1e-9]
        return max([GOOD, *smaller[:1]]) if factor > GOOD else factor

    def least(self, entry: Entry) -> float:
        """Return a height under which the block cannot come: its views alone shrink, its words do not."""
        placed = entry.placed
        x0, y0, x1, y1 = around(placed.spread.fields)
        ratio = self._lowest(entry) / placed.setting.factor
        return placed.height - max(y1 - y0, 0.0) + ratio * min(y1 - y0, x1 - x0)

    def _variants(self, entry: Entry) -> tuple[Entry, ...]:
        """Return a block as it may stand to share a page: smaller by a step, or lying in place of upright."""
        if id(entry) not in self._smaller:
            self._smaller[id(entry)] = tuple(self._tried(entry))
        return self._smaller[id(entry)]

    def _tried(self, entry: Entry) -> Iterator[Entry]:
        placed, area = entry.placed, self.context.layout.area
        setting, least = placed.setting, self._lowest(entry)
        low = placed.height
        scales = [
            s
            for s in self.context.layout.scales[self.context.piece.units.system]
            if least - 1e-9 <= s[0] / s[1] <= setting.factor + 1e-9
        ]
        for scale in sorted(scales, key=lambda s: -s[0] / s[1]):
            for upright in (False, True):
                at = replace(setting, scale=scale, upright=upright)
                if at == setting:
                    continue
                made = drawn_at(entry.subject, entry.kind, self.context, (area.width, low - 1e-3), at)
                if made is not None and not poor(made):
                    low = made.height
                    smaller = at.factor < setting.factor - 1e-9
                    yield replace(entry, placed=made, whole=(entry.whole or entry) if smaller else entry.whole)


def lost(entry: Entry) -> float:
    """Return how many times the scale of a drawing was halved."""
    if entry.whole is None:
        return 0.0
    return max(0.0, math.log2(entry.whole.placed.setting.factor / entry.placed.setting.factor))
