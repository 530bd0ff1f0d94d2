"""The sign of a view that is turned on paper: an arc with an arrow the way it was turned, and the angle (ISO 128-3; from memory)."""

from __future__ import annotations

import math

from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import moved
from docgen.drawing.records import Arc, Pen, Record, Text
from docgen.drawing.symbols import arrowhead
from docgen.units import format_angle

HEAD = 1.6  # mm: the arrowhead
GAP = 1.2  # mm between arc and angle
FREE = 1.0  # mm before the sign
OPENS = 20.0  # degrees below level at which the arc begins and ends


def turned_sign(degrees: float, height: float, metrics: Metrics) -> tuple[list[Record], float]:
    """Return the sign of a view turned counter-clockwise by so much, its right end at the origin, and its width; mm.

    Nothing for a view that stands as it is built.
    """
    if not degrees:
        return [], 0.0
    told = format_angle(round(abs(degrees), 2))
    beside = metrics.width(told, height) + GAP
    sign, wide = turned_arc(degrees, height)
    return [Text((0.0, 0.0), told, height, "right"), *(moved(r, -beside, 0.0) for r in sign)], FREE + wide + beside


def turned_arc(degrees: float, height: float) -> tuple[list[Record], float]:
    """Return the sign without its angle, its right end at the origin, and its width; mm."""
    radius = 0.55 * height
    middle = (-radius, 0.4 * height)
    end = 180.0 + OPENS if degrees > 0 else -OPENS
    tip = tuple(c + radius * f(math.radians(end)) for c, f in zip(middle, (math.cos, math.sin), strict=True))
    way = end + 90.0 if degrees > 0 else end - 90.0
    arc = Arc(middle, radius, -OPENS, 180.0 + OPENS, Pen.THIN)
    return [arc, *arrowhead((tip[0], tip[1]), way, HEAD)], 2 * radius
