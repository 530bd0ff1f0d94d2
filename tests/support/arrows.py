"""The distance between a printed dimension's arrows against the figure that is read beside them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from docgen.drawing.dimensions.wanted import Angular, Linear
from tests.support.printed import Figure, number

HALF = {"mm": 0.06, "inch": 0.0008}  # a printed tenth, a printed thousandth
DRAWN = 0.03  # mm on paper


def wrong_lengths(figures: Iterable[Figure]) -> Iterator[str]:
    """Yield each dimension whose arrows times the scale are not its figure.

    Where a zigzag stands in its line, the figure less what is left out of the broken view.
    """
    for f in figures:
        if not isinstance(f.wanted, Linear):
            continue
        part, units, factor = f.entry.subject.part.path, f.entry.subject.units, f.factor
        if f.arrows is None:
            yield f"{part}: {f.text} has no arrows"
            continue
        apart = math.dist(*f.arrows)
        if f.how == "running":  # from the origin's circle, which may stand on another line of the same side
            apart = abs(sum((q - p) * c for p, q, c in zip(*f.arrows, f.wanted.along, strict=True)))
        if f.broken != (f.wanted.taken > 0):  # a zigzag in the line says so
            yield f"{part}: {f.text} {'is' if f.broken else 'is not'} drawn broken"
        said = number(f.text) * (25.4 if units.system == "inch" else 1.0) - f.wanted.taken
        near = HALF[units.system] * (25.4 if units.system == "inch" else 1.0) + DRAWN / factor
        if abs(apart / factor - said) > near:
            yield f"{part}: {f.text} is drawn {apart / factor:.3f} mm long"


def wrong_angles(figures: Iterable[Figure]) -> Iterator[str]:
    """Yield each angle whose arc does not open as far as its figure says."""
    for f in figures:
        if isinstance(f.wanted, Angular):
            a, b, apex = f.wanted.first, f.wanted.second, f.wanted.apex
            one, two = (math.atan2(p[1] - apex[1], p[0] - apex[0]) for p in (a, b))
            opening = abs((math.degrees(one - two) + 180) % 360 - 180)
            if abs(opening - number(f.text)) > 0.06:
                yield f"{f.entry.subject.part.path}: {f.text} opens {opening:.2f} degrees"
