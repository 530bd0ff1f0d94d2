"""How details share pages: each goes to the first place that has room for it, the sections of one joint on one page."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice, pairwise, product
from typing import NamedTuple

ACROSS = -1
"""Stands for a column: the detail goes right across the page."""
SLACK = 1e-6  # mm


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
        if min(self.filled) + min(piece.tall for piece in group) > self.room + SLACK:
            return
        for way in _ways(len(self.filled), tuple(piece.across for piece in group)):
            if all(end <= self.room + SLACK for _, end in self.filled_by(way, group)):
                yield way

    def filled_by(self, way: Sequence[int], group: Sequence[Piece]) -> list[tuple[float, float]]:
        """Return where each detail would begin and end, mm from the top."""
        filled, out = list(self.filled), []
        for column, piece in zip(way, group, strict=True):
            taken = self._taken(column)
            start = max(filled[k] for k in taken)
            end = start + piece.tall
            for k in taken:
                filled[k] = end + self.gap
            out.append((start, end))
        return out

    def take(self, way: Sequence[int], group: Sequence[Piece]) -> list[tuple[int, float]]:
        """Fill the columns and return column and start of each detail."""
        found = self.filled_by(way, group)
        for column, (_, end) in zip(way, found, strict=True):
            for k in self._taken(column):
                self.filled[k] = max(self.filled[k], end + self.gap)
        return [(max(column, 0), start) for column, (start, _) in zip(way, found, strict=True)]

    def _taken(self, column: int) -> Sequence[int]:
        return range(len(self.filled)) if column == ACROSS else (column,)


@cache
def _ways(columns: int, across: tuple[bool, ...]) -> tuple[tuple[int, ...], ...]:
    """Return the columns for details of which some go `across`, in reading order; those that leave them together first."""
    ways = product(*((ACROSS,) if right_across else range(columns) for right_across in across))
    rising = (w for w in ways if not any(b < a for a, b in pairwise(w) if ACROSS not in (a, b)))
    return tuple(sorted(rising, key=lambda w: (max(w) - min(w), w)))


def packed(groups: Sequence[Sequence[Piece]], *, columns: int, room: float, gap: float) -> list[list[Spot]]:
    """Return the spots of groups of details, on as few pages as are found; a group that fits no page is divided.

    They are placed in their order, or the tallest first, or in some other order, or each detail by itself, where that saves a
    page. What is taller than a page still gets one to itself.
    """
    found = packed_on(groups, sum(map(len, groups)), columns=columns, room=room, gap=gap)
    assert found is not None  # each has a page
    return found


def packed_on(
    groups: Sequence[Sequence[Piece]], most: int, *, columns: int, room: float, gap: float
) -> list[list[Spot]] | None:
    """Return the spots as `packed` does, None where they would take more than `most` pages."""
    groups = [[p._replace(tall=min(p.tall, room)) for p in group] for group in groups]
    full = sum((p.tall + gap) * (columns if p.across else 1) for group in groups for p in group)
    least = math.ceil(full / (columns * (room + gap)) - 1e-6)  # below the last one in a column no gap is needed
    alone = [[piece] for group in groups for piece in group]
    best: list[list[Spot]] | None = None
    for tied in (True, False):
        held = groups if tied else alone
        lumps = [_lumps(group, _Page([0.0] * columns, room, gap)) for group in held]
        for order in _orders(held):
            if least > most:
                return best
            spots = _first_fit(lumps, order, most, columns, room, gap)
            if spots is not None:
                best = spots if tied else _regrouped(spots, groups)
                most = _pages(best) - 1  # of another order only fewer will do
    return best


def _regrouped(spots: Sequence[Sequence[Spot]], groups: Sequence[Sequence[Piece]]) -> list[list[Spot]]:
    """Return the spots of details that were placed each by itself as those of their groups."""
    every = (spot for alone in spots for spot in alone)
    return [list(islice(every, len(group))) for group in groups]


def _lumps(group: Sequence[Piece], page: _Page) -> list[Sequence[Piece]]:
    """Return what of a group stays together: all of it, or each detail by itself where an empty page cannot take it."""
    return [group] if any(page.tries(group)) else [[piece] for piece in group]


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
    lumps: Sequence[Sequence[Sequence[Piece]]], order: Sequence[int], most: int, columns: int, room: float, gap: float
) -> list[list[Spot]] | None:
    """Return the spots of groups that are placed in an order, each on the first page that has room for it; None past `most` pages."""
    pages: list[_Page] = []
    out: list[list[Spot]] = [[] for _ in lumps]
    for g in order:
        for lump in lumps[g]:
            out[g] += _placed(pages, lump, columns, room, gap)
        if len(pages) > most:
            return None
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
