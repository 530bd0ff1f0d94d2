"""A side of a face that is cut to a line: the cutter, what stays, what goes, on a part of any hand.

The line is drawn in the side's own plane: x runs with the part's axis along the side, d is the depth under it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from docgen.geometry.curves import Run
from docgen.geometry.make import along_axis
from docgen.geometry.outlines import backward, flatten_edge, signed_area
from docgen.geometry.shapes import Edge, Extrusion, Outline, Vec2
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import OVER, SAME, in_plane, need, third
from docgen.piece.records import Axis, Face

BACK = 0.01  # mm; where a curve starts square to the side, the arcs that follow it may stand so far back
LOOKED = 0.05  # mm of sag at which a line is followed to see where it runs


@dataclass(frozen=True, slots=True)
class SideLine:
    """The line `run` from `start` along the side `edge` of `face`; x rises along it."""

    part: Part
    face: Face
    edge: Face
    start: Vec2
    run: Run

    @property
    def along(self) -> Axis:
        """Return the part's axis along the side."""
        return third(self.face.axis, self.edge.axis)

    @property
    def long(self) -> float:
        """Return how long the side is, mm."""
        return float(self.part.size[self.along])

    @property
    def wide(self) -> float:
        """Return how much wood lies under the side, mm."""
        return float(self.part.size[self.edge.axis])

    @property
    def stop(self) -> Vec2:
        """Return where the line ends."""
        return self.run[-1].end

    def points(self) -> list[Vec2]:
        """Return points along the line, close enough to see where it runs."""
        out = [self.start]
        for edge in self.run:
            out.extend(flatten_edge(out[-1], edge, LOOKED, 24))
        return out

    def check(self, what: str, field: str) -> None:
        """Raise a `Fault` unless the line runs on along the side, inside the wood, and leaves some."""
        points = self.points()
        need(
            all(b[0] - a[0] > -BACK for a, b in pairwise(points)) and self.stop[0] - self.start[0] > SAME,
            "curve-returns",
            f"the {what} turns back on itself",
            field,
            "points in order along the edge, so that the curve passes each place once",
        )
        deepest, highest = max(p[1] for p in points), min(p[1] for p in points)
        low, high = self.start[0], self.stop[0]
        need(
            highest > -0.01 and low > -SAME and high < self.long + SAME,
            "curve-outside",
            f"the {what} leaves the part" + (f" by {figure(-highest)}" if highest <= -0.01 else ""),
            field,
            "points between which the curve stays in the wood",
        )
        need(
            0.01 < deepest < self.wide - SAME,
            "curve-depth",
            f"the {what} goes {figure(max(0.0, deepest))} deep in {figure(self.wide)}",
            field,
            "a curve that takes some wood and leaves some",
        )

    def cutter(self) -> Extrusion:
        """Return the waste right through the part, with 1 mm and more beyond every open side."""
        first, last = self.part.span(self.along)
        x0, x1 = self.start[0], self.stop[0]
        low = float(first) - OVER if x0 <= SAME else x0
        high = float(last) + OVER if x1 >= self.long - SAME else x1
        ends = self.part.span(self.edge.axis)
        out = -OVER - (float(ends[1]) - self.wide if self.edge.side else -float(ends[0]))
        line = [Edge((low, out)), Edge((low, self.start[1])), Edge(self.start), *self.run, Edge((high, self.stop[1]))]
        through = self.part.span(self.face.axis)
        outline = self.placed((*line, Edge((high, out))))
        return along_axis(outline, self.face.axis, float(through[0]) - OVER, float(through[1]) + OVER)

    def stays(self) -> Outline:
        """Return the face's outline as the line leaves it."""
        before = [(0.0, self.wide), (0.0, 0.0), (self.start[0], 0.0)]
        if self.start[0] <= SAME:
            before = before[:1]
        after = [(self.stop[0], 0.0), (self.long, 0.0), (self.long, self.wide)]
        if self.stop[0] >= self.long - SAME:
            after = after[2:]
        return self.placed((*(Edge(p) for p in (*before, self.start)), *self.run, *(Edge(p) for p in after)))

    def goes(self) -> Outline:
        """Return the waste on the face."""
        ends = (Edge((self.stop[0], 0.0)), Edge((self.start[0], 0.0)))
        return self.placed((Edge(self.start), *self.run, *ends))

    def place(self, p: Vec2) -> Vec2:
        """Return a point of the side's plane on the face's two axes in rising order."""
        depth = self.wide - p[1] if self.edge.side else p[1]
        return (p[0], depth) if in_plane(self.face)[0] == self.along else (depth, p[0])

    def placed(self, edges: tuple[Edge, ...]) -> Outline:
        """Return the closed line on the face, counter-clockwise, without sides of no length."""
        turned = self._turned
        kept: list[Edge] = []
        before = edges[-1].end
        for edge in edges:
            if math.dist(before, edge.end) > SAME:
                kept.append(edge)
                before = edge.end
        outline = Outline(
            tuple(
                Edge(self.place(e.end), None if e.centre is None else self.place(e.centre), e.ccw != turned)
                for e in kept
            )
        )
        return outline if signed_area(outline) > 0 else backward(outline)

    @property
    def _turned(self) -> bool:
        """True when the side's plane is seen mirrored on the face."""
        return (in_plane(self.face)[0] == self.along) == bool(self.edge.side)

    def wall(self) -> tuple[Vec2, tuple[Edge, ...], tuple[bool, bool]]:
        """Return the line on the face with the wood to its right: start, edges, and whether each end leaves the part."""
        edges = tuple(
            Edge(self.place(e.end), None if e.centre is None else self.place(e.centre), e.ccw != self._turned)
            for e in self.run
        )
        start = self.place(self.start)
        out = (self.start[0] <= SAME, self.stop[0] >= self.long - SAME)
        if self._turned:
            return start, edges, out
        starts = [start, *(e.end for e in edges)]
        back = tuple(Edge(starts[k], e.centre, not e.ccw) for k, e in reversed(list(enumerate(edges))))
        return edges[-1].end, back, (out[1], out[0])

    def hollow(self) -> float | None:
        """Return the radius of the tightest hollow along the line, mm; None when it has none."""
        hollow = [
            math.dist(e.centre, e.end)
            for e in self.run
            if e.centre is not None and not e.ccw  # the waste lies at the side of small d, to the right of the run
        ]
        return min(hollow, default=None)
