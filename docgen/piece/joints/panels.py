"""The trench that a panel needs in a part that it reaches into: a rabbet at an arris, or a groove."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.joints.meeting import NEAR, Seen, seen
from docgen.piece.model import Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import Face
from docgen.units import Number

Region = tuple[list[Number], list[Number]]


class NoTrench(Exception):
    """A panel that does not reach into the part as it should; the text says how it stands."""


@dataclass(frozen=True, slots=True)
class Bed:
    """A rabbet deeper than its panel: its depth, from which of the host's faces, and what lies under the panel; mm."""

    depth: Number
    word: str
    under: Number = 0


def region(panel: Part, host: Part, gap: Number, bed: Bed | None = None) -> tuple[Seen, Region]:
    """Return the panel's box, grown by `gap` in its own plane, in the host's axes; `NoTrench` if it misses.

    With a `bed` it reaches from the rabbet's floor out to a face of the host: other things lie on the panel.
    """
    at = seen(panel, host)
    if at is None:
        raise NoTrench(f"{panel.path} stands at an angle to {host.path}")
    low, high = list(at.low), list(at.high)
    for k in range(3):
        if k != at.axis[2]:
            low[k], high[k] = low[k] - gap, high[k] + gap
    if any(high[k] <= NEAR or low[k] >= host.size[k] - NEAR for k in range(3)):
        raise NoTrench(f"{panel.path} does not reach into {host.path}")
    if bed is not None:
        k, side = host.face(bed.word)
        floor = host.size[k] - bed.depth if side else bed.depth
        lies = low[k] - bed.under if side else high[k] + bed.under
        if k != at.axis[2] or abs(float(lies - floor)) > NEAR:
            raise NoTrench(f"{panel.path} does not lie on the floor of a rabbet of that depth in {host.path}")
        low[k], high[k] = (floor, host.size[k]) if side else (0, floor)
    return at, (low, high)


def open_sides(host: Part, of: Region, axis: int) -> tuple[int, ...]:
    """Return the sides (0 low, 1 high) of the host on `axis` that the region reaches or passes."""
    low, high = of
    return tuple(s for s, out in ((0, low[axis] <= NEAR), (1, high[axis] >= host.size[axis] - NEAR)) if out)


def _entry(panel: Part, host: Part, of: Region, thin: int) -> Face:
    """Return the host's face by which the panel's edge enters it."""
    found = [(k, open_sides(host, of, k)) for k in range(3) if k != thin]
    single = [Face(k, sides[0]) for k, sides in found if len(sides) == 1]
    if not single:
        raise NoTrench(f"{panel.path} enters {host.path} by no face of it")
    # A panel that is also open at an end of the part runs along the part: the end is not where it enters.
    return max(single, key=lambda f: f.axis)


def _depth(host: Part, of: Region, face: Face) -> Number:
    """Return how far the region goes in from a face."""
    return host.size[face.axis] - of[0][face.axis] if face.side else of[1][face.axis]


def _run(host: Part, of: Region, along: int, stopped: bool) -> tuple[Number | None, Number | None]:
    """Return where the trench starts and stops along the part; None runs out."""
    if not stopped:
        return None, None
    low, high = of[0][along], of[1][along]
    return (low if low > NEAR else None), (high if high < host.size[along] - NEAR else None)


def rabbet(
    panel: Part,
    host: Part,
    gap: Number,
    *,
    stopped: bool = False,
    cutter: Number | None = None,
    bed: Bed | None = None,
) -> Rabbet:
    """Return the rabbet in which the panel's edge lies, with `gap` left free beside it.

    It is cut into the thickness where one of its two faces lies in the thickness.
    """
    at, of = region(panel, host, gap, bed)
    thin = at.axis[2]
    open_thin = open_sides(host, of, thin)
    if len(open_thin) != 1:
        raise NoTrench(f"{panel.path} lies inside {host.path}, not at an arris: that is a groove")
    flat, entry = Face(thin, open_thin[0]), _entry(panel, host, of, thin)
    face, edge = (flat, entry) if flat.axis == 2 else (entry, flat)
    start, stop = _run(host, of, 3 - thin - entry.axis, stopped)
    return Rabbet(face, edge, _depth(host, of, face), _depth(host, of, edge), start, stop, cutter)


def groove(panel: Part, host: Part, clearance: Number, *, stopped: bool = False) -> Dado:
    """Return the groove that holds the panel's edge, `clearance` deeper than the panel reaches."""
    at, of = region(panel, host, clearance)
    thin = at.axis[2]
    if open_sides(host, of, thin):
        raise NoTrench(f"{panel.path} lies at an arris of {host.path}: that is a rabbet")
    entry = _entry(panel, host, of, thin)
    along = 3 - thin - entry.axis
    start, stop = _run(host, of, along, stopped)
    return Dado(
        entry, along, of[0][thin], of[1][thin], _depth(host, of, entry), start, stop, round_end=stopped, label="groove"
    )
