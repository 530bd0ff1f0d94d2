"""What of a part's blank reaches outside its finished outline: the blank's edge in phantom line where a figure ends on it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from docgen.drawing.breaks import Gone, moved
from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.placing import Bounds, point_bounds
from docgen.drawing.records import Line, Pen, Point
from docgen.drawing.unfold import Station
from docgen.geometry.lines import Drawn
from docgen.piece.model import Part
from docgen.piece.operations.reached import long_points
from docgen.sheets.part_broken import axis_of
from docgen.trade.stability import hull

OUTSIDE = 0.05  # mm in the wood: what reaches no further ends on the outline
NEAR = 0.02  # mm in the wood: a line so near an edge of the blank lies on it


def blank_edges(
    part: Part,
    station: Station,
    drawn: Drawn,
    wanted: Sequence[Wanted],
    bounds: Bounds,
    scale: float,
    gone: Sequence[Gone] = (),
) -> list[Line]:
    """Return what of the blank's edges lies where overall sizes end outside the view's `bounds`, about its paper origin.

    Where a curve takes a whole edge, the width that the part is cut to first is nowhere on it any more, and where it takes
    the long point of a slanted end, the length. The edges are drawn from there to where the part still stands; `gone` is
    what the view lacks.
    """
    beyond = [
        (axis, side, level)
        for w in wanted
        if isinstance(w, Linear) and w.overall
        for axis in (0, 1)
        if abs(w.along[axis]) > 1 - 1e-6
        for level in (w.a[axis], w.b[axis])
        for side in (0, 1)
        if (level - bounds[axis + 2 * side]) * (1 if side else -1) > OUTSIDE
    ]
    if not beyond:
        return []
    broken = axis_of(station.view) if gone else None
    seen = (station.view.flat(p) for p in long_points(part))
    ring = hull(moved(p, broken, gone) if broken is not None else p for p in seen)
    out: dict[tuple[Point, Point], None] = {}
    for a, b in pairwise((*ring, ring[0])):
        reach = point_bounds((a, b))
        if any(abs(reach[axis + 2 * side] - level) < NEAR for axis, side, level in beyond):
            out |= dict.fromkeys(_open(drawn, a, b, beyond))
    return [Line(_scaled(a, scale), _scaled(b, scale), Pen.PHANTOM) for a, b in out]


def _open(drawn: Drawn, a: Point, b: Point, beyond: Sequence[tuple[int, int, float]]) -> Iterator[tuple[Point, Point]]:
    """Yield the stretches of an edge of the blank that no visible line covers and that come to a level `beyond` the view."""
    long = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    covered = []
    for s in drawn.visible:
        ends = [((p[0] - a[0]) * ux + (p[1] - a[1]) * uy, (p[1] - a[1]) * ux - (p[0] - a[0]) * uy) for p in (s.a, s.b)]
        if s.arc is None and all(abs(off) < NEAR for _, off in ends):
            covered.append(sorted(along for along, _ in ends))
    reach = 0.0
    for low, high in (*sorted(covered), [long, long]):
        if low - reach > OUTSIDE:
            p, q = ((a[0] + t * ux, a[1] + t * uy) for t in (reach, low))
            if any(abs(end[axis] - level) < NEAR for end in (p, q) for axis, _, level in beyond):
                yield p, q
        reach = max(reach, high)


def _scaled(p: Point, scale: float) -> Point:
    return (p[0] * scale, p[1] * scale)
