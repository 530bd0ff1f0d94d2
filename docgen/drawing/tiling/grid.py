"""Which tiles a drawing needs: paper turned and grid shifted for the fewest pages, blank ones left out.

Windows of neighbouring tiles overlap; the join lies in the middle of the overlap. The cells between joins
cover the whole grid without gap or overlap, so what lies in one cell is seen once the pages are joined.
Columns are lettered from the left, rows numbered from the top: pages are laid in reading order, each over
the ones before.
"""

from __future__ import annotations

import itertools
import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.drawing.placing import Bounds
from docgen.drawing.records import Arc, Area, Line, Path, Pen
from docgen.drawing.tiling.clip import clip, crossings
from docgen.drawing.tiling.ink import Ink, bounds_of, on_arc, segments

STEPS = 8  # tried positions of the grid within one cell, each way
NEAR = 5.0  # mm: a line along a join is nearer than this
AIR = 3.0  # mm between the drawing and the outer side of a window, for the width of the pen

Place = tuple[int, int]  # column from the left, row from the top


@dataclass(frozen=True, slots=True)
class Field:
    """The part of a page that shows the drawing: its size in mm, on paper that is turned or not."""

    width: float
    height: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a true-size drawing; boxes in the drawing's own millimetres."""

    column: int
    row: int
    window: Bounds  # what is printed
    cell: Bounds  # what is seen after the pages are joined

    @property
    def name(self) -> str:
        """Column letter and row number: A1 is the upper left tile."""
        return f"{letters(self.column)}{self.row + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """The tiles of one drawing in reading order."""

    field: Field
    overlap: float
    columns: int
    rows: int
    tiles: tuple[Tile, ...]

    def at(self, column: int, row: int) -> Tile | None:
        """Return the tile at this place, None if it was left out or lies beyond."""
        for tile in self.tiles:
            if (tile.column, tile.row) == (column, row):
                return tile
        return None


def letters(column: int) -> str:
    """Return the letters of a column counted from 0: A to Z, then AA, AB and so on."""
    out = ""
    number = column + 1
    while number:
        number, rest = divmod(number - 1, 26)
        out = chr(ord("A") + rest) + out
    return out


@dataclass(frozen=True, slots=True)
class Grid:
    """Joins in rising order; `low` and `high` are the outer sides of the grid."""

    low: tuple[float, float]
    high: tuple[float, float]
    xs: tuple[float, ...]
    ys: tuple[float, ...]

    def place(self, x: float, y: float) -> Place:
        """Return the tile in whose cell the point lies."""
        return bisect_right(self.xs, x), len(self.ys) - bisect_right(self.ys, y)

    def cell(self, column: int, row: int) -> Bounds:
        """Return the cell of a tile."""
        x = (self.low[0], *self.xs, self.high[0])
        y = (self.low[1], *self.ys, self.high[1])
        up = len(self.ys) - row
        return (x[column], y[up], x[column + 1], y[up + 1])


def tile(inks: Sequence[Ink], fields: Sequence[Field], overlap: float) -> Tiling:
    """Return the tiling with the fewest pages.

    Fields that come first win ties, then joins that lie off drawn lines, then the most even margins.

    Hatching needs no page of its own: a tile on which nothing else lies is left out.

    ValueError when nothing is drawn or a field is no larger than twice the overlap.
    """
    lines = [ink for ink in inks if isinstance(ink, Area) or ink.pen is not Pen.HATCH] or list(inks)
    box = bounds_of(lines)
    best: tuple[tuple[int, int, int, float], Field, Grid] | None = None
    for order, field in enumerate(fields):
        if min(field.width, field.height) <= 2 * overlap:
            raise ValueError("the paper leaves no room for a tile")
        for uneven, grid in _grids(box, field, overlap):
            count = len(occupied(lines, grid))
            clashes = _clashes(lines, grid)
            score = (count, order, clashes, uneven)
            if best is None or score < best[0]:
                best = (score, field, grid)
            if not clashes and count <= max(len(grid.xs), len(grid.ys)) + 1:
                break  # a row or a column of tiles, all of them needed: no shift saves one
    if best is None:
        raise ValueError("there is no paper")
    return _tiling(lines, best[1], best[2], overlap)


def _tiling(inks: Sequence[Ink], field: Field, grid: Grid, overlap: float) -> Tiling:
    kept = occupied(inks, grid)
    low_column, low_row = min(c for c, _ in kept), min(r for _, r in kept)
    tiles = []
    for column, row in sorted(kept, key=lambda p: (p[1], p[0])):
        cell = grid.cell(column, row)
        left = grid.low[0] + column * (field.width - overlap)
        top = grid.high[1] - row * (field.height - overlap)
        window = (left, top - field.height, left + field.width, top)
        tiles.append(Tile(column - low_column, row - low_row, window, cell))
    columns, rows = max(t.column for t in tiles) + 1, max(t.row for t in tiles) + 1
    return Tiling(field, overlap, columns, rows, tuple(tiles))


def _grids(box: Bounds, field: Field, overlap: float) -> list[tuple[float, Grid]]:
    """Return grids that cover `box`, the most even one first, each with a measure of how uneven it lies."""
    across = _shifts(box[0] - AIR, box[2] + AIR, field.width, overlap)
    up = _shifts(box[1] - AIR, box[3] + AIR, field.height, overlap)
    out = []
    for uneven_x, x0, nx in across:
        for uneven_y, y0, ny in up:
            step_x, step_y = field.width - overlap, field.height - overlap
            xs = tuple(x0 + overlap / 2 + k * step_x for k in range(1, nx))
            ys = tuple(y0 + overlap / 2 + k * step_y for k in range(1, ny))
            high = (x0 + nx * step_x + overlap, y0 + ny * step_y + overlap)
            out.append((uneven_x + uneven_y, Grid((x0, y0), high, xs, ys)))
    return sorted(out, key=lambda g: (len(g[1].xs) + len(g[1].ys), g[0], g[1].low))


def _clashes(inks: Sequence[Ink], grid: Grid) -> int:
    """Return how many level or upright lines run along a join, where they would hide its marks."""
    count = 0
    for ink in inks:
        for a, b in segments(ink) if isinstance(ink, Line | Path) else ():
            for axis, joins in ((0, grid.xs), (1, grid.ys)):
                if a[axis] == b[axis]:
                    count += any(abs(a[axis] - join) < NEAR for join in joins)
    return count


def _shifts(low: float, high: float, width: float, overlap: float) -> list[tuple[float, float, int]]:
    """Return (unevenness, start, number of windows) for one direction."""
    step = width - overlap
    least = max(1, math.ceil((high - low - overlap) / step - 1e-9))
    slack = least * step + overlap - (high - low)
    out = [(0.0, low - slack / 2, least)]
    if least > 1:
        out += [(abs(k / STEPS - 0.5), low - slack * k / STEPS, least) for k in range(STEPS + 1)]
        more = slack + step
        out += [(1 + abs(k / STEPS - 0.5), low - more * k / STEPS, least + 1) for k in range(1, STEPS)]
    return out


def occupied(inks: Iterable[Ink], grid: Grid) -> set[Place]:
    """Return the tiles in whose cells something is drawn."""
    out: set[Place] = set()
    for ink in inks:
        if isinstance(ink, Arc):
            cuts = {ink.start, ink.end}
            for axis, joins in ((0, grid.xs), (1, grid.ys)):
                for join in joins:
                    cuts.update(crossings(ink, axis, join))
            angles = sorted(cuts)
            out.update(grid.place(*on_arc(ink, (a + b) / 2)) for a, b in itertools.pairwise(angles))
        elif isinstance(ink, Area):
            out.update(
                (c, r) for c in range(len(grid.xs) + 1) for r in range(len(grid.ys) + 1) if clip([ink], grid.cell(c, r))
            )
        else:
            for a, b in segments(ink):
                cuts = {0.0, 1.0}
                for axis, joins in ((0, grid.xs), (1, grid.ys)):
                    d = b[axis] - a[axis]
                    if d:
                        cuts.update(t for j in joins if 0 < (t := (j - a[axis]) / d) < 1)
                ts = sorted(cuts)
                mids = [(s + t) / 2 for s, t in itertools.pairwise(ts)]
                out.update(grid.place(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in mids)
    return out
