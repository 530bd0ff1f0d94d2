"""What stands on the paper as arrays: many candidates are looked at in one go, before any of them is drawn up.

The answers are necessary, not sufficient: what passes is looked at again, one by one, by `Occupied`.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from docgen.drawing.boxes import Box
from docgen.drawing.records import Point

Rows = NDArray[np.float64]
Mask = NDArray[np.bool_]

HAIR = 1e-6  # mm: what only touches is free


class Store:
    """Rows of four numbers, added one by one and read as one array."""

    def __init__(self) -> None:
        self._rows: list[tuple[float, float, float, float]] = []
        self._array: Rows = np.empty((0, 4))

    def add(self, row: tuple[float, float, float, float]) -> None:
        """Add a row."""
        self._rows.append(row)

    def copy(self) -> Store:
        """Return the same rows, to be added to apart."""
        out = Store()
        out._rows, out._array = list(self._rows), self._array
        return out

    def array(self) -> Rows:
        """Return all rows, shape (n, 4)."""
        if len(self._array) != len(self._rows):
            fresh = np.array(self._rows[len(self._array) :], dtype=np.float64)
            self._array = np.concatenate((self._array, fresh))
        return self._array


class Screen:
    """Lines and upright boxes on the paper; boxes at an angle are left to the exact questions."""

    def __init__(self) -> None:
        self._lines, self._boxes = Store(), Store()

    def copy(self) -> Screen:
        """Return the same lines and boxes, to be added to apart."""
        out = Screen()
        out._lines, out._boxes = self._lines.copy(), self._boxes.copy()
        return out

    def add_line(self, a: Point, b: Point) -> None:
        """Note a line."""
        self._lines.add((*a, *b))

    def add_box(self, box: Box) -> None:
        """Note a text."""
        if box.upright:
            self._boxes.add(box.bounds())

    def free(self, boxes: Rows) -> Mask:
        """Return for each upright box (x0, y0, x1, y1), shape (n, 4), whether no text and no line lies in it."""
        texts = self._boxes.array()
        out: Mask = np.ones(len(boxes), dtype=np.bool_)
        if len(texts):
            out = np.logical_not(np.any(_overlapping(boxes, texts), axis=1))
        lines = self._lines.array()
        left = np.flatnonzero(out)
        if len(lines) and len(left):
            out[left] = np.logical_not(np.any(_struck(boxes[left], lines), axis=1))
        return out

    def unstruck(self, lines: Rows, clear: float) -> Mask:
        """Return for each line (ax, ay, bx, by), shape (n, 4), whether it keeps `clear` mm from every text."""
        texts = self._boxes.array()
        if not len(texts):
            return np.ones(len(lines), dtype=np.bool_)
        grown = texts + np.array((-clear, -clear, clear, clear))
        out: Mask = np.logical_not(np.any(_struck(grown, lines), axis=0))
        return out


def around(centres: Rows, wide: float, tall: float) -> Rows:
    """Return the boxes (x0, y0, x1, y1) of a size about the points `centres`, shape (n, 2)."""
    half = np.array((wide / 2, tall / 2))
    return np.concatenate((centres - half, centres + half), axis=1)


def bounds(boxes: Sequence[Box], clear: float) -> Rows:
    """Return upright boxes grown by `clear` as rows, shape (n, 4)."""
    grow = np.array((-clear, -clear, clear, clear))
    out: Rows = np.array([b.bounds() for b in boxes], dtype=np.float64).reshape(-1, 4) + grow
    return out


def _overlapping(a: Rows, b: Rows) -> Mask:
    """Return which boxes share more than a line, shape (len(a), len(b))."""
    x = np.minimum(a[:, None, 2], b[None, :, 2]) - np.maximum(a[:, None, 0], b[None, :, 0])
    y = np.minimum(a[:, None, 3], b[None, :, 3]) - np.maximum(a[:, None, 1], b[None, :, 1])
    both: Mask = (x > HAIR) & (y > HAIR)
    return both


def _struck(boxes: Rows, lines: Rows) -> Mask:
    """Return which lines run inside which boxes, shape (len(boxes), len(lines)), by separating axes."""
    ax, ay, bx, by = lines.T
    x0, y0, x1, y1 = (boxes[:, i, None] for i in range(4))
    out: Mask = (x1 > np.minimum(ax, bx) + HAIR) & (x0 < np.maximum(ax, bx) - HAIR)
    out &= (y1 > np.minimum(ay, by) + HAIR) & (y0 < np.maximum(ay, by) - HAIR)
    level, plumb = np.abs(by - ay) < 1e-9, np.abs(bx - ax) < 1e-9
    # A slanted line, and what has no length, which runs inside nothing: only where its bounds meet a box it is asked for.
    box, line = np.nonzero(out & (level == plumb))
    if len(box):
        x0, y0, x1, y1 = boxes[box].T
        ax, ay, bx, by = lines[line].T
        dx, dy = bx - ax, by - ay
        off = np.abs(dx * ((y0 + y1) / 2 - ay) - dy * ((x0 + x1) / 2 - ax))
        reach = np.abs(dx) * (y1 - y0) / 2 + np.abs(dy) * (x1 - x0) / 2
        out[box, line] = off < reach - HAIR * (np.abs(dx) + np.abs(dy))
    return out
