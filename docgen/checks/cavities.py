"""Pockets in a part: cuts that are closed in by wood on all sides of their mouth, as mortises, slots and windows are."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from docgen.checks.oriented import Oriented, apart
from docgen.geometry.make import dot
from docgen.geometry.outlines import bounds, on_circle, pieces, sweep
from docgen.geometry.shapes import Extrusion, Frame, Vec, Vec2
from docgen.piece.model import Part
from docgen.piece.records import Feature

Floats = npt.NDArray[np.float64]

SAME = 1e-3  # mm
UPRIGHT = 1e-9
RUNS = 0.4
"""Share of its part from which a pocket counts as a groove."""
NARROW = 8.0  # times as long as wide: a stopped dado across the width
STEP = math.pi / 6  # between points on an arc of the rim


@dataclass(frozen=True, slots=True)
class Cavity:
    """A pocket in the part's axes, mm: the prism of `shape` between `mouth` and `bottom` on the prism's own z.

    A pocket that goes through has two mouths, and no bottom.
    """

    feature: Feature
    shape: Extrusion
    mouth: float
    bottom: float
    through: bool

    @property
    def length(self) -> float:
        """How far it goes into the wood, mm."""
        return abs(self.bottom - self.mouth)

    def oriented(self) -> Oriented:
        """Return the box around the pocket, in the part's axes."""
        (x0, y0), (x1, y1) = bounds(self.shape.outline)
        low, high = sorted((self.mouth, self.bottom))
        return Oriented.of((x0, y0, low), (x1, y1, high), self.shape.frame)

    def runs(self, part: Part) -> bool:
        """Return True for a pocket that is a stopped groove: over 40 % of the part's length, or narrow and over 40 % of its width."""
        low, high = self.oriented().bounds()
        if high[0] - low[0] >= RUNS * float(part.size[0]) and self._lies_along(0):
            return True
        (x0, y0), (x1, y1) = bounds(self.shape.outline)
        narrow = max(x1 - x0, y1 - y0) >= NARROW * min(x1 - x0, y1 - y0)
        return narrow and high[1] - low[1] >= RUNS * float(part.size[1]) and self._lies_along(1)

    def _lies_along(self, axis: int) -> bool:
        return abs(self.shape.frame.rotation[axis][2]) < 1 - UPRIGHT

    def shares(self, part: Part) -> Iterator[Oriented]:
        """Yield the boxes of other cuts of the same face that open into this pocket: a haunch, a groove, a dado that leans."""
        own, way = self.oriented(), self.shape.frame.direction((0.0, 0.0, 1.0))
        for feature in part.features:
            for cut in feature.made.cuts:
                shape = cut.shape
                if not isinstance(shape, Extrusion) or shape == self.shape:
                    continue
                box, other = around(shape), shape.frame.direction((0.0, 0.0, 1.0))
                alike = abs(dot(way, other)) > 1 - UPRIGHT
                if (alike or self._walled(part, box, other)) and apart(box, own) < -SAME:
                    yield box

    def _walled(self, part: Part, box: Oriented, along: Vec) -> bool:
        """Return whether a cut that runs `along` is a trench of this pocket's face: open there, with wood on both its sides."""
        low, high = box.bounds()
        way = self.shape.frame.direction((0.0, 0.0, 1.0))
        sides = [i for i in range(3) if abs(way[i]) < SAME and abs(along[i]) < SAME]
        wood = all(low[i] > -SAME and high[i] < float(part.size[i]) + SAME for i in sides)
        return wood and len(sides) == 1 and self._beyond_mouth(box) > SAME

    def _beyond_mouth(self, box: Oriented) -> float:
        """Return how far a box stands out of the wood past this pocket's mouth, mm."""
        inner = box.moved(self.shape.frame.inverse())
        low, high = inner.bounds()
        return self.mouth - low[2] if self.bottom > self.mouth else high[2] - self.mouth

    def rim(self, at: float) -> list[Vec]:
        """Return points round the pocket's wall at height `at` of its own z, in the part's axes."""
        flat: list[Vec2] = []
        for start, edge in pieces(self.shape.outline):
            if edge.centre is None:
                flat += [start, ((start[0] + edge.end[0]) / 2, (start[1] + edge.end[1]) / 2)]
            else:
                radius, begins, turn = sweep(start, edge)
                count = max(2, math.ceil(abs(turn) / STEP))
                flat += [on_circle(edge.centre, radius, begins + turn * k / count) for k in range(count)]
        return [self.shape.frame.point((x, y, at)) for x, y in flat]


