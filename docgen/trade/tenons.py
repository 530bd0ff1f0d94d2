"""Wood around loose tenons in mitres and other angled joints. Lengths in mm, angles in degrees. Geometry throughout."""

from __future__ import annotations

import math

from docgen.units import Number

ROOT2 = math.sqrt(2.0)


def to_outside(thickness: Number, far: Number, depth: Number) -> float:
    """Return the wood between a mortise in a 45° mitre and the outside face, mm.

    (T · √2 − u − d) / √2, with `far` u from the heel along the mitre's face to the mortise's far side.
    """
    return (float(thickness) * ROOT2 - float(far) - float(depth)) / ROOT2


def to_rounded(thickness: Number, radius: Number, far: Number, depth: Number) -> float:
    """Return the wood between a mortise and the outside of a corner rounded to `radius`, mm.

    The arc governs only where the mortise's bottom is closer than `radius` to both outside faces.
    """
    tip = float(thickness) * ROOT2 - float(far)
    own, other = (tip - float(depth)) / ROOT2, (tip + float(depth)) / ROOT2
    r = float(radius)
    if own < r and other < r:
        return r - math.hypot(r - own, r - other)
    return min(own, other)


def acute_wall(from_tip: Number, depth: Number, angle: float) -> float:
    """Return the wood left in an acute joint, mm: u · sin φ − d · cos φ, with u from the acute tip, φ in degrees."""
    phi = math.radians(angle)
    return float(from_tip) * math.sin(phi) - float(depth) * math.cos(phi)
