"""Where a cut stands on its part and how its cutter runs there, as the set-ups tell it."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, in_plane, level, positive, third
from docgen.piece.records import Axis, Face, Setting, Travel
from docgen.units import Number

Places: TypeAlias = tuple[tuple[str, Number | str, str], ...]
Tip: TypeAlias = tuple[Number, tuple[Number, Number]]
"""A point of an end cut: where it stands on the end's axis, and on the two others in rising order."""


def stop_places(part: Part, run: Travel) -> tuple[tuple[str, Number | str, str], ...]:
    """Return how far before each end of its run a cut stops, to the full width; nothing where it runs out."""
    out: list[tuple[str, Number | str, str]] = []
    for side, end in enumerate((run.start, run.stop)):
        if end is not None:
            before = part.size[run.along] - end if side else end
            out.append((f"full width ends before the {part.side(Face(run.along, side))}", before, "length"))
    return tuple(out)


def slot_run(
    setting: Setting, part: Part, face: Face, along: Axis, centre: tuple[Number, Number], long: Number
) -> Setting:
    """Return the set-up of a slot `long` over all, with where it stands on the part and how the cutter runs in it."""
    mid = dict(zip(in_plane(face), centre, strict=True))
    across = third(along, face.axis)
    low, high = mid[along] - long / 2, mid[along] + long / 2
    end = part.side(Face(along, 0))
    places: tuple[tuple[str, Number | str, str], ...] = (
        (f"middle from the {part.side(Face(across, 0))}", mid[across], "length"),
        (f"near end from the {end}", low, "length"),
        (f"far end from the {end}", high, "length"),
    )
    at = {**mid, face.axis: level(part, face)}
    return replace(setting, places=places, travel=Travel(face, along, (at[0], at[1], at[2]), low, high))


def end_places(
    part: Part, end: Face, points: tuple[Tip, Tip], *, tilted: bool, square: bool, stops: Places | None = None
) -> Places:
    """Return where the stop of an end cut stands: its long and short point from the far end of the nominal box.

    `tilted`: the cut leans through the thickness; the face is told on which the long point lies. `stops` are told in
    place of the two points, where the far end is cut too.
    """
    (long, _), (short, at_short) = points
    far = Face(end.axis, 1 - end.side)
    from_far = f"from the {part.side(far)}"
    if square:
        return ((f"length {from_far}", positive(long - level(part, far)), "length"),)
    points_told: Places = (
        (f"long point {from_far}", positive(long - level(part, far)), "length"),
        (f"short point {from_far}", positive(short - level(part, far)), "length"),
    )
    places = list(points_told if stops is None else stops)
    if tilted:
        upright = 2 if end.axis != 2 else 1
        low = float(at_short[in_plane(end).index(upright)]) < SAME
        face = Face(upright, 1 if low else 0)
        places.append(
            ("long point on", "the show face" if face == part.show else f"the {part.word(face)} face", "text")
        )
    return tuple(places)
