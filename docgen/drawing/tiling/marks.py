"""Where tiles meet: trim lines, match marks and the names of the neighbours.

A page is trimmed at its left and its top and laid over the pages before it. The join lies in the middle of
the overlap; both pages print it with the same marks. A mark is a flat X with a bar across the join: laid wrong by 0.3 mm
along the join, the bar's halves no longer touch; 0.3 mm across it, those of the X no longer do.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Point, Record, Text
from docgen.drawing.tiling.grid import Tile, Tiling
from docgen.drawing.tiling.room import Room

ARM = 4.0  # mm from the middle of a mark to its ends
FLAT = math.tan(math.radians(30))  # slope of the X to the join: the flatter, the more a gap moves its strokes sideways
PLACES = 24  # tried along a join
SNUG = 0.4  # mm kept free over and under a name where the strip has no more
APART = 130.0  # mm between marks above which there is one more in the middle


@dataclass(frozen=True, slots=True)
class Join:
    """The line along which a tile meets its neighbour; `at` is its place across, `low` to `high` its length."""

    side: str  # "left", "right", "top" or "bottom"
    other: Tile
    at: float
    low: float
    high: float

    @property
    def upright(self) -> bool:
        """True for the joins at the left and the right."""
        return self.side in ("left", "right")

    @property
    def trimmed(self) -> bool:
        """True where this page is cut and lies on top."""
        return self.side in ("left", "top")

    def point(self, along: float, across: float = 0.0) -> Point:
        """Return the point `along` the join; `across` is to the right of an upright join, above a level one."""
        return (self.at + across, along) if self.upright else (along, self.at + across)

    def around(self, along: float, half_along: float, low: float, high: float) -> Bounds:
        """Return the rectangle about a place on the join, from `low` to `high` across it."""
        a, b = self.point(along - half_along, low), self.point(along + half_along, high)
        return (a[0], a[1], b[0], b[1])


def joins(tiling: Tiling, tile: Tile) -> tuple[Join, ...]:
    """Return the joins of a tile with the neighbours that are printed."""
    x0, y0, x1, y1 = tile.cell
    places = (("left", -1, 0, x0), ("right", 1, 0, x1), ("top", 0, -1, y1), ("bottom", 0, 1, y0))
    out = []
    for side, across, down, at in places:
        other = tiling.at(tile.column + across, tile.row + down)
        if other is not None:
            low, high = (y0, y1) if across else (x0, x1)
            out.append(Join(side, other, at, low, high))
    return tuple(out)


def marks(join: Join, room: Room) -> tuple[float, ...]:
    """Return the places along the join of its match marks: far apart and off the lines of the drawing.

    Both pages get the same answer, since `room` holds the whole drawing.
    """
    edge = ARM + 2.0
    tried = [join.low + edge + (join.high - join.low - 2 * edge) * k / PLACES for k in range(PLACES + 1)]
    free = [t for t in tried if room.clear(join.around(t, ARM + 1, -ARM - 1, ARM + 1))]
    if len(free) < 2 or free[-1] - free[0] < (join.high - join.low) / 3:
        free = sorted({tried[0], tried[-1], *free})
    out = [free[0], free[-1]]
    if out[1] - out[0] > APART:
        middle = (out[0] + out[1]) / 2
        out.insert(1, min(free, key=lambda t: abs(t - middle)))
    return tuple(out)


def match_mark(join: Join, along: float) -> list[Line]:
    """Return the strokes of one match mark."""
    p = join.point
    up = FLAT * ARM
    return [
        Line(p(along - ARM, -up), p(along + ARM, up), Pen.THIN),
        Line(p(along - ARM, up), p(along + ARM, -up), Pen.THIN),
        Line(p(along, -ARM), p(along, ARM), Pen.THIN),
    ]


def join_records(tiling: Tiling, tile: Tile, room: Room, metrics: Metrics, height: float) -> list[Record]:
    """Return trim lines, match marks and neighbours' names of a tile, in the drawing's coordinates."""
    out: list[Record] = []
    for join in joins(tiling, tile):
        places = marks(join, room)
        first, last = _reach(join, tile)
        out.append(Line(join.point(first), join.point(last), Pen.TRIM if join.trimmed else Pen.THIN))
        for along in places:
            out.extend(match_mark(join, along))
        out.append(_name(join, places, room, metrics, height, tiling.overlap / 2))
    return out


def _reach(join: Join, tile: Tile) -> tuple[float, float]:
    """Return how far the line is drawn: across the whole window, so that the cut runs off the page."""
    w = tile.window
    return (w[1], w[3]) if join.upright else (w[0], w[2])


def _name(join: Join, places: Sequence[float], room: Room, metrics: Metrics, height: float, half: float) -> Text:
    """Return the words beyond the join, in the strip that is cut off or covered."""
    other = join.other.name
    long = f"cut here, then lay over {other}" if join.trimmed else f"{other} lies over this strip, up to the line"
    short = f"lay over {other}" if join.trimmed else f"{other} lies over"
    inward = 1.0 if join.side in ("left", "bottom") else -1.0  # towards the tile
    low, high = (-half + 0.4, -0.6) if inward > 0 else (0.6, half - 0.4)
    middle, need = (low + high) / 2, height / 2 + SNUG
    beside = high - need if inward > 0 else low + need  # as near to the join as letters may stand
    for text, across, half_across in (
        (long, middle, (high - low) / 2),
        (short, middle, (high - low) / 2),
        (short, beside, need),
        (other, middle, (high - low) / 2),
        (other, beside, need),
    ):
        wide = metrics.width(text, height)
        for along in _outward(join.low + wide / 2 + 2, join.high - wide / 2 - 2):
            apart = all(abs(along - m) > wide / 2 + ARM + 1 for m in places)
            if apart and room.clear(join.around(along, wide / 2 + 1, across - half_across, across + half_across)):
                return _text(join, along, text, height, across)
    clear_of = [t for t in _outward(join.low + 6, join.high - 6) if all(abs(t - m) > ARM + 6 for m in places)]
    return _text(join, clear_of[0] if clear_of else (join.low + join.high) / 2, other, height, middle)


def _outward(low: float, high: float) -> list[float]:
    """Return places from the middle outward."""
    if high < low:
        return []
    middle = (low + high) / 2
    return sorted((low + (high - low) * k / PLACES for k in range(PLACES + 1)), key=lambda t: (abs(t - middle), t))


def _text(join: Join, along: float, text: str, height: float, across: float) -> Text:
    if join.upright:  # read from the right: the baseline lies to the right of the letters
        return Text(join.point(along, across + height / 2), text, height, "middle", False, 90.0)
    return Text(join.point(along, across - height / 2), text, height, "middle")
