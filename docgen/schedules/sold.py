"""What shops have where a screw or a dowel is told in a size that they may not have. Common practice of suppliers; lengths in mm."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from docgen.trade.fasteners import stock_lengths, wood_screw
from docgen.trade.names import UnknownName, number
from docgen.units import Units, plain_length

METRIC = tuple(Fraction(n, 2) for n in (4, 5, 6, 7, 8, 9, 10, 12))
"""Diameters of metric wood screws, mm: 2, 2.5, 3, 3.5, 4, 4.5, 5, 6. Common practice."""

SAME = 0.01
_SIZE = r"(?P<long>\d[\d /.]*?)\s*(?:mm|in)?$"
_SCREW = re.compile(rf"^No\. (?P<gauge>\d+) × {_SIZE}")
_DOWEL = re.compile(rf"^(?P<wide>\d[\d /.]*?) × {_SIZE}")


def sold(what: str, size: str, units: Units) -> str:
    """Return the nearest size that is sold, "" where the size itself is, or where nothing is known of it.

    Screws by number are told as metric ones in a file in millimetres; dowels never longer than their holes take.
    """
    try:
        if "wood screw" in what and (found := _SCREW.match(size)):
            return _screw(found["gauge"], number(found["long"]) * units.mm, units)
        if "dowel" in what and (found := _DOWEL.match(size)):
            return _dowel(found["wide"], number(found["long"]) * units.mm, units)
    except (UnknownName, ValueError, ZeroDivisionError):
        return ""
    return ""


def _screw(gauge: str, long: Fraction, units: Units) -> str:
    metric = units.system == "mm"
    length = _nearest(stock_lengths("metric" if metric else "inch", "wood screw"), long)
    if metric:
        wide = _nearest(METRIC, wood_screw(int(gauge)).shank)
        return f"in metric shops the nearest is {plain_length(wide, units)} × {plain_length(length, units)}"
    off = abs(length - long) > SAME
    return f"nearest length sold: {plain_length(length, units)}" if off else ""


def _dowel(wide: str, long: Fraction, units: Units) -> str:
    system = "metric" if units.system == "mm" else "inch"
    lengths = stock_lengths(system, f"dowel {wide.strip()}")
    shorter = [v for v in lengths if v <= long + Fraction(1, 100)]
    if not shorter:
        return f"sold from {plain_length(lengths[0], units)} up: cut it"
    return "" if long - shorter[-1] <= SAME else f"nearest length sold that goes in: {plain_length(shorter[-1], units)}"


def _nearest(among: Sequence[Fraction], value: Fraction) -> Fraction:
    return min(among, key=lambda v: (abs(v - value), v))
