"""What is taken on a page: straight pieces of lines, and boxes of lettering; and whether something else fits."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from docgen.drawing.boxes import crossing
from docgen.drawing.placing import Bounds
from docgen.drawing.tiling.ink import Segment

HAIR = 1e-6  # mm: lines that come so near are looked at exactly


@dataclass(slots=True)
class Room:
    """What is taken on a tile: straight pieces of lines, and boxes of lettering."""

    window: Bounds
    lines: npt.NDArray[np.float64]
    boxes: list[Bounds] = field(default_factory=list)
    leaders: list[Segment] = field(default_factory=list)
    _reach: npt.NDArray[np.float64] = field(init=False)  # (4, n): x low, y low, x high, y high of the lines

    def __post_init__(self) -> None:
        """Measure the lines once: most boxes that are tried have few lines near them."""
        a, b = self.lines[:, :2].T, self.lines[:, 2:].T
        self._reach = np.concatenate((np.minimum(a, b) - HAIR, np.maximum(a, b) + HAIR))

    @staticmethod
    def of(window: Bounds, pieces: Iterable[Segment]) -> Room:
        """Return the room of a window in which `pieces` are drawn."""
        rows = [(a[0], a[1], b[0], b[1]) for a, b in pieces]
        return Room(window, np.array(rows, dtype=float).reshape(len(rows), 4))

    def free(self, box: Bounds) -> bool:
        """Return whether lettering in `box` lies in the window and touches nothing."""
        w = self.window
        if box[0] < w[0] or box[1] < w[1] or box[2] > w[2] or box[3] > w[3]:
            return False
        if any(b[0] < box[2] and box[0] < b[2] and b[1] < box[3] and box[1] < b[3] for b in self.boxes):
            return False
        if any(_crosses_box(leader, box) for leader in self.leaders):
            return False
        return self.clear(box)

    def take(self, box: Bounds, leader: Segment | None) -> None:
        """Note what a label takes: its box, and its leader where it has one."""
        self.boxes.append(box)
        if leader:
            self.leaders.append(leader)

    def clear(self, box: Bounds) -> bool:
        """Return whether no line of the drawing has a point in `box`."""
        return not len(self._touched(box))

    def _touched(self, box: Bounds) -> npt.NDArray[np.float64]:
        """Return the lines that have a point in the box."""
        left, low, right, high = self._reach
        beside = (left <= box[2]) & (right >= box[0]) & (low <= box[3]) & (high >= box[1])
        near: npt.NDArray[np.float64] = self.lines[beside]
        if len(near):
            near = near[touched(near, box)]
        return near

    def across(self, leader: Segment) -> tuple[int, int, int]:
        """Return how many drawn lines, leaders and labels a leader would cross."""
        box = (*map(min, *leader), *map(max, *leader))
        near = self._touched(box).tolist()  # type: ignore[arg-type]
        lines = sum(crossing(*leader, (s[0], s[1]), (s[2], s[3])) for s in near)
        return (
            lines,
            sum(crossing(*leader, *other) for other in self.leaders),
            sum(_crosses_box(leader, b) for b in self.boxes),
        )


def touched(lines: npt.NDArray[np.float64], box: Bounds) -> npt.NDArray[np.bool_]:
    """Return which of the lines (n, 4) have a point in the box; parametric clipping of all at once."""
    low, high = np.zeros(len(lines)), np.ones(len(lines))
    for axis in (0, 1):
        a, d = lines[:, axis], lines[:, axis + 2] - lines[:, axis]
        flat = d == 0
        step = np.where(flat, 1.0, d)
        t0, t1 = (box[axis] - a) / step, (box[axis + 2] - a) / step
        beside = flat & ((a < box[axis]) | (a > box[axis + 2]))
        low = np.where(flat, low, np.maximum(low, np.minimum(t0, t1)))
        high = np.where(beside, -1.0, np.where(flat, high, np.minimum(high, np.maximum(t0, t1))))
    touched: npt.NDArray[np.bool_] = low <= high
    return touched


def _crosses_box(line: Segment, box: Bounds) -> bool:
    """Return whether a line has a point in the box: `touched` for one line, without the cost of arrays."""
    (ax, ay), (bx, by) = line
    low, high = 0.0, 1.0
    for a, d, least, most in ((ax, bx - ax, box[0], box[2]), (ay, by - ay, box[1], box[3])):
        if d == 0:
            if a < least or a > most:
                return False
            continue
        t0, t1 = (least - a) / d, (most - a) / d
        low, high = max(low, min(t0, t1)), min(high, max(t0, t1))
    return low <= high
