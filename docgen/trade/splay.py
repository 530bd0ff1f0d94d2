"""Splayed sides and leaning legs. Degrees."""

from __future__ import annotations

import math


def true_lean(a: float, b: float) -> tuple[float, float]:
    """Return (true lean from plumb, sight line from the plane of `a`) of a leg that leans `a` and `b` in two views.

    Lean = atan √(tan² a + tan² b), sight line = atan2(tan b, tan a). Geometry; an upright leg gives (0, 0).
    """
    ta, tb = math.tan(math.radians(a)), math.tan(math.radians(b))
    return math.degrees(math.atan(math.hypot(ta, tb))), math.degrees(math.atan2(tb, ta))