def around(shape: Extrusion) -> Oriented:
    """Return the box around an extrusion, where its frame places it."""
    (x0, y0), (x1, y1) = bounds(shape.outline)
    return Oriented.of((x0, y0, shape.low), (x1, y1, shape.high), shape.frame)


def cavities(part: Part) -> Iterator[Cavity]:
    """Yield the pockets of a part, holes left out: those that face the part squarely, and those in a slanting cut."""
    for feature in part.features:
        if feature.made.holes:
            continue
        for cut in feature.made.cuts:
            if isinstance(cut.shape, Extrusion):
                found = _square(part, feature, cut.shape) or _slanting(part, feature, cut.shape)
                if found is not None:
                    yield found


def _square(part: Part, feature: Feature, shape: Extrusion) -> Cavity | None:
    """Return the pocket that enters one face of the box squarely, with wood on all sides of it."""
    axis = _axis(shape.frame)
    if axis is None:
        return None
    (x0, y0), (x1, y1) = bounds(shape.outline)
    ends = [shape.frame.point((x, y, z)) for x, y, z in product((x0, x1), (y0, y1), (shape.low, shape.high))]
    for i in range(3):
        if i != axis:
            low, high = min(e[i] for e in ends), max(e[i] for e in ends)
            if low < -SAME or high > float(part.size[i]) + SAME:
                return None
    way = shape.frame.rotation[axis][2]
    start = shape.frame.origin[axis]
    faces = sorted((wall - start) * way for wall in (0.0, float(part.size[axis])))
    opens = (shape.low < faces[0] + SAME, shape.high > faces[1] - SAME)
    if not any(opens):
        return None  # closed in on all sides: no tool makes that
    if opens[0]:
        return Cavity(feature, shape, faces[0], min(shape.high, faces[1]), all(opens))
    return Cavity(feature, shape, faces[1], shape.low, False)


def _axis(frame: Frame) -> int | None:
    return next((i for i in range(3) if abs(abs(frame.rotation[i][2]) - 1) < UPRIGHT), None)


def _slanting(part: Part, feature: Feature, shape: Extrusion) -> Cavity | None:
    """Return a pocket that stands on a slanting cut: its frame lies on the cut, and z = 0 is the mouth.

    A groove that runs out of the part at both its ends is no pocket.
    """
    if _axis(shape.frame) is not None or not shape.low < 0 < shape.high:
        return None
    (x0, y0), (x1, y1) = bounds(shape.outline)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    for ends in (((x0, y), (x1, y)), ((x, y0), (x, y1))):
        if all(_beside(part, shape.frame.point((a, b, 0.0))) for a, b in ends):
            return None
    return Cavity(feature, shape, 0.0, shape.high, False)


def _beside(part: Part, p: Vec) -> bool:
    """Tell whether a point lies outside the part's box."""
    return any(not -SAME <= c <= float(s) + SAME for c, s in zip(p, part.size, strict=True))


def distances(points: Floats, triangles: Floats) -> Floats:
    """Return how far each of the points (n, 3) lies from each of the triangles (m, 3, 3), (n, m) mm."""
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    least = np.minimum(np.minimum(_segments(points, a, b), _segments(points, b, c)), _segments(points, c, a))
    normal = np.cross(b - a, c - a)
    size = np.sqrt(np.einsum("ij,ij->i", normal, normal))
    normal = normal / np.where(size > 0, size, 1.0)[:, None]
    off = points @ normal.T - np.einsum("ij,ij->i", a, normal)
    inside = np.ones_like(off, dtype=bool)
    for p, q in ((a, b), (b, c), (c, a)):
        outward = np.cross(q - p, normal)
        inside &= points @ outward.T - np.einsum("ij,ij->i", p, outward) <= 0
    return np.where(inside & (size > 0), np.abs(off), least)


def _segments(points: Floats, a: Floats, b: Floats) -> Floats:
    along = b - a
    size = np.einsum("ij,ij->i", along, along)
    t = (points @ along.T - np.einsum("ij,ij->i", a, along)) / np.where(size > 0, size, 1.0)
    nearest = a[None, :, :] + np.clip(t, 0.0, 1.0)[:, :, None] * along[None, :, :]
    gap = points[:, None, :] - nearest
    return np.asarray(np.sqrt(np.einsum("ijk,ijk->ij", gap, gap)))
