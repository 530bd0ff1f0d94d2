"""Where a housing stands: the tongue in the shelf's thickness, the dado in the other part, and where that ends."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.joints.meeting import NEAR, Seen
from docgen.piece.model import Part
from docgen.piece.operations.dado import Dado
from docgen.piece.records import Face
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Band:
    """The tongue in the shelf's thickness, from its low to its high side."""

    low: Number
    high: Number


def band(shelf: Part, tongue: Number | None, flush: str | None) -> Band:
    """Return where the tongue lies in the thickness: all of it, flush with a face, or centred."""
    thick = shelf.size[2]
    if tongue is None:
        return Band(0, thick)
    if flush is None:
        return Band((thick - tongue) / 2, (thick + tongue) / 2)
    return Band(thick - tongue, thick) if shelf.face(flush).side else Band(0, tongue)


def run_axis(end: Face) -> int:
    """Return the shelf's axis along which its end on `end` runs."""
    return 1 - end.axis


@dataclass(frozen=True, slots=True)
class Ends:
    """How the dado ends: how far behind an edge of the shelf it stops, and the edges past which it runs out."""

    stops: dict[Face, Number]
    through: frozenset[Face] = frozenset()


def run(at: Seen, end: Face, host: Part, ends: Ends) -> tuple[Number | None, Number | None, bool]:
    """Return where the dado's full width starts and stops in the host, and whether all its stops are stated ones.

    None runs out: where the shelf reaches the host's edge, or where it is said. Else the dado ends with the shelf.
    """
    out: list[Number | None] = [None, None]
    stated = True
    for side in (0, 1):
        edge = Face(run_axis(end), side)
        on = at.host_face(edge)
        level = at.level(edge)
        inward = 1 if on.side == 0 else -1
        if edge in ends.stops:
            out[on.side] = level + inward * ends.stops[edge]
        elif edge not in ends.through and NEAR < float(level) < float(host.size[on.axis]) - NEAR:
            out[on.side], stated = level, False
    return out[0], out[1], stated


def dado(
    at: Seen, end: Face, on: Face, host: Part, tongue: Band, depth: Number, ends: Ends, *, round_end: bool
) -> Dado:
    """Return the dado in the host for the shelf's `end` that touches its face `on`; coordinates in the host's axes.

    A dado that ends with the shelf is squared there, so that nothing of it shows.
    """
    t = at.axis[2]
    low = at.low[t] + tongue.low if at.sign[2] > 0 else at.high[t] - tongue.high
    start, stop, stated = run(at, end, host, ends)
    arcs = round_end and stated and (start is not None or stop is not None)
    return Dado(
        on,
        at.axis[run_axis(end)],
        low,
        low + tongue.high - tongue.low,
        depth,
        start,
        stop,
        round_end=arcs,
        label="dado",
    )
