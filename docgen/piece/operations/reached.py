"""How far the wood of a part reaches when its ends and edges are cut: from long point to long point."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations

import numpy as np

from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, settled
from docgen.piece.records import Stage
from docgen.units import Number

Planes = tuple[tuple[tuple[float, float, float], float], ...]
"""Sides of a body with flat sides: (normal out of the wood, its level along that normal)."""


def reached(part: Part) -> tuple[tuple[Number, Number], ...]:
    """Return the least and the greatest coordinate of the wood on each axis of the part, mm.

    The blank, tongues and tenons too, less what plane cuts of the part take away. Exact wherever no slant decides it.
    """
    spans = tuple(part.span(i) for i in range(3))
    corners = _cut_corners(part)
    if not corners:
        return spans
    ends = [(min(c[i] for c in corners), max(c[i] for c in corners)) for i in range(3)]
    return tuple(
        (low if abs(a - float(low)) < SAME else settled(a), high if abs(b - float(high)) < SAME else settled(b))
        for (a, b), (low, high) in zip(ends, spans, strict=True)
    )


def long_points(part: Part) -> tuple[Vec, ...]:
    """Return the corners of the blank as plane cuts leave it, before curves and cut-outs take of it, mm."""
    spans = [(float(low), float(high)) for low, high in (part.span(i) for i in range(3))]
    return _cut_corners(part) or tuple((x, y, z) for x in spans[0] for y in spans[1] for z in spans[2])


def _cut_corners(part: Part) -> tuple[Vec, ...]:
    """Return the corners of the body that plane cuts leave of the blank; none where there are no such cuts."""
    spans = tuple(part.span(i) for i in range(3))
    cuts = [c.shape for f in part.features if f.stage is Stage.PART for c in f.made.cuts if c.stage in (None, f.stage)]
    planes = [shape for shape in cuts if isinstance(shape, HalfSpace)]
    return _corners((*_sides(spans), *((p.normal, _level(p)) for p in planes))) if planes else ()


def _sides(spans: Sequence[tuple[Number, Number]]) -> Planes:
    unit = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    high = ((u, float(s[1])) for u, s in zip(unit, spans, strict=True))
    low = (((-u[0], -u[1], -u[2]), -float(s[0])) for u, s in zip(unit, spans, strict=True))
    return (*high, *low)


def _level(plane: HalfSpace) -> float:
    """Return the level of the plane along its normal, which points into what goes."""
    return sum(a * b for a, b in zip(plane.normal, plane.point, strict=True))


@lru_cache(maxsize=256)
def _corners(planes: Planes) -> tuple[tuple[float, float, float], ...]:
    """Return the corners of the body: each point where three of its sides meet that no other cuts off."""
    normals, levels = np.array([n for n, _ in planes]), np.array([d for _, d in planes])
    threes = np.array(list(combinations(range(len(planes)), 3)))
    sides = normals[threes]
    met = np.abs(np.linalg.det(sides)) > SAME
    points = np.linalg.solve(sides[met], levels[threes[met]][..., None])[..., 0]
    inside = points[(points @ normals.T <= levels + SAME).all(axis=1)]
    return tuple((float(x), float(y), float(z)) for x, y, z in inside)
