"""Figures worked out by hand, which tests hold against what is measured on solids. Lengths in mm, angles in degrees."""

from __future__ import annotations

import math

from docgen.piece.records import Size, SizeKind

ROOT2 = math.sqrt(2.0)


def segment_area(radius: float, degrees: float) -> float:
    """Return the area between arc and chord: r²/2 · (α − sin α)."""
    a = math.radians(degrees)
    return radius**2 / 2.0 * (a - math.sin(a))


def wood_left(thickness: float, radius: float, *, rabbet: float = 0.0, inner: float = 0.0) -> float:
    """Return the wood left on the diagonal of a mitred corner rounded to `radius` outside.

    (T − w) · √2 − R · (√2 − 1) + r · (√2 − 1), where `rabbet` w is cut into the inside face and `inner` is the
    radius r that a cutter leaves in the rabbet's corner (0: square): two arcs on the diagonal.
    """
    return (thickness - rabbet) * ROOT2 - (radius - inner) * (ROOT2 - 1.0)


def breakthrough_radius(thickness: float, rabbet: float = 0.0) -> float:
    """Return the outside radius at which a rounded corner breaks into a square inside corner: 3.414 · (T − w)."""
    return (thickness - rabbet) * ROOT2 / (ROOT2 - 1.0)


def acute_wall(from_tip: float, depth: float, angle: float) -> float:
    """Return the wood left in an acute joint: u · sin φ − d · cos φ, with u from the acute tip."""
    phi = math.radians(angle)
    return from_tip * math.sin(phi) - depth * math.cos(phi)


def arrow_value(size: Size) -> float:
    """Return the distance, or the angle, that the size's own points span."""
    if size.kind is SizeKind.LENGTH:
        return abs(sum((size.end[i] - size.start[i]) * size.along[i] for i in range(3)))
    if size.kind is SizeKind.ANGLE and size.other is not None:
        p = [size.end[i] - size.start[i] for i in range(3)]
        q = [size.other[i] - size.start[i] for i in range(3)]
        dot = sum(a * b for a, b in zip(p, q, strict=True))
        return math.degrees(math.acos(max(-1.0, min(1.0, dot / (math.hypot(*p) * math.hypot(*q))))))
    radius = math.dist(size.start, size.end)
    return 2 * radius if size.kind is SizeKind.DIAMETER else radius


def mouth_of_dado(thickness: float, lean: float) -> float:
    """Return how wide a dado is on a face to which its walls lean, `thickness` square to them: t / cos a."""
    return thickness / math.cos(math.radians(lean))


def floor_further_on(depth: float, lean: float) -> float:
    """Return how much further on the floor of a dado with leaning walls lies than its mouth: d · tan a."""
    return depth * math.tan(math.radians(lean))


def between_leaning(at_foot: float, up: float, lean: float) -> float:
    """Return how far apart two faces are at a height, that lean toward each other by `lean` from plumb and are `at_foot` below.

    w − 2 · h · tan a.
    """
    return at_foot - 2 * up * math.tan(math.radians(lean))


def housed_side(between: float, depth: float, lean: float) -> float:
    """Return how long a level board's face is that stands between two such faces, housed `depth` square into each.

    b + 2 · d / cos a, where the face meets them `between` apart.
    """
    return between + 2 * depth / math.cos(math.radians(lean))
