"""Where a cut stands on its part and how its cutter runs there, as the set-ups tell it."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from docgen.piece.model import Part
from docgen.piece.operations.end_corner import planes
from docgen.piece.operations.ground import SAME, in_plane, level, outward, positive, third
from docgen.piece.records import Axis, Face, Setting, Travel
from docgen.units import Number

Places: TypeAlias = tuple[tuple[str, Number | str, str], ...]
Tip: TypeAlias = tuple[Number, tuple[Number, Number]]
"""A point of an end cut: where it stands on the end's axis, and on the two others in rising order."""

FACING = 0.3
"""Of a unit normal: a cut that faces a side by more than this takes that side away, steep ends too."""

ARC, SQUARE = "to the end of the arc", "square end"
"""What the figure of a stop goes to: where the cutter's rim stops, as it leaves it or squared there."""


def stop_places(part: Part, run: Travel, *, arc: Number = 0, squared: bool = False) -> Places:
    """Return where the cutter's rim stops before each end of its run; nothing where it runs out.

    `arc` is what its radius leaves beyond the full width. A stop that is `squared` is chopped at the rim: a cutter that
    went on to its full width there would cut past the mark.
    """
    ends = [(side, end) for side, end in enumerate((run.start, run.stop)) if end is not None]
    out: list[tuple[str, Number | str, str]] = []
    for side, end in ends:
        before = part.size[run.along] - end if side else end
        at = part.side(Face(run.along, side))
        out.append((f"rim of the cutter stops from the {at}", before - arc, "length"))
        if arc:
            out.append((f"full width ends from the {at}", before, "length"))
    if squared and ends:
        out.append(("then", f"square the stopped {'ends' if len(ends) > 1 else 'end'} with a chisel", "text"))
    return tuple(out)


def at_arris(part: Part, face: Face, edge: Face) -> Places:
    """Return at which arris of the part a cut runs."""
    return (("arris", f"{part.side(face)} / {part.side(edge)}", "text"),)


def in_face(part: Part, face: Face) -> Places:
    """Return into which side of the part a cut goes."""
    return (("in", f"the {part.plain_side(face)}", "text"),)


def nearer(part: Part, axis: Axis, at: Number) -> Face:
    """Return the side of the part from which a place is measured: the nearer one, where a small error stays small.

    So rails that are flush with a leg's top are measured from there, and mortises that are alike on all outer faces of
    four legs have one fence. A side that another cut takes away is no side to measure from. Common practice.
    """
    high = at > part.size[axis] / 2 + SAME
    sides = (Face(axis, 1), Face(axis, 0)) if high else (Face(axis, 0), Face(axis, 1))
    stays = [side for side in sides if not cut_off(part, side)]
    return stays[0] if stays else Face(axis, 0)


def across(part: Part, axis: Axis, at: Number) -> tuple[str, Number]:
    """Return the words of the side that a place across the part is measured from, and how far it lies.

    What lies in the middle is measured from the show face, where that is one of the two: all parts that run at one fence
    then lie alike against it. Common practice.
    """
    shown = part.show if part.show is not None and part.show.axis == axis else None
    if shown is not None and abs(float(at - part.size[axis] / 2)) <= SAME and not cut_off(part, shown):
        return "show face", positive(at - level(part, shown))
    beside = nearer(part, axis, at)
    return part.side(beside), positive(at - level(part, beside))


def cut_off(part: Part, side: Face) -> bool:
    """Return whether a cut takes a side away, so that nothing can be measured from it: a taper, a bevel."""
    gone = any(side in feature.made.gone for feature in part.features)
    return gone or any(plane.normal[side.axis] * outward(side) > FACING for plane in planes(part))


def slot_run(
    setting: Setting, part: Part, face: Face, along: Axis, centre: tuple[Number, Number], long: Number
) -> Setting:
    """Return the set-up of a slot `long` over all, with where it stands on the part and how the cutter runs in it."""
    mid = dict(zip(in_plane(face), centre, strict=True))
    beside = third(along, face.axis)
    end = nearer(part, along, mid[along])
    side, over = across(part, beside, mid[beside])
    out = positive(mid[along] - level(part, end))
    places: tuple[tuple[str, Number | str, str], ...] = (
        *in_face(part, face),
        (f"middle from the {side}", over, "length"),
        (f"near end from the {part.side(end)}", out - long / 2, "length"),
        (f"far end from the {part.side(end)}", out + long / 2, "length"),
    )
    at = {**mid, face.axis: level(part, face)}
    run = Travel(face, along, (at[0], at[1], at[2]), mid[along] - long / 2, mid[along] + long / 2)
    return replace(setting, places=places, travel=run)


def end_places(
    part: Part,
    end: Face,
    points: tuple[Tip, Tip],
    *,
    tilted: bool,
    square: bool,
    stops: Places | None = None,
    gone: bool = False,
) -> Places:
    """Return where the stop of an end cut stands: its long and short point from the far end of the nominal box.

    `tilted`: the cut leans through the thickness; the face is told on which the long point lies. `stops` are told in
    place of the two points, where the far end is cut too. A long point that is `gone`, with another cut, is left out.
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
    places = list(points_told[1:] if stops is None and gone else points_told if stops is None else stops)
    if tilted:
        upright = 2 if end.axis != 2 else 1
        low = float(at_short[in_plane(end).index(upright)]) < SAME
        face = Face(upright, 1 if low else 0)
        places.append(
            ("long point on", "the show face" if face == part.show else f"the {part.word(face)} face", "text")
        )
    return tuple(places)
