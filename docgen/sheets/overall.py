"""The piece as a whole: how much room it takes, and how it looks from a corner."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.drawing.records import Point, Record
from docgen.drawing.views import stroke_records
from docgen.geometry.hidden import VIEWS, Drawn, Stroke, draw
from docgen.layout.model import Rect
from docgen.piece.records import Stage
from docgen.sheets.context import Context


def overall(context: Context) -> tuple[float, float, float]:
    """Return width across, depth and height of the finished piece at rest, in mm, from its solids."""
    lows, highs = [], []
    for part in context.piece.parts:
        low, high = context.solids.solid(part.path, Stage.FITTED).moved(part.frame).bounds
        lows.append(low)
        highs.append(high)
    across, deep, up = (max(h[i] for h in highs) - min(low[i] for low in lows) for i in range(3))
    return across, deep, up


def standing(context: Context, room: Rect) -> list[Record]:
    """Return the finished piece seen from a corner, as large as `room` takes it; only what is seen is drawn."""
    items = [(context.solids.topology(p.path, Stage.FITTED), p.frame) for p in context.piece.parts]
    drawn = draw(items, VIEWS["axonometric"])
    drawn = Drawn(drawn.visible, ())
    left, low, right, high = bounds(drawn)
    scale = min(room.width / max(right - left, 1e-6), room.height / max(high - low, 1e-6))
    x = room.x + (room.width - (right - left) * scale) / 2 - left * scale
    y = room.y + (room.height - (high - low) * scale) / 2 - low * scale
    return stroke_records(drawn, scale, (x, y))


def bounds(drawn: Drawn) -> tuple[float, float, float, float]:
    """Return (x low, y low, x high, y high) of everything that is seen, in view mm."""
    points = [p for stroke in drawn.visible for p in _points(stroke)]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _points(stroke: Stroke) -> Iterator[Point]:
    """Yield a stroke's ends, and of an arc the points in between that may reach furthest."""
    yield stroke.a
    yield stroke.b
    if stroke.arc is not None:
        arc = stroke.arc
        start = math.floor(arc.start_deg / 90) * 90 + 90
        end = arc.end_deg if arc.end_deg > arc.start_deg else arc.end_deg + 360
        for quarter in range(int(start), math.ceil(end), 90):
            a = math.radians(quarter)
            yield (arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a))
