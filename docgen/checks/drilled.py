"""Holes as they lie in their part: a line from mouth to bottom and a diameter, in the part's axes, mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.geometry.make import cross, cylinder, dot, unit
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.model import Part
from docgen.piece.records import Feature, HoleRow


@dataclass(frozen=True, slots=True)
class Drilled:
    """One hole of a row."""

    feature: Feature
    row: HoleRow
    start: Vec
    way: Vec
    length: float

    @property
    def end(self) -> Vec:
        """The middle of its bottom, or of its far mouth."""
        return along(self.start, self.way, self.length)

    @property
    def radius(self) -> float:
        """Half of its diameter."""
        return float(self.row.diameter) / 2

    def shape(self) -> Extrusion:
        """Return the hole as a cutter, without what overshoots."""
        return cylinder(self.start, self.way, self.radius, self.length, before=0.0)


def along(a: Vec, way: Vec, by: float) -> Vec:
    """Return a + way · by."""
    return (a[0] + way[0] * by, a[1] + way[1] * by, a[2] + way[2] * by)


def between(a: Vec, b: Vec) -> Vec:
    """Return b − a."""
    return (b[0] - a[0], b[1] - a[1], b[2] - a[2])


def drilled(part: Part) -> Iterator[Drilled]:
    """Yield every hole of a part; one that goes through ends at the far face of the part's box."""
    for feature in part.features:
        for row in feature.made.holes:
            way = unit(row.direction)
            square = abs(way[row.face.axis])
            through = float(part.size[row.face.axis]) / square if row.reach is None else float(row.reach)
            deep = through if row.depth is None else float(row.depth)
            for p in row.points:
                yield Drilled(feature, row, (float(p[0]), float(p[1]), float(p[2])), way, deep)


def apart(one: Drilled, other: Drilled) -> float:
    """Return the least distance between the middle lines of two holes, mm."""
    d = between(other.start, one.start)
    u, v = one.way, other.way
    b, p, q = dot(u, v), dot(u, d), dot(v, d)
    flat = 1.0 - b * b
    s = min(max((b * q - p) / flat, 0.0), one.length) if flat > 1e-12 else 0.0
    t = b * s + q
    if not 0.0 <= t <= other.length:
        t = min(max(t, 0.0), other.length)
        s = min(max(b * t - p, 0.0), one.length)
    return math.dist(along(one.start, u, s), along(other.start, v, t))


def coaxial(one: Drilled, other: Drilled) -> bool:
    """Return True when two holes share their middle line, as a bore and the hole in its bottom do."""
    across = cross(one.way, between(one.start, other.start))
    return abs(dot(one.way, other.way)) > 1 - 1e-9 and dot(across, across) < 1e-4
