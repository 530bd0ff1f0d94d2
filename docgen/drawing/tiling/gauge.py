"""An angle gauge as a true-size drawing: a right-angled triangle whose rise a rule can check."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

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
USES = 2  # that are named, of those that are turned alike
SQUARE = "square"
SCALES = "Where a scale stands at 0 for a square cut, set what is from square; where it stands at 90, the other."


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
    corner, other = _from(gauge)

    def length(mm: float) -> tuple[Row, ...]:
        return (Row(f"{format_length(mm, units)} {units.sign}", heights.figure),)

    def told(figure: str, counted: str) -> tuple[Row, ...]:
        return (Row(figure, heights.figure), *((Row(counted, heights.note),) if counted else ()))

    labels = (
        Label(on_arc(outer, gauge.angle / 2), told(angle, corner)),
        Label(on_arc(inner, 225.0 + gauge.angle / 2), told(rest, other)),
        Label((base, rise / 2), length(rise)),
        Label((base / 2, 0.0), length(base)),
    )
    lines = (
        *_turns(gauge),
        *((SCALES,) if gauge.turns else ()),
        f"Check before use: the short side measures {format_length(rise, units)} {units.sign}.",
    )
    return TrueSize(f"angle gauge {angle} / {rest}", lines, inks, labels, inks[:3])


def _turns(gauge: Gauge) -> Iterator[str]:
    """Yield for each way in which the gauge is turned what its angles are, and for which cuts."""
    told = {use for turn in gauge.turns for use in turn.uses}
    for square in (True, False):
        same = [turn for turn in gauge.turns if turn.square is square]
        if not same:
            continue
        from_square = gauge.angle if square else 90 - gauge.angle
        others = " or ".join(dict.fromkeys(turn.other for turn in same))
        ways = f"{format_angle(from_square)} from square, {format_angle(90 - from_square)} from the {others}"
        yield f"{ways} for {_listed([use for turn in same for use in turn.uses])}."
    if untold := [use for use in gauge.uses if use not in told]:
        yield f"For {_listed(untold)}."


def _listed(uses: Sequence[str]) -> str:
    more = f" and {len(uses) - USES} more" if len(uses) > USES else ""
    return f"{'; '.join(uses[:USES])}{more}"


def _from(gauge: Gauge) -> tuple[str, str]:
    """Return what the gauge's angle and its complement are counted from: "from square", "from the face or edge".

    Where it is turned one way for some cuts and the other way for others, both: "from square or the edge".
    """
    if not gauge.turns:
        return "", ""
    flat, steep = (
        ([SQUARE] if any(turn.square is square for turn in gauge.turns) else [])
        + list(dict.fromkeys(f"the {turn.other}" for turn in gauge.turns if turn.square is not square))
        for square in (True, False)
    )
    return _either(flat), _either(steep)


def _either(sides: Sequence[str]) -> str:
    """Return "from square or the edge", the article once where it may be: "from the face or edge"."""
    first, *others = sides
    return f"from {' or '.join([first, *(o if first == SQUARE else o.removeprefix('the ') for o in others)])}"
