"""Where loose tenons go in a joint: as far from every face of both parts as the wood to be left asks.

Mortises are square to the joint's plane. In an acute joint the far corner of a mortise nears the part's back
face: wall = u · sin φ − d · cos φ with u from the acute tip; the planes of the part say the same without the case.
All points and directions are in the piece's axes, mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.geometry.make import dot
from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.filling import FREE, tenon
from docgen.piece.joints.meeting import face_middle, moved, outward
from docgen.piece.model import Loose, Part
from docgen.piece.operations.ground import settled
from docgen.piece.records import Face
from docgen.project.fields import Count, Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, Units

FAR = 1e6
"""mm: further than any furniture reaches."""

Plane = tuple[Vec, Vec]
"""A point of the plane and the direction out of the wood."""


class NoRoom(Exception):
    """Tenons that do not fit between the walls; the text has `faults.figure`s."""


@dataclass(frozen=True, slots=True)
class Joining:
    """The plane in which two parts meet: a point, the tenons' directions of width and thickness, square to it `normal`."""

    point: Vec
    width: Vec
    thickness: Vec
    normal: Vec  # from the second part into the first


@dataclass(frozen=True, slots=True)
class Into:
    """One part of the joint: the planes that bound its wood, the way into it, and how deep the mortises go."""

    planes: tuple[Plane, ...]
    direction: Vec
    depth: float


def planes(part: Part, without: Iterable[Face] = ()) -> tuple[Plane, ...]:
    """Return the planes of the nominal box except some faces, and of every end that was cut so far."""
    skip = set(without)
    out = []
    for axis in range(3):
        for side in (0, 1):
            face = Face(axis, side)
            if face not in skip:
                out.append((part.frame.point(face_middle(part, face)), part.frame.direction(outward(face))))
    for feature in part.features:
        out.extend(
            (part.frame.point(shape.point), part.frame.direction(shape.normal))
            for cut in feature.made.cuts
            if isinstance(shape := cut.beside or cut.shape, HalfSpace)
        )
    return tuple(out)


def room(start: Vec, along: Vec, into: Iterable[Into], wall: float) -> tuple[float, float]:
    """Return between which distances from `start` on the line `along` a mortise keeps `wall` to all planes.

    Low above high when there is none. Planes that lie in the joint itself are passed over.
    """
    low, high = -FAR, FAR
    for part in into:
        for point, out in part.planes:
            if abs(dot(out, part.direction) + 1) < 1e-9:
                continue  # the joint's own plane
            for p in (start, moved(start, part.direction, part.depth)):
                free = dot((point[0] - p[0], point[1] - p[1], point[2] - p[2]), out) - wall
                slope = dot(along, out)
                if abs(slope) < 1e-9:
                    if free < -1e-9:
                        low, high = FAR, -FAR
                elif slope > 0:
                    high = min(high, free / slope)
                else:
                    low = max(low, free / slope)
    return low, high


@dataclass(frozen=True, slots=True)
class Placed:
    """Middles of the mortises' mouths in the piece's axes, and the room between which they stand, from the point; mm.

    `beside` is the least wood between a mortise and a face beside it, `between` that between two mortises; 0 where there is none.
    """

    middles: tuple[Vec, ...]
    low: float
    high: float
    beside: float = 0.0
    between: float = 0.0


def place(joint: Joining, into: tuple[Into, ...], *, thickness: float, width: float, count: int, wall: float) -> Placed:
    """Return the middles of `count` mortises, spread with equal wood between them; `NoRoom` when they do not fit."""
    low, high = room(joint.point, joint.thickness, into, 0.0)
    walled = -FAR < low < high < FAR
    shift = (low + high) / 2 if walled else 0.0
    beside = max(0.0, (high - low - thickness) / 2) if walled else 0.0
    middle = moved(joint.point, joint.thickness, shift)
    spans = [room(moved(middle, joint.thickness, s * thickness / 2), joint.width, into, wall) for s in (-1, 1)]
    low, high = max(s[0] for s in spans), min(s[1] for s in spans)
    free = high - low - count * width
    if not math.isfinite(free) or free < -1e-6:
        have = max(0.0, high - low)
        raise NoRoom(
            f"{count} × {figure(settled(width))} of tenon do not fit: with {figure(settled(wall))} of wood left all "
            f"round there is room for {figure(settled(have))}"
        )
    gap = free / (count + 1)
    steps = [low + gap * (k + 1) + width * (k + 0.5) for k in range(count)]
    middles = tuple(moved(middle, joint.width, s) for s in steps)
    return Placed(middles, low, high, beside, gap if count > 1 else 0.0)


def tenon_size(said: Bound, units: Units) -> tuple[tuple[Number, Number, Number], Number]:
    """Return thickness, width and length of a tenon, and what it leaves free at each end, mm."""
    clear = FREE[units.system] if said["clearance"] is None else said["clearance"]
    return (said["thickness"], said["width"], 2 * (said["depth"] - clear)), clear


def tenons(
    bench: Bench, said: Bound, joint: Joining, placed: Placed, parts: tuple[str, str], made: Sequence[tuple[str, str]]
) -> tuple[Loose, ...]:
    """Return the tenons as solids; each sits in the mortises, `made` in the order of the tenons, one part after the other."""
    size, clear = tenon_size(said, bench.units)
    count = len(placed.middles)
    return tuple(
        tenon(p, (joint.width, joint.normal), size, clear, parts, tuple(made[k::count]))
        for k, p in enumerate(placed.middles)
    )


def figures(placed: Placed, size: tuple[Number, Number, Number]) -> tuple[tuple[str, Number, str], ...]:
    """Return what the lists tell of the tenons of one size."""
    thickness, width, length = size
    told = (("wood to the faces, at least", placed.beside), ("wood between tenons", placed.between))
    return (
        ("tenons", len(placed.middles), "count"),
        ("thickness", thickness, "length"),
        ("width", width, "length"),
        ("length", length, "length"),
        *((name, settled(wood), "length") for name, wood in told if wood),
    )


TENON = (
    Field("thickness", Length(above=0), "of the tenons", required=True),
    Field("width", Length(above=0), "of the tenons, with round edges", required=True),
    Field("depth", Length(above=0), "of each mortise", required=True),
    Field("count", Count(), "how many, spread with equal wood between them", default="1"),
    Field("wall", Length(least=0), "wood to be left all round each mortise", default="6 mm"),
    Field("clearance", Length(least=0), "left free at the end of each mortise for glue; absent: 1/32 in or 1 mm"),
)
"""The fields of loose tenons, wherever they are said."""
