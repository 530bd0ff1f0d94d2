"""The small things that sit in joints: their solids, made once for each shape, and what is said of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from docgen.geometry.outlines import bounds
from docgen.geometry.reach import box_corners
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Vec
from docgen.geometry.solids import Solid, made, trimmed
from docgen.geometry.surfaces import Floats
from docgen.geometry.topology import Topology
from docgen.geometry.topology import topology as edges_of
from docgen.piece.hardware import Fitting
from docgen.piece.model import Loose, Piece
from docgen.piece.records import Stage
from docgen.units import Number, Units, plain_length

SAME = 1e-6  # mm


@lru_cache(maxsize=64)
def solid(shape: Extrusion) -> Solid:
    """Return the solid of a thing's shape, in its own axes."""
    return made(shape)


@lru_cache(maxsize=64)
def topology(shape: Extrusion) -> Topology:
    """Return faces and edges of a thing's shape, in its own axes."""
    return edges_of(solid(shape))


def pared(piece: Piece, thing: Loose) -> Solid:
    """Return the solid of a thing where it stands in the finished piece: a wedge is sawn flush with its tenon."""
    whole = solid(thing.shape).moved(thing.frame)
    if not thing.driven:
        return whole
    part = piece.part(thing.parts[0])
    planes = [
        HalfSpace(part.frame.point(c.shape.point), part.frame.direction(c.shape.normal))
        for feature in part.features
        for c in feature.made.cuts
        if isinstance(c.shape, HalfSpace) and (c.stage or feature.stage) is not Stage.PART
    ]
    return trimmed(whole, planes) or whole


def every(piece: Piece) -> list[Loose]:
    """Return the things in all joints of the piece."""
    return [thing for joint in piece.joints for thing in joint.loose]


def shown(piece: Piece) -> list[tuple[Topology, Frame]]:
    """Return what is seen of the things on the finished piece, where it stands: keys, plugs, ends of splines, hinges."""
    wood = [(topology(t.shape), t.frame) for t in every(piece) if t.shows]
    return wood + [(topology(f.shape), f.frame) for f, _ in metal(piece) if not f.room]


def metal(piece: Piece) -> list[tuple[Fitting, str]]:
    """Return the hardware that is seen as a whole, each piece of it with the part on which it stays when others come away.

    That is the one on which a door or a lid is hung, and the drawer that its slide goes with.
    """
    found = [(f, j) for j in piece.joints for f in j.fittings if f.sold]
    return [(f, f.parts[-1] if len(f.parts) > 1 else j.parts[-1]) for f, j in found]


def box(thing: Loose | Fitting) -> tuple[Vec, Vec]:
    """Return the low and high corner of a thing in its own axes, mm."""
    (x0, y0), (x1, y1) = bounds(thing.shape.outline)
    return (x0, y0, thing.shape.low), (x1, y1, thing.shape.high)


@lru_cache(maxsize=256)
def corners(thing: Loose | Fitting) -> Floats:
    """Return the corners (8, 3) of the box around a thing, in the piece's axes."""
    return box_corners(*box(thing), thing.frame)


def extent(thing: Loose) -> Number:
    """Return how long a thing is along the axis of its length: the figure that the lists tell, where one is that long."""
    low, high = box(thing)
    long = high[thing.long] - low[thing.long]
    return next((v for _, v in thing.told if abs(float(v) - long) < SAME), long)


def ends(thing: Loose) -> tuple[Vec, Vec]:
    """Return the middles of a thing's two ends, piece axes."""
    low, high = (np.array(c) for c in box(thing))
    first, last = (low + high) / 2, (low + high) / 2
    first[thing.long], last[thing.long] = low[thing.long], high[thing.long]
    return thing.frame.point(tuple(first.tolist())), thing.frame.point(tuple(last.tolist()))


def grain(thing: Loose) -> Vec:
    """Return the direction of a thing's fibres, piece axes."""
    return thing.frame.direction((1.0 * (thing.grain == 0), 1.0 * (thing.grain == 1), 1.0 * (thing.grain == 2)))


def titles(things: Sequence[Loose], units: Units) -> list[str]:
    """Return things in short, equal ones once with their count: "2× loose tenon 3/8 × 7/8 × 1 7/16 in"."""
    counts: dict[tuple[str, str], int] = {}
    for thing in things:
        key = (thing.what, " × ".join(plain_length(value, units) for _, value in thing.told))
        counts[key] = counts.get(key, 0) + 1
    return [f"{f'{n}× ' if n > 1 else ''}{what} {size} {units.sign}" for (what, size), n in counts.items()]


def free(things: Sequence[Loose]) -> list[Number]:
    """Return what things leave free at each end, each figure once."""
    return list(dict.fromkeys(t.clear for t in things if t.clear))
