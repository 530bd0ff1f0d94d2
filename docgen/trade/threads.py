"""Unified and metric screw threads: sizes, tap drills, per cent of thread. Lengths in mm, exact."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from docgen.tables import rows
from docgen.trade.drills import Drill
from docgen.trade.drills import find as find_drill
from docgen.trade.names import INCH, UnknownName, number
from docgen.units import Number

FULL_THREAD = 1.29904
"""Twice the height of a full external thread over its pitch (3/4 · √3), the basis of "per cent of thread" here.

Source: Machinery's Handbook, 31st edition, p. 2155. Another basis in print, 1.08253, reads a fifth higher.
"""

PLUG_LEAD = 4
"""Pitches that a plug tap's lead leaves unfinished. Common practice."""


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread; `major` and `pitch` in mm. `tap_drill` is the 75 % class, as used for wood.

    `metal_half` is the 50 % drill of metal charts, which is not for wood.
    """

    designation: str  # "1/4-20 UNC", "M6 × 1"
    size: str  # "1/4", "#8", "M6"
    system: str  # "unified" or "metric"
    series: str  # "UNC", "UNF", "coarse"
    major: Fraction
    pitch: Fraction
    tap_drill: Drill
    metal_half: Drill
    source: str

    @property
    def percent(self) -> float:
        """Per cent of thread that `tap_drill` leaves, on the 1.29904 basis."""
        return percent_of_thread(self.major, self.tap_drill.diameter, self.pitch)


@cache
def known() -> tuple[Thread, ...]:
    """Return all threads of the table in its order. Sources stand in its rows (ASME B1.1, ISO 261)."""
    return tuple(_thread(r) for r in rows("threads"))


def _thread(row: dict[str, str]) -> Thread:
    metric = row["system"] == "metric"
    pitch = Fraction(row["pitch"]) if metric else INCH / Fraction(row["tpi"])
    name = f"{row['size']} × {float(pitch):g}" if metric else f"{row['size']}-{row['tpi']} {row['series']}"
    return Thread(
        name,
        row["size"],
        row["system"],
        row["series"],
        Fraction(row["major"]) * (1 if metric else INCH),
        pitch,
        find_drill(row["tap_drill"]),
        find_drill(row["half_drill"]),
        row["source"],
    )


_METRIC = re.compile(r"^m(\d+(?:\.\d+)?)(?:[x×*-](\d+(?:\.\d+)?))?$")
_UNIFIED = re.compile(r"^(#?\d+(?:/\d+)?)-([1-9]\d*)(un[cf])?$")


def find(designation: str) -> Thread:
    """Return the thread written as "1/4-20 UNC", "#8-32", "M6 × 1", "M6x1" or "M6" (coarse).

    The result's `designation` is in full. `UnknownName` with the nearest known designation otherwise.
    """
    text = "".join(designation.lower().split()).replace("no.", "#")
    metric, unified = _METRIC.match(text), _UNIFIED.match(text)
    for thread in known():
        if metric and thread.system == "metric":
            pitch = metric[2]
            if number(metric[1]) == thread.major and (pitch is None or Fraction(pitch) == thread.pitch):
                return thread
        elif (
            unified
            and thread.system == "unified"
            and unified[1] == thread.size
            and INCH / int(unified[2]) == thread.pitch
            and unified[3] in (None, thread.series.lower())
        ):
            return thread
    raise UnknownName("thread", designation, (t.designation for t in known()))


def percent_of_thread(major: Number, drill: Number, pitch: Number) -> float:
    """Return per cent of thread on the 1.29904 basis: 100 · (major − drill) / (1.29904 · pitch); all in mm.

    Source: Machinery's Handbook, 31st edition, p. 2155, Table 2.
    """
    return 100.0 * float(major - drill) / (FULL_THREAD * float(pitch))


def plug_tap_lead(pitch: Number) -> Number:
    """Return the length of a plug tap's lead, mm: 4 pitches. Common practice."""
    return PLUG_LEAD * pitch


def drill_depth(full_threads: Number, pitch: Number) -> Number:
    """Return the depth of full diameter to drill for `full_threads` of full thread with a plug tap, mm.

    Common practice: full threads + the tap's lead of 4 pitches. The drill's point reaches deeper still.
    """
    return full_threads + plug_tap_lead(pitch)
