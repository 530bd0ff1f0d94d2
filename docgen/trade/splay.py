"""Splayed sides and leaning legs. Degrees."""

from __future__ import annotations

import math


def hopper(tilt: float, sides: int = 4) -> tuple[float, float]:
    """Return (mitre gauge, blade bevel) in degrees for splayed sides with mitred corners, boards lying flat.

    `tilt` is each side's from the horizontal: 0 a flat frame, 90 an upright box. M = atan(cos p · tan(180/n)),
    B = asin(sin p · sin(180/n)). Source: compound mitre chart of a Craftsman saw manual (model 315.21212).
    """
    p, half = math.radians(tilt), math.pi / sides
    return (
        math.degrees(math.atan(math.cos(p) * math.tan(half))),
        math.degrees(math.asin(math.sin(p) * math.sin(half))),
    )


def true_lean(a: float, b: float) -> tuple[float, float]:
    """Return (true lean from plumb, sight line from the plane of `a`) of a leg that leans `a` and `b` in two views.

    Lean = atan √(tan² a + tan² b), sight line = atan2(tan b, tan a). Geometry; an upright leg gives (0, 0).
    """
    ta, tb = math.tan(math.radians(a)), math.tan(math.radians(b))
    return math.degrees(math.atan(math.hypot(ta, tb))), math.degrees(math.atan2(tb, ta))


def from_floor(lean: float) -> float:
    """Return a lean from plumb as read from the floor, degrees."""
    return 90.0 - lean
