"""Whether a cutter takes the wood at a point."""

from __future__ import annotations

from docgen.geometry.shapes import Extrusion, HalfSpace, Outline, Revolution, Shape, Vec


def holds(shape: Shape, at: Vec) -> bool:
    """Return whether a cutter takes the wood at a point; the arcs of an outline count as their chords."""
    if isinstance(shape, HalfSpace):
        (x, y, z), (px, py, pz), (nx, ny, nz) = at, shape.point, shape.normal
        return (x - px) * nx + (y - py) * ny + (z - pz) * nz > 0
    own = shape.frame.inverse().point(at)
    if isinstance(shape, Revolution):
        return _in_outline(shape.profile, float((own[0] ** 2 + own[1] ** 2) ** 0.5), own[2])
    assert isinstance(shape, Extrusion)
    return shape.low <= own[2] <= shape.high and _in_outline(shape.outline, own[0], own[1])


def _in_outline(outline: Outline, x: float, y: float) -> bool:
    """Return whether a point lies in the polygon through the outline's corners: a ray to the right crosses it oddly."""
    points = [e.end for e in outline.edges]
    inside = False
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside
