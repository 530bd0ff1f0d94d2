"""An angle gauge as a true-size drawing: a right-angled triangle whose rise a rule can check."""

from __future__ import annotations

import math

from docgen.drawing.records import Arc, Line, Pen
from docgen.drawing.tiles import TrueSize
from docgen.drawing.tiling.labels import Label, Row
from docgen.layout.model import Heights
from docgen.schedules.templates import Gauge
from docgen.units import Units, format_angle, format_length

LONG = {"mm": 150.0, "inch": 152.4}  # base: an error of 0.3 mm at its end is 0.11 degrees
SHORT = {"mm": 100.0, "inch": 101.6}  # for steep angles
STEEP = 25.0  # degrees
USES = 2  # that are named


def gauge_drawing(gauge: Gauge, number: str, units: Units, heights: Heights) -> TrueSize:
    """Return the gauge: base at the bottom, the angle at the left, its complement at the top."""
    base = (LONG if gauge.angle < STEEP else SHORT)[units.system]
    rise = base * math.tan(math.radians(gauge.angle))
    a, b, c = (0.0, 0.0), (base, 0.0), (base, rise)
    radius = base * 0.45
    inks = (
        Line(a, b),
        Line(b, c),
        Line(c, a),
        Arc(a, radius, 0.0, gauge.angle, Pen.THIN),
        Arc(c, min(rise, 0.3 * base) * 0.6, 180.0 + gauge.angle, 270.0, Pen.THIN),
    )
    angle, rest = format_angle(gauge.angle), format_angle(90 - gauge.angle)
    half = math.radians(gauge.angle / 2)
    labels = (
        Label((radius * math.cos(half), radius * math.sin(half)), (Row(angle, heights.figure),)),
        Label(
            (base - 0.35 * rise * math.sin(math.radians(90 - gauge.angle) / 2), 0.6 * rise),
            (Row(rest, heights.figure),),
        ),
        Label((base, rise / 2), (Row(format_length(rise, units), heights.figure),)),
        Label((base / 2, 0.0), (Row(format_length(base, units), heights.figure),)),
    )
    more = f" and {len(gauge.uses) - USES} more" if len(gauge.uses) > USES else ""
    lines = (
        f"For {'; '.join(gauge.uses[:USES])}{more}.",
        f"A scale that counts from square reads {angle}, one that counts from the table or fence {rest}.",
        f"Check before use: the short side measures {format_length(rise, units)} {units.sign}.",
    )
    return TrueSize(f"{number}  angle gauge {angle} / {rest}", lines, inks, labels, inks[:3])
