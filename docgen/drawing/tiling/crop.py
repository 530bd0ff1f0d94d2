"""Which parts of a long template are worth printing: the surroundings of its features.

A plain middle is left out. What remains is tied to the datum end by base lines at round, stated distances.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.drawing.placing import Bounds
from docgen.geometry.shapes import Vec2

PLAIN = 150.0  # mm without features before a template is taken apart
AROUND = 15.0  # mm kept around a feature before its base line
BEYOND = 8.0  # mm kept beyond the base line


@dataclass(frozen=True, slots=True)
class Crop:
    """A window of a template; `cuts` are its sides that are no sides of the outline, `bases` the base lines.

    A base is (axis, place): axis 0 for a line at that x, 1 for a line at that y.
    """

    window: Bounds
    cuts: tuple[str, ...] = ()
    bases: tuple[tuple[int, float], ...] = ()

    def shows(self, x: float, y: float) -> bool:
        """Return whether the point lies in the window."""
        w = self.window
        return w[0] <= x <= w[2] and w[1] <= y <= w[3]


def crops(features: Iterable[Bounds], whole: Bounds, step: float) -> tuple[Crop, ...]:
    """Return the windows that show all features, one if they lie close; `step` is what round distances count in.

    Without features the whole is shown.
    """
    groups: list[Bounds] = []
    for f in sorted(features):
        if groups and f[0] - groups[-1][2] <= PLAIN:
            g = groups[-1]
            groups[-1] = (g[0], min(g[1], f[1]), max(g[2], f[2]), max(g[3], f[3]))
        else:
            groups.append(f)
    return tuple(_crop(g, whole, step) for g in groups) if groups else (Crop(whole),)


def based(outline: Bounds, length: float, step: float) -> Crop:
    """Return the whole of an outline that shows one end of a blank `length` long, with a base line on its inner side.

    An outline that shows both ends, or no length at all, needs no base line.
    """
    low, high = outline[0], outline[2]
    window = (low - BEYOND, outline[1] - BEYOND, high + BEYOND, outline[3] + BEYOND)
    if low < 1.0 and high > length - 1.0:
        return Crop(window)
    toward_datum = low > length - high  # where the inner side lies
    base = step * (math.ceil((low + BEYOND) / step) if toward_datum else math.floor((high - BEYOND) / step))
    return Crop(window, (), ((0, base),) if low < base < high else ())


def _crop(group: Bounds, whole: Bounds, step: float) -> Crop:
    window = list(whole)
    cuts: list[str] = []
    bases: list[tuple[int, float]] = []
    for axis in (0, 1):
        low, high = group[axis], group[axis + 2]
        if low - whole[axis] > PLAIN:
            base = math.floor((low - AROUND) / step) * step
            window[axis] = base - BEYOND
            cuts.append(("left", "bottom")[axis])
            bases.append((axis, base))
        if whole[axis + 2] - high > PLAIN:
            base = math.ceil((high + AROUND) / step) * step
            window[axis + 2] = base + BEYOND
            cuts.append(("right", "top")[axis])
            bases.append((axis, base))
    return Crop((window[0], window[1], window[2], window[3]), tuple(cuts), tuple(bases))


def corner_of(point: Vec2, corners: Sequence[Vec2]) -> bool:
    """Return whether a point is one of the plain corners."""
    return any(math.dist(point, c) < 1e-6 for c in corners)
