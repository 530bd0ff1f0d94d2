"""A housing for a shelf that is turned about its own length: its dado runs askew over the upright part's face."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from docgen.geometry.make import dot
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.joints.housing_place import Band, Ends, run_axis
from docgen.piece.joints.meeting import NEAR, PARALLEL, centre, first_face, outward, relative
from docgen.piece.model import Part
from docgen.piece.operations.askew_dado import AskewDado
from docgen.piece.operations.ground import level, settled, spot, third
from docgen.piece.records import Axis, Face
from docgen.units import Number

Row: TypeAlias = tuple[Vec, Vec]
"""An end of the tongue in its dado: the points of its two faces."""


@dataclass(frozen=True, slots=True)
class Askew:
    """How a shelf's end lies flat before a face of the host, turned on it, `gap` mm off it; below 0 it reaches into it.

    `frame` takes the shelf's axes into the host's.
    """

    end: Face  # of the shelf
    on: Face  # of the host
    frame: Frame
    gap: float


def askew(shelf: Part, host: Part) -> Askew | None:
    """Return how a shelf that is turned about its own length looks at the host with an end or edge, the nearest; None for others."""
    frame = relative(shelf, host)
    start = frame.point(centre(shelf))
    found: list[tuple[float, Askew]] = []
    for end in (Face(i, side) for i in (0, 1) for side in (0, 1)):
        along = frame.direction(outward(end))
        hit = first_face(host, start, along)
        if hit is None or -dot(along, outward(hit[1])) < 1 - PARALLEL:
            continue
        gap = hit[0] - float(shelf.size[end.axis]) / 2
        found.append((abs(gap), Askew(end, hit[1], frame, gap)))
    return min(found, key=lambda f: f[0])[1] if found else None


def askew_dado(at: Askew, shelf: Part, host: Part, tongue: Band, depth: Number, ends: Ends) -> AskewDado:
    """Return the dado in the host, coordinates in the host's axes; its ends are squared.

    It runs out where that is said, and where the shelf's edge does not lie whole within the face; else it ends with the shelf.
    """
    mine = run_axis(at.end)
    along = _along(at, mine)
    across = third(along, at.on.axis)
    rows = [(_row(at, shelf, tongue, side, ends), _ends(at, shelf, host, tongue, side, ends)) for side in (0, 1)]
    rows.sort(key=lambda row: row[0][0][along])
    (first, starts), (last, stops) = rows
    low = min((0, 1), key=lambda k: first[k][across])
    a, b = first[low], last[low]
    way = (b[along] - a[along], b[across] - a[across])
    near = a[across] if starts else a[across] - a[along] * way[1] / way[0]
    begin = a[along] if starts else 0.0
    return AskewDado(
        at.on,
        along,
        settled(near),
        tongue.high - tongue.low,
        depth,
        settled(math.degrees(math.atan2(way[1], way[0]))),
        settled(begin) if starts else None,
        settled(math.hypot(b[along] - begin, b[across] - near)) if stops else None,
        mate=shelf.called,
    )


def _along(at: Askew, mine: Axis) -> Axis:
    """Return the axis of the host's face from which the run lies less than 45 degrees off."""
    column = [abs(at.frame.rotation[k][mine]) for k in range(3)]
    return max((k for k in range(3) if k != at.on.axis), key=lambda k: column[k])


def _row(at: Askew, shelf: Part, tongue: Band, side: int, ends: Ends) -> Row:
    """Return where the tongue ends toward one of the shelf's edges, on the host's face."""
    mine = run_axis(at.end)
    edge = shelf.size[mine] if side else 0
    back = ends.stops.get(Face(mine, side), 0)
    place: dict[Axis, Number] = {at.end.axis: level(shelf, at.end), mine: edge + (-back if side else back)}
    low, high = (at.frame.point(spot(place | {2: t})) for t in (tongue.low, tongue.high))
    return low, high


def _ends(at: Askew, shelf: Part, host: Part, tongue: Band, side: int, ends: Ends) -> bool:
    """Return whether the dado ends there, rather than running out of the host."""
    edge = Face(run_axis(at.end), side)
    if edge in ends.stops or edge in ends.through:
        return edge in ends.stops
    flat = [k for k in range(3) if k != at.on.axis]
    corners = _row(at, shelf, tongue, side, ends)
    return all(NEAR < p[k] < float(host.size[k]) - NEAR for p in corners for k in flat)
