"""How details share pages: each goes to the first place that has room for it, the sections of one joint on one page."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import NamedTuple

ACROSS = -1
"""Stands for a column: the detail goes right across the page."""


class Piece(NamedTuple):
    """How tall a detail is, mm, and whether it goes right across the page."""

    tall: float
    across: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a detail stands: page and column from 0, `down` mm from the top of the page."""

    page: int
    column: int
    down: float
    across: bool = False


@dataclass(slots=True)
class _Page:
    filled: list[float]  # of each column, mm from the top
    room: float
    gap: float

    def tries(self, group: Sequence[Piece]) -> Iterator[tuple[int, ...]]:
        """Yield the columns that can take details, in reading order; those that leave them together come first."""
        columns = range(len(self.filled))
        ways = product(*((ACROSS,) if piece.across else columns for piece in group))
        for way in sorted(ways, key=lambda w: (max(w) - min(w), w)):
            down = max((p for _, p in self.filled_by(way, group)), default=0.0)
            falls = any(b < a for a, b in pairwise(way) if ACROSS not in (a, b))
            if not falls and down <= self.room + 1e-6:
                yield way

    def filled_by(self, way: Sequence[int], group: Sequence[Piece]) -> list[tuple[float, float]]:
        """Return where each detail would begin and end, mm from the top."""
        filled, out = list(self.filled), []
        for column, piece in zip(way, group, strict=True):
            start = max(filled) if column == ACROSS else filled[column]
            end = start + min(piece.tall, self.room)
            for k in range(len(filled)):
                if column in (ACROSS, k):
                    filled[k] = end + self.gap
            out.append((start, end))
        return out

    def take(self, way: Sequence[int], group: Sequence[Piece]) -> list[tuple[int, float]]:
        """Fill the columns and return column and start of each detail."""
        found = self.filled_by(way, group)
        for column, (_, end) in zip(way, found, strict=True):
            for k in range(len(self.filled)):
                if column in (ACROSS, k):
                    self.filled[k] = max(self.filled[k], end + self.gap)
        return [(max(column, 0), start) for column, (start, _) in zip(way, found, strict=True)]


def packed(groups: Sequence[Sequence[Piece]], *, columns: int, room: float, gap: float) -> list[list[Spot]]:
    """Return the spots of groups of details, on as few pages as are found; a group that fits no page is divided.

    They are placed in their order, or the tallest first, or in some other order, or each detail by itself, where that saves a
    page. What is taller than a page still gets one to itself.
    """
    full = sum(p.tall * (columns if p.across else 1) for group in groups for p in group)
    least = math.ceil(full / (columns * room) - 1e-9)
    alone = [[piece] for group in groups for piece in group]
    firsts = [sum(len(g) for g in groups[:k]) for k in range(len(groups))]
    best: list[list[Spot]] | None = None
    for tied in (True, False):
        for order in _orders(groups if tied else alone):
            spots = _first_fit(groups if tied else alone, order, columns, room, gap)
            if not tied:
                spots = [[spots[n + k][0] for k in range(len(g))] for n, g in zip(firsts, groups, strict=True)]
            if best is None or _pages(spots) < _pages(best):
                best = spots
            if _pages(best) <= least:
                return best
    assert best is not None
    return best


def _pages(spots: Sequence[Sequence[Spot]]) -> int:
    return 1 + max((s.page for group in spots for s in group), default=-1)


def _orders(groups: Sequence[Sequence[Piece]]) -> Iterator[Sequence[int]]:
    """Yield orders in which groups are placed: as given, the tallest first, those with each moved to the front."""
    given = list(range(len(groups)))
    tallest = sorted(given, key=lambda g: -round(sum(p.tall for p in groups[g]), 3))
    yield given
    yield tallest
    yield sorted(given, key=lambda g: -round(max((p.tall for p in groups[g]), default=0.0), 3))
    for k in range(1, len(groups)):
        yield [tallest[k], *tallest[:k], *tallest[k + 1 :]]
    for k in range(1, len(groups)):
        yield [given[k], *given[:k], *given[k + 1 :]]


def _first_fit(
    groups: Sequence[Sequence[Piece]], order: Sequence[int], columns: int, room: float, gap: float
) -> list[list[Spot]]:
    """Return the spots of groups that are placed in an order, each on the first page that has room for it."""
    pages: list[_Page] = []
    out: list[list[Spot]] = [[] for _ in groups]
    for g in order:
        group = groups[g]
        if any(_Page([0.0] * columns, room, gap).tries(group)):
            out[g] = _placed(pages, group, columns, room, gap)
        else:
            out[g] = [spot for piece in group for spot in _placed(pages, [piece], columns, room, gap)]
    return out


def in_order(spots: Sequence[Sequence[Spot]]) -> list[tuple[int, int]]:
    """Return the details, as group and place in it, in the order in which they are read.

    Columns are read one after the other down to a detail that goes right across, then below it.
    """
    every = [(spot, g, k) for g, group in enumerate(spots) for k, spot in enumerate(group)]

    def read(of: tuple[Spot, int, int]) -> tuple[int, int, int, float]:
        spot = of[0]
        above = sum(s.page == spot.page and s.across and s.down <= spot.down for s, _, _ in every)
        return (spot.page, above, spot.column, spot.down)

    return [(g, k) for _, g, k in sorted(every, key=read)]


def _placed(pages: list[_Page], group: Sequence[Piece], columns: int, room: float, gap: float) -> list[Spot]:
    """Return where a group goes: on the first page that takes it, else on a new one."""
    found = next(((n, way) for n, page in enumerate(pages) for way in page.tries(group)), None)
    if found is None:
        pages.append(_Page([0.0] * columns, room, gap))
        found = len(pages) - 1, next(pages[-1].tries(group))
    n, way = found
    taken = zip(pages[n].take(way, group), group, strict=True)
    return [Spot(n, column, down, piece.across) for (column, down), piece in taken]
