"""A small ruled table among a part's words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from docgen.drawing.cells import Block, block, measure, tied
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import shift
from docgen.drawing.records import Line, Pen, Point, Record

SIDE = 1.4  # mm between a rule and its text
AIR = 0.9  # mm above and below the text of a row
LAST = 30.0  # mm at which the last column wraps
HEAD = 16.0  # mm at which a column's head wraps, if nothing in the column is wider


@dataclass(frozen=True)
class Grid:
    """Rows of texts, the first the head; as wide as its texts need."""

    rows: tuple[tuple[str, ...], ...]
    height: float
    metrics: Metrics

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """The columns' widths, mm."""
        return tuple(self._width(i) for i in range(len(self.rows[0])))

    def _width(self, i: int) -> float:
        words = [measure(w, self.height, self.metrics, bold=True) for w in self.rows[0][i].split()]
        texts = [measure(row[i], self.height, self.metrics) for row in self.rows[1:]]
        whole = measure(self.rows[0][i], self.height, self.metrics, bold=True)
        least = max([*words, min(whole, HEAD)])
        if i < len(self.rows[0]) - 1:
            return max([least, *texts]) + 2 * SIDE
        pieces = [measure(w, self.height, self.metrics) for row in self.rows[1:] for w in tied(row[i]).split(" ")]
        return max([least, *pieces, min(max(texts, default=0.0), LAST)]) + 2 * SIDE

    @property
    def wide(self) -> float:
        """The table's width, mm."""
        return sum(self.widths)

    @cached_property
    def _cells(self) -> list[tuple[list[Block], float]]:
        out = []
        for n, row in enumerate(self.rows):
            cells = [
                block(t, w - 2 * SIDE + 1e-6, self.height, self.metrics, bold=n == 0)
                for t, w in zip(row, self.widths, strict=True)
            ]
            out.append((cells, _tall(cells) + 2 * AIR))
        return out

    @cached_property
    def tall(self) -> float:
        """The table's height, mm."""
        return sum(high for _, high in self._cells)

    def records(self, at: Point) -> list[Record]:
        """Return texts and rules, hanging from `at`."""
        out: list[Record] = []
        y = 0.0
        for cells, high in self._cells:
            x, line = 0.0, max(c.steps()[0] for c in cells)  # the first lines stand on one baseline
            for cell, w in zip(cells, self.widths, strict=True):
                out += cell.records(shift(at, x + SIDE, y - AIR - line + cell.steps()[0]))
                x += w
            y -= high
        lows = _running([high for _, high in self._cells])
        for low in lows:
            out.append(Line(shift(at, 0.0, -low), shift(at, self.wide, -low), Pen.THIN))
        for x in _running(self.widths):
            out.append(Line(shift(at, x, 0.0), shift(at, x, y), Pen.THIN))
        return out


def _tall(cells: Sequence[Block]) -> float:
    """Return how high cells stand whose first lines are on one baseline."""
    line = max(c.steps()[0] for c in cells)
    return max(line - c.steps()[0] + c.tall for c in cells)


def _running(steps: Sequence[float]) -> list[float]:
    out = [0.0]
    for step in steps:
        out.append(out[-1] + step)
    return out
