"""The whole piece seen square on: its lines, its extent, its main parts, and the sizes of it as they are wanted."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.records import Point
from docgen.drawing.views import without_specks
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS, Drawn, Stroke, View
from docgen.geometry.shapes import Frame, Vec
from docgen.geometry.sight import bare, places, places_near_edges
from docgen.geometry.topology import Topology
from docgen.piece import loose
from docgen.piece.model import Part, Piece
from docgen.piece.records import Size, SizeKind
from docgen.piece.solids import Solids
from docgen.piece.turnings import radius_at
from docgen.units import Number, Units, near_length

SAME = 0.05  # mm
BLANK = 12  # lines: a view that has no more of one part shows little else than its outline
FEW = 32  # hidden lines: more are no longer plain to read
NODES = 60  # of the grid on which it is asked where a view shows nothing, along the longest side of the piece
SPECK = 1.4  # widths of the pen: what is smaller is a dot on paper
UP: Vec = (0.0, 0.0, 1.0)
DIRECTIONS: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), UP)


@dataclass(slots=True)
class Whole:
    """The piece with its extent; lines are drawn once for each view and width of pen.

    What other files work out for each view they keep here: `axes` of turned parts, dimensions `wanted`.
    """

    piece: Piece
    solids: Solids
    low: Vec = field(init=False)
    high: Vec = field(init=False)
    _drawn: dict[tuple[str, float], Drawn] = field(default_factory=dict)
    _seen: dict[str, dict[str, list[Point]]] = field(default_factory=dict)
    _spots: dict[str, dict[str, list[Point]]] = field(default_factory=dict)
    _bare: dict[tuple[str, int], frozenset[tuple[int, int]]] = field(default_factory=dict)
    axes: dict[tuple[str, str], list[tuple[Point, Point]]] = field(default_factory=dict)
    wanted: dict[str, list[Wanted]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        corners = [c for p in self.piece.parts for c in extent(p, self.solids)]
        self.low = (min(c[0] for c in corners), min(c[1] for c in corners), min(c[2] for c in corners))
        self.high = (max(c[0] for c in corners), max(c[1] for c in corners), max(c[2] for c in corners))

    @property
    def units(self) -> Units:
        """How lengths are printed."""
        return self.piece.units

    def size(self, direction: int) -> float:
        """Return the extent of the piece across, deep or up, mm."""
        return self.high[direction] - self.low[direction]

    def seen(self, name: str) -> dict[str, list[Point]]:
        """Return points of each part that the view shows uncovered, view mm."""
        if name not in self._seen:
            self._seen[name] = self._by_part(places(self.items(), VIEWS[name]))
        return self._seen[name]

    def spots(self, name: str) -> dict[str, list[Point]]:
        """Return points for leaders on each part of which more than slivers is seen: also such near its edges, view mm."""
        if name not in self._spots:
            more = self._by_part(places_near_edges(self.items(), VIEWS[name]))
            self._spots[name] = {path: [*found, *more.get(path, ())] for path, found in self.seen(name).items()}
        return self._spots[name]

    def _by_part(self, free: list[list[Point]]) -> dict[str, list[Point]]:
        return {part.path: spots for part, spots in zip(self.piece.parts, free, strict=False) if spots}

    def bare(self, name: str, near: float) -> Callable[[Point], bool]:
        """Return what tells of a point, view mm, whether nothing of the piece is seen there, asked `near` to it or nearer."""
        extent = max(map(self.size, range(3)))
        nodes = NODES * math.ceil(extent / NODES / near)
        step, key = extent / nodes, (name, nodes)
        if key not in self._bare:
            grid = _grid(self, name, step)
            told = bare(self.items(), VIEWS[name], [(i * step, j * step) for i, j in grid])
            self._bare[key] = frozenset(n for n, free in zip(grid, told, strict=True) if not free)
        solid = self._bare[key]
        return lambda p: (round(p[0] / step), round(p[1] / step)) not in solid

    def items(self) -> list[tuple[Topology, Frame]]:
        """Return what is drawn: all parts, and what is seen of the things in their joints."""
        return [(self.solids.topology(p.path), p.frame) for p in self.piece.parts] + loose.shown(self.piece)

    def drawn(self, name: str, merge: float) -> Drawn:
        """Return the lines of a view; lines nearer than `merge` mm are one, and what is hardly longer is left out."""
        key = (name, merge)
        if key not in self._drawn:
            seen = draw(self.items(), VIEWS[name], merge=merge, hidden=False)
            self._drawn[key] = without_specks(seen, SPECK * merge)
        return self._drawn[key]

    def within(self, name: str, least: float) -> Sequence[Stroke]:
        """Return the hidden edges of the one part that a view shows, and nothing else: trenches behind a blank face.

        None where it shows more. What is smaller than `least` mm is left out: pilot holes.
        """
        own = [
            s for s in self.lines(name).visible if s.owner < len(self.piece.parts)
        ]  # a hinge beside it tells nothing of it
        if len(self.seen(name)) != 1 or len(own) > BLANK:
            return ()
        part = self.piece.part(next(iter(self.seen(name))))
        drawn = draw([(self.solids.topology(part.path), part.frame)], VIEWS[name], merge=SAME)
        told = [s for s in drawn.hidden if (2 * s.arc.radius if s.arc else math.dist(s.a, s.b)) >= least]
        return told if len(told) <= FEW else ()

    def lines(self, name: str) -> Drawn:
        """Return the lines of a view as they were drawn first, to ask what is in sight."""
        return next((found for (of, _), found in self._drawn.items() if of == name), None) or self.drawn(name, SAME)


def _grid(whole: Whole, name: str, step: float) -> list[tuple[int, int]]:
    """Return the nodes of a grid of `step` mm that lie within the extent of the piece in a view."""
    (x0, y0), (x1, y1) = VIEWS[name].flat(whole.low), VIEWS[name].flat(whole.high)
    across, up = ((math.ceil(min(a, b) / step), math.floor(max(a, b) / step)) for a, b in ((x0, x1), (y0, y1)))
    return [(i, j) for i in range(across[0], across[1] + 1) for j in range(up[0], up[1] + 1)]


def extent(part: Part, solids: Solids) -> tuple[Vec, Vec]:
    """Return the low and high corner that the part reaches in the piece."""
    return solids.solid(part.path).moved(part.frame).bounds


def main_parts(piece: Piece) -> Iterator[Part]:
    """Yield the parts whose places make the piece: no hardware, nothing in a drawer, nothing raked or loose."""
    inside = {path for d in piece.drawers for path in (*d.parts, *d.runners)}
    panes = {p.pane for p in piece.panes}
    for part in piece.parts:
        if not (part.hardware or part.turned or part.path in inside or part.path in panes or part.group):
            yield part


def direction_of(part: Part, axis: int) -> int:
    """Return the piece direction along which a part axis of an unturned part lies."""
    column = [part.frame.rotation[i][axis] for i in range(3)]
    return max(range(3), key=lambda i: abs(column[i]))


def is_rod(part: Part) -> bool:
    """Return True for a part that is turned round its middle line."""
    return radius_at(part, float(part.size[0]) / 2) is not None


def low_side(whole: Whole, direction: int) -> Number:
    """Return the low side of the piece as the exact number that a part's box gives, where one does."""
    low = whole.low[direction]
    boxes = [p.box[direction][0] for p in whole.piece.parts if not p.turned]
    return next((b for b in boxes if abs(float(b) - low) < 1e-6), low)


def size_along(whole: Whole, direction: int, value: Number) -> Size:
    """Return the size that runs by `value` from the low corner of the piece along a piece direction."""
    start = whole.low
    end = [start[0], start[1], start[2]]
    end[direction] += float(value)
    return Size(SizeKind.LENGTH, start, (end[0], end[1], end[2]), DIRECTIONS[direction], value)


def linear(
    key: str, whole: Whole, view: View, size: Size, *, overall: bool, label: str = "", datum: bool = True
) -> Linear:
    """Return a size as a view dimensions it, `label` before its figure."""
    text = label + near_length(size.value, whole.units)
    along = view.flat(size.along)
    return Linear(key, view.flat(size.start), view.flat(size.end), along, text, (size,), overall, datum)
