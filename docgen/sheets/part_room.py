"""Where views and words of a part stand in a block: views in rows and columns, words in what these leave free.

A block hangs from its upper left corner: x to the right from 0, y downward below 0. Millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing.cells import Block, block
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, around, moved
from docgen.drawing.records import Record
from docgen.sheets.part_grid import Grid

BETWEEN = 7.0  # mm between the fields of two views
AIR = 5.0  # mm between views and words
AFTER = 0.9  # mm after a paragraph
WIDTHS = (62.0, 76.0, 98.0)  # mm, of a column of words beside views
NARROW = (46.0,)  # mm, where no wider one fits: it is not taken to make a block lower


@dataclass(frozen=True, slots=True)
class Extent:
    """A view's place in rows and columns, and what it fills about its own origin."""

    column: int
    row: int
    bounds: Bounds

    def moved(self, by: tuple[float, float]) -> Bounds:
        """Return what the view fills where it is moved to."""
        x0, y0, x1, y1 = self.bounds
        return (x0 + by[0], y0 + by[1], x1 + by[0], y1 + by[1])


def laid(extents: Sequence[Extent]) -> list[tuple[float, float]]:
    """Return how far each view is moved: columns and rows follow one another with air between, the whole hangs from (0, 0)."""
    columns = _shifts([(e.column, e.bounds[0], e.bounds[2]) for e in extents])
    rows = _shifts([(e.row, e.bounds[1], e.bounds[3]) for e in extents])
    by = [(columns[e.column], rows[e.row]) for e in extents]
    x0, _, _, y1 = around(e.moved(b) for e, b in zip(extents, by, strict=True))
    return [(dx - x0, dy - y1) for dx, dy in by]


def _shifts(extents: list[tuple[int, float, float]]) -> dict[int, float]:
    """Return how far each column (or row) is moved so that it follows the one before with air between."""
    out: dict[int, float] = {}
    end: float | None = None
    for number in sorted({n for n, _, _ in extents}):
        low = min(a for n, a, _ in extents if n == number)
        high = max(b for n, _, b in extents if n == number)
        out[number] = 0.0 if end is None else end + BETWEEN - low
        end = high + out[number]
    return out


@dataclass(slots=True)
class Said:
    """Paragraphs of a block, set at a height, and tables under them; what they fill in a width is worked out once."""

    texts: tuple[str, ...]
    height: float
    metrics: Metrics
    tables: tuple[tuple[str, Grid], ...] = ()  # each with its caption
    _set: dict[float, list[Block | Grid]] = field(default_factory=dict)

    def apart(self) -> tuple[Said, Said]:
        """Return the paragraphs alone and the tables alone."""
        return replace(self, tables=(), _set={}), replace(self, texts=(), _set={})

    @property
    def least(self) -> float:
        """The width of the widest table, mm: no column may be narrower."""
        return max((grid.wide for _, grid in self.tables), default=0.0)

    def tall(self, wide: float) -> float:
        """Return how high the paragraphs stand in one column `wide` mm wide."""
        return sum(b.tall + AFTER for b in self._blocks(wide))

    def column(self, wide: float) -> list[Record]:
        """Return the paragraphs under one another, hanging from the origin."""
        return _stacked(self._blocks(wide))

    def two_tall(self, wide: float) -> float:
        """Return how high the paragraphs stand in two columns that share `wide` mm."""
        first, second = self._halves(wide)
        return max(sum(b.tall + AFTER for b in half) for half in (first, second))

    def two_columns(self, wide: float) -> list[Record]:
        """Return the paragraphs in two columns of about the same height, hanging from the origin."""
        first, second = self._halves(wide)
        return [*_stacked(first), *(moved(r, (wide + AIR) / 2, 0.0) for r in _stacked(second))]

    def _halves(self, wide: float) -> tuple[list[Block | Grid], list[Block | Grid]]:
        every = self._blocks((wide - AIR) / 2)
        tall = [p.tall + AFTER for p in every]
        cut = min(range(1, len(every) + 1), key=lambda n: max(sum(tall[:n]), sum(tall[n:])))
        return every[:cut], every[cut:]

    def _blocks(self, wide: float) -> list[Block | Grid]:
        if wide not in self._set:
            items: list[Block | Grid] = [block(t, wide, self.height, self.metrics) for t in self.texts]
            for caption, grid in self.tables:
                items += [block(caption, wide, self.height, self.metrics), grid]
            self._set[wide] = items
        return self._set[wide]


def _stacked(paragraphs: Sequence[Block | Grid]) -> list[Record]:
    records: list[Record] = []
    y = 0.0
    for part in paragraphs:
        records += part.records((0.0, y))
        y -= part.tall + AFTER
    return records


