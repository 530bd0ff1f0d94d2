"""The four sides of a view: how a lane's own directions (along, outward) lie on paper."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.drawing.records import Point

Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Side:
    """One side of the view's outline; u runs along it as x or y do, v outward from the outline."""

    name: str  # "bottom", "top", "left", "right"
    base: float  # the outline's coordinate on the other axis

    @property
    def level(self) -> bool:
        """True when lanes run level."""
        return self.name in ("bottom", "top")

    @property
    def outward(self) -> float:
        """+1 when v grows with the paper's coordinate."""
        return 1.0 if self.name in ("top", "right") else -1.0

    @property
    def angle(self) -> float:
        """Angle of text along a lane: from below, or from the right."""
        return 0.0 if self.level else 90.0

    @property
    def text_side(self) -> float:
        """+1 when text above its line lies outward of it."""
        return 1.0 if self.name in ("top", "left") else -1.0

    def point(self, u: float, v: float) -> Point:
        """Return the place on paper."""
        across = self.base + self.outward * v
        return (u, across) if self.level else (across, u)

    def u(self, p: Point) -> float:
        """Return how far along the side a point lies."""
        return p[0] if self.level else p[1]

    def v(self, p: Point) -> float:
        """Return how far outward a point lies; below 0 inside the view."""
        return self.outward * ((p[1] if self.level else p[0]) - self.base)


def sides(bounds: Bounds) -> dict[str, Side]:
    """Return the sides of a view's outline."""
    x0, y0, x1, y1 = bounds
    return {
        "bottom": Side("bottom", y0),
        "top": Side("top", y1),
        "left": Side("left", x0),
        "right": Side("right", x1),
    }


def gather(values: list[float], pitch: float) -> list[float]:
    """Return sorted `values` moved apart to at least `pitch`, each as little as can be (pooled means)."""
    pools: list[list[float]] = []  # [sum of wished first places, count]
    for i, value in enumerate(values):
        pools.append([value - i * pitch, 1.0])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1][0] += total
            pools[-1][1] += count
    out: list[float] = []
    for total, count in pools:
        out += [total / count + (len(out) + k) * pitch for k in range(int(count))]
    return out
