"""By how much a section is turned on paper so that most of its figures stand square to it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec

FLAT = 1e-4  # of a unit vector: what leans less lies in the view
SQUARE = 0.01  # degrees: what leans less stands square to the paper
LEAST = 2  # figures that a turn has to set square


def turn(view: View, ways: Iterable[Vec], lines: Sequence[Vec]) -> float:
    """Return the degrees by which a view is turned, counter-clockwise, until an axis of a part stands square to the paper.

    `ways` are the axes of the parts, `lines` the directions of the figures. 0 where they stand as well as they are: one
    that lies square as it is built is never turned for fewer figures than that costs.
    """
    best, most = 0.0, _square(view, lines, 0.0)
    found = {round(_lean(view, way), 9) for way in ways if _flat(view, way)}
    for lean in sorted(found, key=lambda a: (abs(a), a)):
        count = _square(view, lines, lean)
        if abs(lean) > SQUARE and count >= most + LEAST:
            best, most = -lean, count
    return best


def turned_about(view: View, degrees: float) -> Vec:
    """Return what lies to the right once a view is turned counter-clockwise by so much."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    x, y, z = (c * r - s * u for r, u in zip(view.right, view.up, strict=True))
    return (x, y, z)


def _square(view: View, lines: Iterable[Vec], lean: float) -> int:
    """Return how many lines stand square to the paper once it is turned by what leans so."""
    off = (abs(_lean(view, line) - lean) for line in lines if _flat(view, line))
    return sum(min(a, 90.0 - a) < SQUARE for a in off)


def _flat(view: View, way: Vec) -> bool:
    return math.hypot(*view.flat(way)) > 1 - FLAT


def _lean(view: View, way: Vec) -> float:
    """Return by how much a direction leans from level or plumb, whichever is nearer: over −45 to 45 degrees."""
    x, y = view.flat(way)
    lean = math.degrees(math.atan2(y, x)) % 90.0
    return lean if lean <= 45.0 else lean - 90.0