@dataclass(frozen=True, slots=True)
class Spot:
    """Where the words of a block stand, how wide their column is (0: two columns under the views), and the whole's height.

    Tables may stand in a place of their own, `beside`: the words alone stand here then.
    """

    at: tuple[float, float]
    wide: float
    tall: float
    beside: Spot | None = None

    def records(self, said: Said, across: float) -> list[Record]:
        """Return the words where they stand in a block `across` mm wide."""
        if self.beside is not None:
            texts, tables = said.apart()
            return [*replace(self, beside=None).records(texts, across), *self.beside.records(tables, across)]
        made = said.column(self.wide) if self.wide else said.two_columns(across)
        return [moved(r, *self.at) for r in made]

    @property
    def right(self) -> float:
        """How far to the right the words reach, mm; endless where they take the whole width."""
        own = self.at[0] + self.wide if self.wide else float("inf")
        return max(own, self.beside.right) if self.beside is not None else own


def spot(views: Sequence[Bounds], said: Said, room: tuple[float, float], *, narrow: bool = False) -> Spot | None:
    """Return where the words stand so that the block is lowest; None when views and words do not fit `room` mm.

    Where words and tables find no place together, the tables stand apart. With `narrow` the words may stand in a narrow
    column where there is no place for a wider one.
    """
    _, low, right, _ = around(views)
    if right > room[0] + 1e-6 or -low > room[1] + 1e-6:
        return None
    for widths in (WIDTHS, NARROW)[: 1 + narrow]:
        found = _lowest(views, said, room, widths)
        if found is None and said.tables and said.texts:
            found = _apart(views, said, room, widths)
        if found is not None:
            return found
    return None


def _lowest(views: Sequence[Bounds], said: Said, room: tuple[float, float], widths: Sequence[float]) -> Spot | None:
    every = [s for s in _spots(views, said, room, widths) if s.tall <= room[1] + 1e-6]
    return min(every, key=lambda s: (round(s.tall, 3), -s.at[1], s.at[0], -s.wide), default=None)


def _apart(views: Sequence[Bounds], said: Said, room: tuple[float, float], widths: Sequence[float]) -> Spot | None:
    """Return where the words stand and where the tables do, the first that fit; tables stand upright, beside a view."""
    texts, tables = said.apart()
    for held in sorted(_spots(views, tables, room, widths), key=lambda s: (round(s.tall, 3), -s.at[1], s.at[0])):
        if held.wide != tables.least or held.tall > room[1] + 1e-6:
            continue
        x, y = held.at
        filled = (*views, (x, y - tables.tall(held.wide), x + held.wide, y))
        words = _lowest(filled, texts, room, widths)
        if words is not None and words.wide:
            return replace(words, beside=held)
    return None


def _spots(views: Sequence[Bounds], said: Said, room: tuple[float, float], widths: Sequence[float]) -> Iterator[Spot]:
    low = -min(v[1] for v in views)
    xs = sorted({0.0, *(v[2] + AIR for v in views)})
    ys = sorted({0.0, *(v[1] - AIR for v in views)}, reverse=True)
    right = max(v[2] for v in views)
    least = max(widths[0], said.least) if said.texts else said.least
    for wide in sorted({*widths, said.least, room[0] - right - AIR}):
        if wide < least or wide > max(WIDTHS[-1], said.least) + 1e-6:
            continue
        tall = said.tall(wide)
        for x in xs:
            if x + wide > room[0] + 1e-6:
                continue
            for y in ys:
                if not any(_near((x, y - tall, x + wide, y), v) for v in views):
                    yield Spot((x, y), wide, max(low, tall - y))
    if said.least <= (room[0] - AIR) / 2:
        yield Spot((0.0, -low - AIR), 0.0, low + AIR + said.two_tall(room[0]))


def beside(views: Sequence[Bounds], bounds: Bounds, room: tuple[float, float] | None) -> tuple[float, float] | None:
    """Return how far one more view is moved to stand beside others so that all is lowest, then narrowest; None without room."""
    wide, high = bounds[2] - bounds[0], bounds[3] - bounds[1]
    low, right = min(v[1] for v in views), max(v[2] for v in views)
    best: tuple[tuple[float, ...], tuple[float, float]] | None = None
    for x in sorted({0.0, *(v[2] + AIR for v in views)}):
        for y in sorted({0.0, *(v[1] - AIR for v in views)}, reverse=True):
            tall, across = max(-low, high - y), max(right, x + wide)
            if room is not None and (tall > room[1] + 1e-6 or across > room[0] + 1e-6):
                continue
            rank = (round(tall, 3), round(across, 3), -y, x)
            here = (x, y - high, x + wide, y)
            if (best is None or rank < best[0]) and not any(_near(here, v) for v in views):
                best = (rank, (x - bounds[0], y - bounds[3]))
    return best[1] if best is not None else None


def _near(a: Bounds, b: Bounds) -> bool:
    """Return True when two rectangles come closer than the air between views and words."""
    level = min(a[2], b[2]) - max(a[0], b[0]) > 1e-6 - AIR
    return level and min(a[3], b[3]) - max(a[1], b[1]) > 1e-6 - AIR
