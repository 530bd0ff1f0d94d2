"""Where shapes reach: corners around cutters and blanks, and what two solids share."""

from __future__ import annotations

from itertools import product

import numpy as np

from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Shape, Vec
from docgen.geometry.solids import LEAST_OVERLAP, Solid
from docgen.geometry.surfaces import Floats


def box_corners(low: Vec, high: Vec, frame: Frame) -> Floats:
    """Return the eight corners (8, 3) of a box, placed by `frame`."""
    points = np.array(list(product(*zip(low, high, strict=True))), dtype=np.float64)
    return np.asarray(points @ np.array(frame.rotation).T + np.array(frame.origin), dtype=np.float64)


def corners(shape: Shape, frame: Frame) -> Floats:
    """Return corners (8, 3) of a box around a cutter, placed by `frame`; none (0, 3) for a half space."""
    if isinstance(shape, HalfSpace):
        return np.zeros((0, 3))
    placed = frame.after(shape.frame)
    if isinstance(shape, Extrusion):
        (x0, y0), (x1, y1) = bounds(shape.outline)
        return box_corners((x0, y0, shape.low), (x1, y1, shape.high), placed)
    (_, z0), (r, z1) = bounds(shape.profile)
    return box_corners((-r, -r, z0), (r, r, z1), placed)


def shared(a: Solid, b: Solid) -> Floats:
    """Return the points (n, 3) of the solid that `a` and `b` share; none when they only touch."""
    both = a._manifold ^ b._manifold
    if both.is_empty() or both.volume() < LEAST_OVERLAP:
        return np.zeros((0, 3))
    return np.asarray(both.to_mesh64().vert_properties, dtype=np.float64)[:, :3]
