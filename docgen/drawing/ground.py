"""Where paper is white: a grid of what lines pass, asked for many squares at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

CELL = 0.5  # mm


class Ground:
    """The lines (k, 2, 2) of a drawing, mm, in squares of half a millimetre."""

    def __init__(self, lines: Floats) -> None:
        ends = np.asarray(lines, dtype=np.float64).reshape(-1, 2, 2)
        self._low = ends.reshape(-1, 2).min(axis=0) - 1.0 if len(ends) else np.zeros(2)
        high = ends.reshape(-1, 2).max(axis=0) + 1.0 if len(ends) else np.zeros(2)
        long = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
        counts = np.maximum(1, np.ceil(2 * long / CELL)).astype(np.int64)
        which = np.repeat(np.arange(len(ends)), counts + 1)
        step = np.arange(len(which)) - np.repeat(np.cumsum(counts + 1) - counts - 1, counts + 1)
        points = ends[which, 0] + (step / counts[which])[:, None] * (ends[which, 1] - ends[which, 0])
        shape = np.ceil((high - self._low) / CELL).astype(np.int64) + 1
        cells = np.zeros(shape, dtype=np.int64)
        i, j = ((points - self._low) / CELL).astype(np.int64).T
        cells[i, j] = 1
        self._sums = np.zeros(shape + 1, dtype=np.int64)
        self._sums[1:, 1:] = cells.cumsum(axis=0).cumsum(axis=1)

    def free(self, points: Floats, half: float) -> Bools:
        """Return for points (n, 2) whether no line passes within `half` mm across or up of them, to the grid's accuracy."""
        most = np.array(self._sums.shape) - 1
        low = np.clip(np.floor((points - half - self._low) / CELL).astype(np.int64), 0, most)
        high = np.clip(np.ceil((points + half - self._low) / CELL).astype(np.int64), 0, most)
        s = self._sums
        inked = (
            s[high[:, 0], high[:, 1]] - s[low[:, 0], high[:, 1]] - s[high[:, 0], low[:, 1]] + s[low[:, 0], low[:, 1]]
        )
        return np.asarray(inked == 0, dtype=np.bool_)
