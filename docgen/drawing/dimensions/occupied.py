"""What already stands on the paper, indexed by squares, and the questions that a candidate asks."""

from __future__ import annotations

from collections.abc import Iterable

from docgen.drawing.boxes import Box, crossing, inside_length, overlap, together
from docgen.drawing.records import Point

CELL = 12.0  # mm

Segment = tuple[Point, Point, str]


class Occupied:
    """Lines by kind ("view", "extension", "dimension", "leader") and boxes of text; kept in order of arrival."""

    def __init__(self) -> None:
        self._lines: list[Segment] = []
        self._boxes: list[Box] = []
        self._line_cells: dict[str, dict[tuple[int, int], list[int]]] = {}  # by kind
        self._box_cells: dict[tuple[int, int], list[int]] = {}
        self._bounds: list[tuple[float, float, float, float]] = []

    def add_line(self, a: Point, b: Point, kind: str) -> None:
        """Note a line."""
        index = len(self._lines)
        self._lines.append((a, b, kind))
        cells = self._line_cells.setdefault(kind, {})
        for cell in _along(a, b):
            cells.setdefault(cell, []).append(index)
        self._bounds.append((min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])))

    def add_box(self, box: Box) -> None:
        """Note a text."""
        index = len(self._boxes)
        self._boxes.append(box)
        for cell in _cells(box.bounds()):
            self._box_cells.setdefault(cell, []).append(index)
        self._bounds.append(box.bounds())

    @property
    def boxes(self) -> tuple[Box, ...]:
        """All texts so far."""
        return tuple(self._boxes)

    @property
    def lines(self) -> tuple[Segment, ...]:
        """All lines so far."""
        return tuple(self._lines)

    def bounds(self) -> tuple[float, float, float, float]:
        """Return the rectangle around everything; a point at the origin when there is nothing."""
        every = self._bounds or [(0.0, 0.0, 0.0, 0.0)]
        return (
            min(b[0] for b in every),
            min(b[1] for b in every),
            max(b[2] for b in every),
            max(b[3] for b in every),
        )

    def _near_lines(self, cells: set[tuple[int, int]], kinds: Iterable[str] | None = None) -> list[Segment]:
        near: set[int] = set()
        for kind in self._line_cells if kinds is None else kinds:
            index = self._line_cells.get(kind)
            if index:
                for cell in cells:
                    near.update(index.get(cell, ()))
        return [self._lines[i] for i in sorted(near)]

    def _near_boxes(self, cells: set[tuple[int, int]]) -> list[Box]:
        return [self._boxes[i] for i in sorted({i for c in cells for i in self._box_cells.get(c, ())})]

    def free(self, box: Box, clear: float) -> bool:
        """Return True when a text in `box` lies on no text and no line, with `clear` mm of air."""
        wide = box.grown(clear)
        cells = _cells(wide.bounds())
        if any(overlap(wide, other) for other in self._near_boxes(cells)):
            return False
        return not any(inside_length(wide, a, b) > 1e-6 for a, b, _ in self._near_lines(cells))

    def strikes(self, a: Point, b: Point, clear: float) -> bool:
        """Return True when a line from `a` to `b` would come closer than `clear` to a text."""
        return any(inside_length(box.grown(clear), a, b) > 1e-6 for box in self._near_boxes(_along(a, b, clear)))

    def crossed(self, a: Point, b: Point, kinds: tuple[str, ...] | None = None) -> list[str]:
        """Return the kinds of the lines (of `kinds` only, if given) that a line from `a` to `b` would cross."""
        return [kind for c, d, kind in self._near_lines(_along(a, b), kinds) if crossing(a, b, c, d)]

    def doubled(self, a: Point, b: Point, near: float, kinds: tuple[str, ...]) -> bool:
        """Return True when a line would run beside one of these kinds, closer than `near`."""
        return any(together(a, b, c, d, near) for c, d, _ in self._near_lines(_along(a, b, near), kinds))


def _cells(bounds: tuple[float, float, float, float]) -> set[tuple[int, int]]:
    x0, y0, x1, y1 = (int(v // CELL) for v in bounds)
    return {(i, j) for i in range(x0, x1 + 1) for j in range(y0, y1 + 1)}


def _along(a: Point, b: Point, near: float = 0.0) -> set[tuple[int, int]]:
    """Return the squares that a line passes, or comes `near` to."""
    near += 0.01  # a line that runs along a border belongs to both squares
    if a[0] > b[0]:
        a, b = b, a
    if a[0] == b[0] or a[1] == b[1]:
        low, high = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
        rows = range(int((low - near) // CELL), int((high + near) // CELL) + 1)
        return {(i, j) for i in range(int((a[0] - near) // CELL), int((b[0] + near) // CELL) + 1) for j in rows}
    slope = (b[1] - a[1]) / (b[0] - a[0]) if b[0] - a[0] > 1e-9 else None
    out: set[tuple[int, int]] = set()
    for i in range(int((a[0] - near) // CELL), int((b[0] + near) // CELL) + 1):
        if slope is None:
            y0, y1 = a[1], b[1]
        else:
            y0, y1 = (a[1] + (min(max(x, a[0]), b[0]) - a[0]) * slope for x in (i * CELL - near, (i + 1) * CELL + near))
        low, high = (y0, y1) if y0 < y1 else (y1, y0)
        out.update((i, j) for j in range(int((low - near) // CELL), int((high + near) // CELL) + 1))
    return out
