"""The parts in the order of their numbers, on the fewest pages.

All of a part stands on one page or on pages that follow one another. A part that takes less than a page leaves its place
in the order where that saves a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from docgen.drawing.placing import PaperFault
from docgen.sheets.context import Context
from docgen.sheets.part_fit import Fits, lost
from docgen.sheets.part_pages import Page
from docgen.sheets.part_share import Entry

TOGETHER = 40  # parts that are looked at together: what follows begins on a page of its own
SMALL = 0.7  # of a page: a part that may take no more is put elsewhere if that saves one
REACH = 12  # parts that it may pass
PAGE = 100.0  # what a page costs
STEP = 3.0  # what it costs to draw a part at half its scale
TORN = 6.0  # what it costs to part the drawings of one part on two pages
BARE = 10.0  # what a page costs that is empty but for nothing; less for one that holds more
WAY = 20.0  # what it costs to draw a part in its second way
GUEST = 25.0  # what it costs to put a part out of the order of the numbers
FAR = 0.5  # and for each part that it passes

Ways = Sequence[Sequence[Entry]]
Order = tuple[int, ...]  # parts by their place in the list
Node = tuple[Order, int, int]  # the parts that are left, which way to draw the first of them, which drawing of that way


def bound(context: Context, parts: Sequence[Ways]) -> list[Page[Entry]]:
    """Return the fewest pages that hold all parts, each drawn in one of its ways, as good as in their order."""
    chunks = [parts[n : n + TOGETHER] for n in range(0, len(parts), TOGETHER)]
    return [page for chunk in chunks for page in Binder(context, chunk).pages()]


@dataclass(slots=True)
class Binder:
    """Binds the drawings of parts to pages, in order."""

    context: Context
    parts: Sequence[Ways]
    fits: Fits = field(init=False)
    _best: dict[Node, tuple[float, Node | None, Page[Entry]]] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        first = {ways[0][0].kind.first: ways[0][0].placed.setting.factor for ways in self.parts}
        self.fits = Fits(self.context, first)

    def pages(self) -> list[Page[Entry]]:
        """Return the fewest pages that hold all parts, as good as in their order."""
        order = tuple(range(len(self.parts)))
        cost = self._cost(self._first(order))
        while True:
            moved = [(self._cost(self._first(other)) + _disorder(other), other) for other in self._moves(order)]
            least, other = min(moved, default=(cost, order))
            if least >= cost - 1e-6:
                break
            cost, order = least, other
        out: list[Page[Entry]] = []
        at = self._first(order)
        while at is not None:
            _, at, page = self._best[at]
            out.append(page)
        return out

    def _moves(self, order: Order) -> Iterator[Order]:
        """Yield the order with one part put elsewhere that takes less than a page."""
        high = self.context.layout.area.height
        for n, part in enumerate(order):
            if self._takes(self.parts[part][0]) > SMALL * high:
                continue
            rest = order[:n] + order[n + 1 :]
            near = range(max(0, n - REACH), min(len(order), n + REACH + 1))
            yield from ((*rest[:m], part, *rest[m:]) for m in near if m != n)

    def _takes(self, entries: Sequence[Entry]) -> float:
        """Return how much of a page's height a part takes; a part in one block may come down a step."""
        return self.fits.least(entries[0]) if len(entries) == 1 else sum(e.placed.height for e in entries)

    def _first(self, left: Order) -> Node | None:
        """Return the best way to go on with parts; None where there is none left."""
        if not left:
            return None
        every = [(left, way, 0) for way in range(len(self.parts[left[0]]))]
        if every[0] not in self._best:
            for n in reversed(range(len(left))):  # what stands behind a page is known before it
                if (left[n:], 0, 0) not in self._best:
                    self._begin(left[n:])
        return min(every, key=self._cost)

    def _cost(self, at: Node | None) -> float:
        return 0.0 if at is None else self._best[at][0]

    def _begin(self, left: Order) -> None:
        """Note the best page that begins with each drawing of a part: its cost with all behind it, where the next begins."""
        for way, entries in enumerate(self.parts[left[0]]):
            for n in reversed(range(len(entries))):
                at = (left, way, n)
                made = [(cost + self._cost(after), after, page) for cost, after, page in self._runs(at)]
                if not made:
                    raise PaperFault(f"the sheet of {entries[n].subject.part.path}")
                self._best[at] = min(made, key=lambda m: m[0])

    def _runs(self, at: Node) -> Iterator[tuple[float, Node | None, Page[Entry]]]:
        """Yield each page that begins with a drawing: what it costs, what stands behind it."""
        todo: list[tuple[Node, float, list[Entry]]] = [(at, 0.0, [])]
        while todo:
            (left, way, n), cost, before = todo.pop()
            drawn = self.parts[left[0]][way]
            entries = [*before, drawn[n]]
            page = self.fits.page(entries)
            if page is None:
                continue
            cost += WAY * way if n == 0 else 0.0
            if n + 1 < len(drawn):
                goes_on: Node = (left, way, n + 1)
                yield cost + TORN + _worth(page), goes_on, page
                todo.append((goes_on, cost, entries))
            else:
                yield cost + _worth(page), self._first(left[1:]), page
                others = self.parts[left[1]] if len(left) > 1 else ()
                todo += [((left[1:], other, 0), cost, entries) for other in range(len(others))]


def _worth(page: Page[Entry]) -> float:
    """Return what a page costs: each part drawn smaller, and what it leaves empty."""
    held = sum(s.block.size[0] * s.block.size[1] for s in page.blocks) / (page.wide * page.high)
    steps = sum(lost(s.block) for s in page.blocks)
    return PAGE + STEP * steps + BARE * (1 - min(held, 1.0)) ** 2


def _disorder(order: Order) -> float:
    """Return what it costs that parts are out of order."""
    down = sum(a > b for a, b in pairwise(order))
    return GUEST * down + FAR * sum(abs(part - n) for n, part in enumerate(order)) / 2
