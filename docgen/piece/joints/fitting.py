"""The solids of bought hardware, from the sizes that the file holds: a hinge's leaves and its barrel, a slide.

Points and directions are given in the piece's axes, mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from docgen.geometry.make import cross, dot, frame_along
from docgen.geometry.shapes import Extrusion, Frame, Outline, Vec
from docgen.piece.hardware import Fitting
from docgen.piece.joints.filling import placed
from docgen.units import Number


def hinge(
    pin: Vec,
    ways: tuple[Vec, Vec, Vec],
    size: tuple[Number, Number, Number, Number],
    parts: tuple[str, str],
    sold: str = "",
) -> tuple[Fitting, Fitting, Fitting]:
    """Return the barrel of a closed butt hinge and both leaves; `pin` is the middle of the pin.

    `ways` run from the second of the `parts` to the first, from the parts out to the barrel, and along the pin; `size` is
    length, leaf from the middle of the pin, thickness, barrel. The outer face of each leaf touches the barrel.
    """
    normal, out, run = ways
    long, leaf, thick, barrel = (float(v) for v in size)
    frame = placed(pin, (-out[0], -out[1], -out[2]), run)
    side = 1.0 if dot(cross(run, (-out[0], -out[1], -out[2])), normal) > 0 else -1.0
    half = (-long / 2, long / 2)
    leaves: list[Fitting] = []
    for part, way in zip(parts, (side, -side), strict=True):
        low, high = sorted((way * barrel / 2, way * (barrel / 2 - thick)))
        outline = Outline.rectangle(0.0, low, leaf, high)
        leaves.append(Fitting("leaf", Extrusion(outline, Frame(), *half), frame, (part,), sold=sold))
    ring = Outline.circle((0.0, 0.0), barrel / 2)
    return Fitting("barrel", Extrusion(ring, Frame(), *half), frame, parts, sold=sold), leaves[0], leaves[1]


Ring: TypeAlias = tuple[str, Number, Number, Number, Number, tuple[str, ...]]


def rings(at: Vec, way: Vec, sizes: Iterable[Ring]) -> tuple[Fitting, ...]:
    """Return sleeves and washers about an axis from `at` along `way`.

    Each of `sizes` is what it is, diameters inside and outside, from where to where along the axis, and its parts.
    """
    frame = frame_along(at, way)
    out: list[Fitting] = []
    for what, inside, outside, low, high, parts in sizes:
        if 0 < inside < outside and low < high:
            ring, hole = (Outline.circle((0.0, 0.0), float(d) / 2) for d in (outside, inside))
            shape = Extrusion(ring, Frame(), float(low), float(high), (hole,))
            out.append(Fitting(what, shape, frame, parts, called=what))
    return tuple(out)


def slide(low: Vec, high: Vec, parts: tuple[str, ...], sold: str = "") -> Fitting:
    """Return a drawer's slide: the box that it fills, from its low to its high corner."""
    outline = Outline.rectangle(low[0], low[1], high[0], high[1])
    shape = Extrusion(outline, Frame(), low[2], high[2])
    return Fitting("slide", shape, Frame(), parts, called="slide", room=True, sold=sold)
