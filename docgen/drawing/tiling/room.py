"""What is taken on a page: straight pieces of lines, and boxes of lettering; and whether something else fits."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from docgen.drawing.boxes import crossing
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Point
from docgen.drawing.tiling.ink import Segment, off

HAIR = 1e-6  # mm: lines that come so near are looked at exactly
TOUCH = (
    1.0  # mm: a line so near to where a leader begins passes through its point: half a thick line lies within its edge
)
NARROW = math.cos(math.radians(20.0))  # between a leader and such a line: at less the leader is lost beside it


@dataclass(slots=True)
class Room:
    """What is taken on a tile: straight pieces of lines, and boxes of lettering; the last `faint` lines are hatching."""

    window: Bounds
    lines: npt.NDArray[np.float64]
    faint: int = 0
    boxes: list[Bounds] = field(default_factory=list)
    leaders: list[Segment] = field(default_factory=list)
    _reach: npt.NDArray[np.float64] = field(init=False)  # (4, n): x low, y low, x high, y high of the lines

    def __post_init__(self) -> None:
        """Measure the lines once: most boxes that are tried have few lines near them."""
        a, b = self.lines[:, :2].T, self.lines[:, 2:].T
        self._reach = np.concatenate((np.minimum(a, b) - HAIR, np.maximum(a, b) + HAIR))

    @staticmethod
    def of(window: Bounds, pieces: Iterable[Segment], hatching: Iterable[Segment] = ()) -> Room:
        """Return the room of a window in which `pieces` are drawn, and `hatching`, which leaders may rather cross."""
        rows = [(a[0], a[1], b[0], b[1]) for a, b in pieces]
        solid = len(rows)
        rows.extend((a[0], a[1], b[0], b[1]) for a, b in hatching)
        return Room(window, np.array(rows, dtype=float).reshape(len(rows), 4), len(rows) - solid)

    def shows(self, p: Point) -> bool:
        """Return whether a point lies in the window."""
        w = self.window
        return w[0] <= p[0] <= w[2] and w[1] <= p[1] <= w[3]

    def free(self, box: Bounds) -> bool:
        """Return whether lettering in `box` lies in the window and touches nothing."""
        w = self.window
        if box[0] < w[0] or box[1] < w[1] or box[2] > w[2] or box[3] > w[3]:
            return False
        if any(b[0] < box[2] and box[0] < b[2] and b[1] < box[3] and box[1] < b[3] for b in self.boxes):
            return False
        if any(touches(leader, box) for leader in self.leaders):
            return False
        return self.clear(box)

    def take(self, box: Bounds, leader: Segment | None) -> None:
        """Note what a label takes: its box, and its leader where it has one."""
        self.boxes.append(box)
        if leader:
            self.leaders.append(leader)

    def clear(self, box: Bounds) -> bool:
        """Return whether no line of the drawing has a point in `box`."""
        return not any(touches(line, box) for line in self._near(box))

    def _near(self, box: Bounds) -> list[Segment]:
        """Return the lines whose own boxes meet the box."""
        return [line for line, _ in self._told(box)]

    def _told(self, box: Bounds) -> list[tuple[Segment, bool]]:
        """Return the lines whose own boxes meet the box, and whether each is more than hatching."""
        left, low, right, high = self._reach
        beside = np.flatnonzero((left <= box[2]) & (right >= box[0]) & (low <= box[3]) & (high >= box[1]))
        solid = len(self.lines) - self.faint
        rows = zip(self.lines[beside].tolist(), beside.tolist(), strict=True)
        return [(((ax, ay), (bx, by)), k < solid) for (ax, ay, bx, by), k in rows]

    def across(self, leader: Segment) -> tuple[int, int, int, int]:
        """Return how many drawn lines, lines of hatching, leaders and labels a leader would cross."""
        box = (*map(min, *leader), *map(max, *leader))
        crossed = [solid for line, solid in self._told(box) if crossing(*leader, *line)]  # type: ignore[arg-type]
        return (
            sum(crossed),
            len(crossed) - sum(crossed),
            sum(crossing(*leader, *other) for other in self.leaders),
            sum(touches(leader, b) for b in self.boxes),
        )

    def along(self, leader: Segment) -> bool:
        """Return whether a leader runs along a drawn line that passes through where it begins, or straight on from it."""
        (x, y), (ex, ey) = leader
        long = math.dist(*leader)
        ux, uy = (ex - x) / long, (ey - y) / long
        near = self._near((x - TOUCH, y - TOUCH, x + TOUCH, y + TOUCH))
        for a, b in near:
            if off((x, y), [(a, b)]) > TOUCH:
                continue
            for px, py in (a, b):
                dx, dy = px - x, py - y
                far = math.hypot(dx, dy)
                if far > 2 * TOUCH and abs(dx * ux + dy * uy) > NARROW * far:
                    return True
        return False


def touches(line: Segment, box: Bounds) -> bool:
    """Return whether a line has a point in the box, by parametric clipping."""
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
