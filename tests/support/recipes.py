"""Shapes that furniture is made of, for geometry's tests: each as a blank and its cutters."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from docgen.geometry.make import along_axis, box, cylinder, frame_along, stadium
from docgen.geometry.shapes import Edge, Extrusion, Frame, HalfSpace, Outline, Revolution, Shape, Vec
from docgen.geometry.solids import Solid, blank, cut


@dataclass(frozen=True)
class Recipe:
    """A blank's far corner (the near one is the origin) and what is cut from it."""

    size: Vec
    cuts: tuple[Shape, ...] = ()

    def solid(self) -> Solid:
        return _solid(self)


@cache
def _solid(recipe: Recipe) -> Solid:
    return cut(blank((0, 0, 0), recipe.size), recipe.cuts)


def round_over(axis: int, at: tuple[float, float], out: tuple[int, int], radius: float, run: float) -> Extrusion:
    """The cutter that rounds an arris along `axis`: `at` the corner, `out` the outward signs in the other axes."""
    (y, z), (sy, sz) = at, out
    cy, cz = y - sy * radius, z - sz * radius
    arc = Edge((cy, z), (cy, cz), sy * sz > 0)
    outline = Outline((Edge((cy, z + sz)), Edge((y + sy, z + sz)), Edge((y + sy, cz)), Edge((y, cz)), arc))
    return along_axis(outline, axis, -1.0, run + 1.0)


PLAIN = Recipe((600.0, 200.0, 20.0))
DADOED = Recipe(
    (500.0, 240.0, 20.0),
    (
        box((120.0, -1.0, 12.0), (140.0, 241.0, 21.0)),
        along_axis(stadium((300.0, 60.0), (300.0, 260.0), 9.0), 2, 12.0, 21.0),
        box((-1.0, 230.0, 10.0), (501.0, 241.0, 21.0)),
    ),
)
HOLED = Recipe(
    (300.0, 80.0, 24.0),
    (
        cylinder((40.0, 40.0, 24.0), (0, 0, -1), 9.0, 30.0),
        cylinder((120.0, 40.0, 24.0), (0, 0, -1), 4.0, 12.0),
        cylinder((200.0, 40.0, 24.0), (0, 0, -1), 10.0, 6.0),
        cylinder((200.0, 40.0, 24.0), (0, 0, -1), 4.0, 30.0),
        cylinder((260.0, -0.0, 12.0), (0, 1, 0), 3.0, 82.0),
        Revolution(Outline.polygon([(0.0, -8.0), (9.0, 1.0), (0.0, 1.0)]), frame_along((160.0, 40.0, 24.0), (0, 0, 1))),
    ),
)
ROUNDED = Recipe(
    (400.0, 120.0, 25.0),
    (
        round_over(0, (120.0, 25.0), (1, 1), 8.0, 400.0),
        round_over(0, (0.0, 25.0), (-1, 1), 12.0, 400.0),
        box((100.0, -1.0, 15.0), (125.0, 121.0, 26.0)),
    ),
)
RAKED = Recipe(
    (640.0, 64.0, 32.0),
    (
        HalfSpace((600.0, 0.0, 0.0), (math.cos(0.24), math.sin(0.24), 0.0)),
        HalfSpace((30.0, 0.0, 0.0), (-math.cos(0.2), math.sin(0.2), 0.1)),
        round_over(0, (64.0, 32.0), (1, 1), 6.0, 640.0),
        cylinder((200.0, 32.0, 33.0), (0, 0, -1), 3.5, 36.0),
        cylinder((500.0, 32.0, 16.0), (1, 0.25, 0), 5.0, 200.0),
    ),
)
NOTCHED = Recipe(
    (360.0, 140.0, 18.0),
    (
        box((-1.0, -1.0, -1.0), (9.0, 20.0, 19.0)),
        box((351.0, -1.0, -1.0), (361.0, 20.0, 19.0)),
        box((-1.0, -1.0, 9.0), (20.0, 141.0, 19.0)),
        HalfSpace((0.0, 140.0, 9.0), (0.0, 1.0, 1.0)),
    ),
)
KNOB = Recipe(
    (50.0, 50.0, 60.0),
    (
        Revolution(
            Outline(
                (
                    Edge((40.0, -1.0)),
                    Edge((40.0, 61.0)),
                    Edge((0.0, 61.0)),
                    Edge((0.0, 60.0)),
                    Edge((20.0, 40.0), (0.0, 40.0), False),
                    Edge((10.0, 20.0)),
                    Edge((10.0, -1.0)),
                )
            ),
            Frame(origin=(25.0, 25.0, 0.0)),
        ),
    ),
)
RECIPES = {
    "plain": PLAIN,
    "dadoed": DADOED,
    "holed": HOLED,
    "rounded": ROUNDED,
    "raked": RAKED,
    "notched": NOTCHED,
    "knob": KNOB,
}


def stand() -> list[tuple[Recipe, Frame]]:
    """A small stand of ten parts: two sides, three shelves in dadoes, a top, four raking feet."""
    left = Recipe(
        (400.0, 200.0, 18.0),
        (
            *(box((60.0 + 120 * k, -1.0, -1.0), (76.0 + 120 * k, 190.0, 6.0)) for k in range(3)),
            round_over(0, (0.0, 18.0), (-1, 1), 5.0, 400.0),
        ),
    )
    right = Recipe(
        (400.0, 200.0, 18.0),
        (
            *(box((60.0 + 120 * k, 10.0, -1.0), (76.0 + 120 * k, 201.0, 6.0)) for k in range(3)),
            round_over(0, (200.0, 18.0), (1, 1), 5.0, 400.0),
        ),
    )
    shelf = Recipe((518.0, 190.0, 16.0), (cylinder((100.0, 100.0, 16.0), (0, 0, -1), 6.0, 20.0),))
    top = Recipe((560.0, 220.0, 20.0), (round_over(0, (0.0, 20.0), (-1, 1), 10.0, 560.0),))
    foot = Recipe((120.0, 40.0, 30.0), (HalfSpace((110.0, 0.0, 0.0), (math.cos(0.2), 0.0, math.sin(0.2))),))
    items = [
        (left, Frame(((0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)), (18.0, 0.0, 100.0))),
        (right, Frame(((0.0, 0.0, 1.0), (0.0, -1.0, 0.0), (1.0, 0.0, 0.0)), (524.0, 200.0, 100.0))),
    ]
    items.extend((shelf, Frame(origin=(12.0, 0.0, 160.0 + 120 * k))) for k in range(3))
    items.append((top, Frame(origin=(-9.0, -10.0, 500.0))))
    for x in (40.0, 440.0):
        for y in (20.0, 140.0):
            c, s = math.cos(0.2), math.sin(0.2)
            items.append((foot, Frame(((s, 0, c), (0, 1.0, 0), (-c, 0, s)), (x, y, 100.0))))
    return items
