"""An angle gauge as a true-size drawing: a right-angled triangle whose rise a rule can check."""

from __future__ import annotations

import math

from docgen.drawing.records import Arc, Line, Pen, Point
from docgen.drawing.tiling.ink import on_arc
from docgen.drawing.tiling.labels import Label, Row
from docgen.drawing.tiling.truesize import TrueSize
from docgen.layout.model import Heights
from docgen.schedules.template_rows import Gauge
from docgen.units import Units, format_angle, format_length

LONG = {"mm": 150.0, "inch": 152.4}  # base: an error of 0.3 mm at its end is 0.11 degrees
SHORT = {"mm": 100.0, "inch": 101.6}  # for steep angles
STEEP = 25.0  # degrees
USES = 2  # that are named


def corners(gauge: Gauge, units: Units) -> tuple[Point, Point, Point]:
    """Return the corners in mm: the angle's, the right angle's, the complement's."""
    base = (LONG if gauge.angle < STEEP else SHORT)[units.system]
    return (0.0, 0.0), (base, 0.0), (base, base * math.tan(math.radians(gauge.angle)))


def gauge_drawing(gauge: Gauge, units: Units, heights: Heights) -> TrueSize:
    """Return the gauge: base at the bottom, the angle at the left, its complement at the top."""
    a, b, c = corners(gauge, units)
    base, rise = c
    radius = base * 0.45
    small = 0.25 * math.hypot(rise, base / 4)
    outer = Arc(a, radius, 0.0, gauge.angle, Pen.THIN)
    inner = Arc(c, small, 180.0 + gauge.angle, 270.0, Pen.THIN)
    inks = (Line(a, b), Line(b, c), Line(c, a), outer, inner)
    angle, rest = format_angle(gauge.angle), format_angle(90 - gauge.angle)

    def length(mm: float) -> tuple[Row, ...]:
        return (Row(f"{format_length(mm, units)} {units.sign}", heights.figure),)

    labels = (
        Label(on_arc(outer, gauge.angle / 2), (Row(angle, heights.figure),)),
        Label(on_arc(inner, 225.0 + gauge.angle / 2), (Row(rest, heights.figure),)),
        Label((base, rise / 2), length(rise)),
        Label((base / 2, 0.0), length(base)),
    )
    more = f" and {len(gauge.uses) - USES} more" if len(gauge.uses) > USES else ""
    lines = (
        f"For {'; '.join(gauge.uses[:USES])}{more}.",
        f"A scale that counts from square reads {angle}, one that counts from the table or fence {rest}.",
        f"Check before use: the short side measures {format_length(rise, units)} {units.sign}.",
    )
    return TrueSize(f"angle gauge {angle} / {rest}", lines, inks, labels, inks[:3])
