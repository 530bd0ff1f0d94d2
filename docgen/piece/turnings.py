"""How thick a part is where it was turned: faces and edges of its box mean nothing there."""

from __future__ import annotations

from itertools import pairwise

from docgen.geometry.outlines import flatten_edge
from docgen.geometry.shapes import Revolution, Vec2
from docgen.piece.model import Part
from docgen.piece.records import Stage

SAME = 1e-6
WITHIN = 0.01  # mm by which chords may stand back from a curve of the profile


def radius_at(part: Part, along: float) -> float | None:
    """Return the radius of a part at a place on its length, mm; None where it was not turned about its middle."""
    found = [
        r for f in part.features if f.stage is Stage.PART for c in f.made.cuts for r in _radii(part, c.shape, along)
    ]
    return min(found, default=None)


def _radii(part: Part, shape: object, along: float) -> list[float]:
    """Return where a turned cutter's profile crosses the plane at `along`, counted from the axis."""
    if not isinstance(shape, Revolution) or not shape.whole:
        return []
    x, y, z = shape.frame.origin
    way = shape.frame.rotation[0][2]
    middle = abs(y - float(part.size[1]) / 2) < SAME and abs(z - float(part.size[2]) / 2) < SAME
    if not middle or abs(abs(way) - 1) > SAME:
        return []
    at = (along - x) * way
    points = _points(shape)
    out = []
    for a, b in pairwise([*points, points[0]]):
        if min(a[1], b[1]) - SAME <= at <= max(a[1], b[1]) + SAME and abs(b[1] - a[1]) > SAME:
            out.append(a[0] + (b[0] - a[0]) * (at - a[1]) / (b[1] - a[1]))
    return [r for r in out if r > SAME]


def _points(shape: Revolution) -> list[Vec2]:
    edges = shape.profile.edges
    out = [edges[-1].end]
    for edge in edges:
        out.extend(flatten_edge(out[-1], edge, WITHIN))
    return out
