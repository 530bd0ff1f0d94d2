"""Clearance holes for screws and bolts. Lengths in mm."""

from __future__ import annotations

from functools import cache

from docgen.tables import rows
from docgen.trade.drills import Drill
from docgen.trade.drills import find as find_drill
from docgen.trade.names import UnknownName
from docgen.trade.threads import Thread
from docgen.units import Number

FITS = ("close", "normal", "free")


@cache
def _table() -> dict[str, dict[str, str]]:
    return {r["size"]: r for r in rows("clearance_holes")}


def clearance(thread: Thread, fit: str = "normal") -> Drill:
    """Return the drill of a clearance hole for `thread`; `fit` is close, normal or free.

    Source: ISO 273:1979 (fine, medium, coarse) for metric, ANSI/ASME B18.2.8 (close, normal, loose) for Unified
    threads. `UnknownName` for another fit, or for a size that the standard leaves out (#12).
    """
    if fit not in FITS:
        raise UnknownName("fit", fit, FITS)
    table = _table()
    if thread.size not in table:
        raise UnknownName("clearance hole size", thread.size, table)
    return find_drill(table[thread.size][fit])


def source(thread: Thread) -> str:
    """Return the standard that rules the clearance hole of `thread`."""
    return _table()[thread.size]["source"]


def play(hole: Number, major: Number) -> Number:
    """Return how far a screw may sit from the hole's centre, mm: half the difference of the diameters."""
    return (hole - major) / 2
