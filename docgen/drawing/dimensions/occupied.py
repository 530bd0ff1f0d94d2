"""What already stands on the paper, indexed by squares, and the questions that a candidate asks."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from docgen.drawing.boxes import Box, crossing, inside_length, overlap, together
from docgen.drawing.dimensions.screen import Screen
from docgen.drawing.records import Point

CELL = 12.0  # mm
SLOPE, NEARLY = 0.05, 0.12  # a line that runs beside one of the first slope has at most the second
STRIDE = 1 << 20  # squares in a column of numbers: more than any paper has

Segment = tuple[Point, Point, str]


class Occupied:
    """Lines by kind ("view", "extension", "dimension", "leader") and boxes of text; kept in order of arrival.

    A square holds the numbers of what passes it as the bits of one integer: joining squares and asking for
    kinds are then single operations, and the bits come out in order of arrival. `screen` looks at many at once.
    """

    def __init__(self) -> None:
        self.screen = Screen()
        self._lines: list[Segment] = []
        self._boxes: list[Box] = []
        self._line_cells: dict[int, int] = {}
        self._box_cells: dict[int, int] = {}
        self._kinds: dict[str, int] = {}
        self._level = self._flat = self._steep = 0  # exactly level; nearly level; nearly plumb
        self._bounds: tuple[float, float, float, float] | None = None

    def copy(self) -> Occupied:
        """Return the same lines and texts, to be added to apart."""
        out = Occupied()
        out.screen = self.screen.copy()
        out._lines, out._boxes = list(self._lines), list(self._boxes)
        out._line_cells, out._box_cells = dict(self._line_cells), dict(self._box_cells)
        out._kinds, out._bounds = dict(self._kinds), self._bounds
        out._level, out._flat, out._steep = self._level, self._flat, self._steep
        return out

    def add_line(self, a: Point, b: Point, kind: str) -> None:
        """Note a line."""
        self.screen.add_line(a, b)
        bit = 1 << len(self._lines)
        self._lines.append((a, b, kind))
        self._kinds[kind] = self._kinds.get(kind, 0) | bit
        (ax, ay), (bx, by) = a, b
        x0, x1 = (ax, bx) if ax < bx else (bx, ax)
        y0, y1 = (ay, by) if ay < by else (by, ay)
        wide, high = x1 - x0, y1 - y0
        if high == 0.0:
            self._level |= bit
        if high <= NEARLY * wide:
            self._flat |= bit
        if wide <= NEARLY * high:
            self._steep |= bit
        cells = self._line_cells
        for cell in _along(a, b):
            cells[cell] = cells.get(cell, 0) | bit
        self._grow(x0, y0, x1, y1)

    def add_box(self, box: Box) -> None:
        """Note a text."""
        self.screen.add_box(box)
        bit = 1 << len(self._boxes)
        self._boxes.append(box)
        for cell in _cells(box.bounds()):
            self._box_cells[cell] = self._box_cells.get(cell, 0) | bit
        self._grow(*box.bounds())

    @property
    def boxes(self) -> tuple[Box, ...]:
        """All texts so far."""
        return tuple(self._boxes)

    @property
    def lines(self) -> tuple[Segment, ...]:
        """All lines so far."""
        return tuple(self._lines)

    def bounds(self) -> tuple[float, float, float, float]:
        """Return the rectangle around everything; all 0 when there is nothing."""
        return self._bounds or (0.0, 0.0, 0.0, 0.0)

    def growth(self, box: Box) -> float:
        """Return by how much a text would make everything wider and higher, mm."""
        x0, y0, x1, y1 = self.bounds()
        p0, q0, p1, q1 = box.bounds()
        return max(0.0, x0 - p0) + max(0.0, p1 - x1) + max(0.0, y0 - q0) + max(0.0, q1 - y1)

    def _grow(self, x0: float, y0: float, x1: float, y1: float) -> None:
        if self._bounds is None:
            self._bounds = (x0, y0, x1, y1)
            return
        a0, b0, a1, b1 = self._bounds
        if x0 < a0 or y0 < b0 or x1 > a1 or y1 > b1:
            self._bounds = (min(a0, x0), min(b0, y0), max(a1, x1), max(b1, y1))

    def _near_lines(self, cells: list[int], kinds: Iterable[str] | None = None, of: int = -1) -> list[Segment]:
        """Return the lines that pass squares, of some kinds and of those whose bits are in `of` alone."""
        bits, get = 0, self._line_cells.get
        for cell in cells:
            bits |= get(cell, 0)
        bits &= of
        if kinds is not None and bits:
            wanted = 0
            for kind in kinds:
                wanted |= self._kinds.get(kind, 0)
            bits &= wanted
        lines, found = self._lines, []
        while bits:
            low = bits & -bits
            bits ^= low
            found.append(lines[low.bit_length() - 1])
        return found

    def _near_boxes(self, cells: list[int]) -> list[Box]:
        bits, get = 0, self._box_cells.get
        for cell in cells:
            bits |= get(cell, 0)
        found = []
        while bits:
            low = bits & -bits
            bits ^= low
            found.append(self._boxes[low.bit_length() - 1])
        return found

    def free(self, box: Box, clear: float) -> bool:
        """Return True when a text in `box` lies on no text and no line, with `clear` mm of air."""
        wide = box.grown(clear)
        cells = _cells(wide.bounds())
        if any(overlap(wide, other) for other in self._near_boxes(cells)):
            return False
        x0, y0, x1, y1 = wide.bounds()
        for a, b, _ in self._near_lines(cells):
            (ax, ay), (bx, by) = a, b
            beside = (ax < x0 and bx < x0) or (ax > x1 and bx > x1) or (ay < y0 and by < y0) or (ay > y1 and by > y1)
            if not beside and inside_length(wide, a, b) > 1e-6:
                return False
        return True

    def strikes(self, a: Point, b: Point, clear: float) -> bool:
        """Return True when a line from `a` to `b` would come closer than `clear` to a text."""
        near = self._near_boxes(_along(a, b, clear))
        return bool(near) and any(inside_length(box, a, b, clear) > 1e-6 for box in near)

    def crossed(self, a: Point, b: Point, kinds: tuple[str, ...] | None = None) -> list[str]:
        """Return the kinds of the lines (of `kinds` only, if given) that a line from `a` to `b` would cross."""
        of = ~self._level if a[1] == b[1] else -1
        return [kind for c, d, kind in self._near_lines(_along(a, b), kinds, of) if crossing(a, b, c, d)]

    def doubled(self, a: Point, b: Point, near: float, kinds: tuple[str, ...], *, along: float | None = None) -> bool:
        """Return True when a line would run beside one of these kinds, closer than `near` and longer than that.

        Beside a line of the view, closer than `along`, it does not have to be longer than that.
        """
        wide, high = abs(b[0] - a[0]), abs(b[1] - a[1])
        of = self._flat if high <= SLOPE * wide else self._steep if wide <= SLOPE * high else -1
        beside = self._near_lines(_along(a, b, near), kinds, of)
        if any(together(a, b, c, d, near) for c, d, _ in beside):
            return True
        return along is not None and any(kind == "view" and together(a, b, c, d, along) for c, d, kind in beside)


def _cells(bounds: tuple[float, float, float, float]) -> list[int]:
    left, right = int(bounds[0] // CELL), int(bounds[2] // CELL)
    low, high = int(bounds[1] // CELL), int(bounds[3] // CELL)
    if low == high:  # a row or a column of squares, as most lines and texts pass, is one range
        return list(range(left * STRIDE + low, right * STRIDE + low + 1, STRIDE))
    if left == right:
        return list(range(left * STRIDE + low, left * STRIDE + high + 1))
    return [i * STRIDE + j for i in range(left, right + 1) for j in range(low, high + 1)]


@lru_cache(maxsize=16384)
def _along(a: Point, b: Point, near: float = 0.0) -> list[int]:
    """Return the squares that a line passes, or comes `near` to."""
    near += 0.01  # a line that runs along a border belongs to both squares
    (ax, ay), (bx, by) = (a, b) if a[0] <= b[0] else (b, a)
    if bx - ax <= 1e-9 or ay == by:
        low, high = (ay, by) if ay < by else (by, ay)
        return _cells((ax - near, low - near, bx + near, high + near))
    slope = (by - ay) / (bx - ax)
    out: list[int] = []
    for i in range(int((ax - near) // CELL), int((bx + near) // CELL) + 1):
        left, right = i * CELL - near, (i + 1) * CELL + near
        y0 = ay if left <= ax else ay + ((left if left < bx else bx) - ax) * slope
        y1 = by if right >= bx else ay + ((right if right > ax else ax) - ax) * slope
        low, high = (y0, y1) if y0 < y1 else (y1, y0)
        out += range(i * STRIDE + int((low - near) // CELL), i * STRIDE + int((high + near) // CELL) + 1)
    return out
