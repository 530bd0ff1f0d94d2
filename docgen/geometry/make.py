"""Common shapes as data: boxes, cylinders, prisms along an axis, frames on a plane."""

from __future__ import annotations

import math

from docgen.geometry.shapes import Edge, Extrusion, Frame, Outline, Vec, Vec2


def unit(v: Vec) -> Vec:
    """Return `v` at length one; ValueError for the null vector."""
    n = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    if n == 0:
        raise ValueError("a direction needs a length")
    return (v[0] / n, v[1] / n, v[2] / n)


def dot(a: Vec, b: Vec) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def plus(a: Vec, b: Vec, by: float = 1.0) -> Vec:
    """Return a + b · by."""
    return (a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by)


def cross(a: Vec, b: Vec) -> Vec:
    """Return the vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def frame_along(origin: Vec, z: Vec, x: Vec | None = None) -> Frame:
    """Return a frame at `origin` whose z runs along `z` and whose x lies nearest to `x`."""
    z = unit(z)
    if x is None:
        x = (1.0, 0.0, 0.0) if abs(z[0]) < 0.9 else (0.0, 1.0, 0.0)
    d = x[0] * z[0] + x[1] * z[1] + x[2] * z[2]
    ux = unit((x[0] - d * z[0], x[1] - d * z[1], x[2] - d * z[2]))
    uy = cross(z, ux)
    return Frame(((ux[0], uy[0], z[0]), (ux[1], uy[1], z[1]), (ux[2], uy[2], z[2])), origin)


def box(low: Vec, high: Vec) -> Extrusion:
    """Return the axis-parallel box between two corners."""
    return Extrusion(Outline.rectangle(low[0], low[1], high[0], high[1]), Frame(), low[2], high[2])


def plane_frame(axis: int) -> Frame:
    """Return the frame whose x and y are the two other axes in rising order and whose z is along `axis`.

    For axis 1 that order is left-handed, so z runs against axis 1 there: see `along_axis`.
    """
    if axis == 2:
        return Frame()
    if axis == 0:
        return Frame(((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    return Frame(((1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)))


def along_axis(outline: Outline, axis: int, low: float, high: float) -> Extrusion:
    """Return the prism of `outline`, drawn in the two other axes in rising order, from `low` to `high` on `axis`."""
    if axis == 1:
        return Extrusion(outline, plane_frame(1), -high, -low)
    return Extrusion(outline, plane_frame(axis), low, high)


def cylinder(start: Vec, direction: Vec, radius: float, length: float, before: float = 1.0) -> Extrusion:
    """Return a round cutter entering at `start`, `length` deep, beginning `before` outside."""
    return Extrusion(Outline.circle((0.0, 0.0), radius), frame_along(start, direction), -before, length)


def stadium(a: Vec2, b: Vec2, radius: float) -> Outline:
    """Return the slot of width 2 × `radius` around the line from `a` to `b`, counter-clockwise."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    n = math.hypot(dx, dy)
    if n == 0:
        return Outline.circle(a, radius)
    px, py = -dy / n * radius, dx / n * radius
    return Outline(
        (
            Edge((b[0] - px, b[1] - py)),
            Edge((b[0] + px, b[1] + py), b, True),
            Edge((a[0] + px, a[1] + py)),
            Edge((a[0] - px, a[1] - py), a, True),
        )
    )
