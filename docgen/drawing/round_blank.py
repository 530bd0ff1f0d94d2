"""A part that is round in one of its faces: its diameter tells length and width, and places run from its centre lines."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from docgen.drawing.once import SQUARE, Figure
from docgen.piece.model import Part
from docgen.piece.records import SizeKind
from docgen.schedules.discs import SAME, Disc, disc_of
from docgen.units import Number


def from_centre(part: Part, every: Iterable[Figure]) -> tuple[Figure, ...]:
    """Return the figures of a part; those of a disc without what its diameter tells, and its places from the centre lines.

    What stands on a centre line is drawn there. A figure keeps the size that it stands for among those that it tells.
    """
    disc = disc_of(part)
    if disc is None:
        return tuple(every)
    return tuple(told for f in every if (told := _told(part, disc, f)) is not None)


def _told(part: Part, disc: Disc, f: Figure) -> Figure | None:
    size = f.size
    axis = next((i for i in disc.across if size.kind is SizeKind.LENGTH and abs(size.along[i]) > 1 - SQUARE), None)
    if axis is None or f.asked or size.over:
        return f
    if f.overall:
        return None
    low, middle = float(part.span(axis)[0]), disc.centre[axis]
    at = [p for p in (size.start, size.end) if abs(p[axis] - low) > SAME]
    if len(at) != 1 or (size.label and not f.views):
        return f  # no place: a width of something
    off = at[0][axis] - middle
    if abs(off) < SAME:
        return None
    start: list[float] = list(at[0])
    start[axis] = middle
    first, last = part.span(axis)
    past: Number = size.value - (last - first) / 2
    value = past if past > 0 else -past
    placed = replace(size, start=(start[0], start[1], start[2]), end=at[0], value=value)
    return replace(f, size=placed, also=(size, *f.also), centred=True)
