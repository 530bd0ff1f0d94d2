"""Screws that go through one part into another: which they are, where they stand on the faces that touch, their holes."""

from __future__ import annotations

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault, figure
from docgen.piece.joints.meeting import NEAR, facing, holds, in_plane, moved, outward, seen
from docgen.piece.model import Part
from docgen.piece.operations.ground import in_plane as plane_axes
from docgen.piece.operations.ground import level, settled, spot
from docgen.piece.operations.hole import Hole, On
from docgen.piece.records import Authority, Face, Purpose, Sink
from docgen.project.fields import Choice, Field
from docgen.project.statements import Bound
from docgen.trade.drills import Drill
from docgen.trade.fasteners import COUNTERSINK, HEAD, WoodScrew, piloted
from docgen.trade.names import UnknownName
from docgen.units import Number

AXES = ("across", "deep", "up")
"""The piece's axes by their words."""

INTO = 3.0
"""mm that a screw goes into a box at least to count as driven into it, about 1/8 in."""

PILOT = Field("pilot", Choice(("hardwood", "softwood")), "what the pilot holes are drilled in", default="hardwood")
"""The field of wood screws that says which drill their pilot holes take."""


def wood_screws(bench: Bench, said: Bound, field: str) -> tuple[WoodScrew, Drill]:
    """Return the screw that a statement says by its `gauge`, with the drill of its pilot holes in the wood that `PILOT` says.

    `Fault` at `field` for what no table has.
    """
    try:
        return piloted(said["gauge"], bench.units.system, said["pilot"])
    except UnknownName as found:
        raise Fault("unknown-hardware", str(found), field, found.nearest or "") from found


def flush(screw: WoodScrew) -> Sink:
    """Return the countersink in which a flat head lies flush."""
    return Sink(HEAD * screw.shank, None, COUNTERSINK)


def clear_holes(
    drill: Drill, name: str, face: Face, points: tuple[On, ...], into: Part, sink: Sink | None, *, ruled: bool = False
) -> Hole:
    """Return the holes through which the screws of this letter pass `into` another part, from the face of their heads."""
    return Hole(
        face=face,
        points=points,
        diameter=drill.diameter,
        purpose=Purpose.CLEARANCE,
        name=name,
        drill=drill.name,
        sink=sink,
        fastener=name,
        mate=into.path,
        label="screw hole",
        ruled=ruled,
    )


def pilot_holes(drill: Drill, name: str, face: Face, points: tuple[On, ...], through: Part, depth: Number) -> Hole:
    """Return the holes in which the screws of this letter hold, marked `through` the part under their heads."""
    return Hole(
        face=face,
        points=points,
        diameter=drill.diameter,
        depth=depth,
        purpose=Purpose.PILOT,
        name=name,
        drill=drill.name,
        fastener=name,
        mate=through.path,
        authority=Authority.MATE,
        note=f"marked through {through.path}, then drilled",
        label="pilot hole",
    )


def milled(*parts: Part) -> tuple[str, ...]:
    """Return after what a screw's length is settled, as the hardware list tells it, once a material."""
    return tuple(
        dict.fromkeys(f"{'milling' if p.material.solid_wood else 'thickness'} of {p.material.name}" for p in parts)
    )


def on_a_slope(values: Bound, held: Part, tapped: Part) -> tuple[Face, tuple[Vec, ...]] | None:
    """Return the face of a leaning board and the screws' places on it, where it lies on what a cut left of the other part.

    A side that leans with a tapered end lies on no face of the end's box: the screws enter that box within it. None for
    parts that are square to each other or have faces that touch, and where a screw does not enter.
    """
    if seen(held, tapped) is not None or facing(held, tapped):
        return None
    given = [{AXES.index(k): v for k, v in place.items()} for place in values["at"]]
    if any(len(g) != 2 for g in given):
        return None
    for inner in (Face(i, s) for i in range(3) for s in (0, 1)):
        way = held.frame.direction(outward(inner))
        points = [p for g in given if (p := in_plane(held, inner, g)) is not None and holds(held, inner, p)]
        if len(points) == len(given) and all(
            _within(tapped, p) and _within(tapped, moved(p, way, INTO)) for p in points
        ):
            return inner, tuple(points)
    return None


def _within(part: Part, p: Vec) -> bool:
    """Return True for a point of the piece that lies in the box of the part."""
    q = part.frame.inverse().point(p)
    return all(-NEAR <= c <= float(s) + NEAR for c, s in zip(q, part.size, strict=True))


def places(bench: Bench, values: Bound, held: Part, tapped: Part) -> tuple[tuple[Face, Face], tuple[Vec, ...]] | None:
    """Return the two faces that touch and the screws' places on them (piece axes); what does not fit is told.

    The statement has the places as `at`.
    """
    pairs = facing(held, tapped)
    if not pairs:
        bench.fault(
            values,
            "into",
            "parts-do-not-meet",
            f"no face of {held.path} lies on a face of {tapped.path}",
            "two faces that touch",
        )
        return None
    given = [{AXES.index(k): v for k, v in place.items()} for place in values["at"]]
    if any(len(g) != 2 for g in given):
        bench.fault(
            values, "at", "place-needs-two", "a screw's place needs two directions of the piece", "{deep: 9, up: 27}"
        )
        return None
    for inner, against in pairs:
        points = [in_plane(held, inner, g) for g in given]
        inside = [p for p in points if p is not None and holds(held, inner, p) and holds(tapped, against, p)]
        if len(inside) == len(points):
            return (inner, against), tuple(inside)
    bench.fault(
        values,
        "at",
        "screw-beside-part",
        f"a screw lies beside the faces in which {held.path} and {tapped.path} touch",
        f"places on both parts{_room(held, tapped, pairs[0], tuple(given[0]))}",
    )
    return None


def _room(held: Part, tapped: Part, pair: tuple[Face, Face], along: tuple[int, ...]) -> str:
    """Return in words between which places of the piece two touching faces both lie; "" where they only share a plane."""
    ends = [_ends(part, face) for part, face in zip((held, tapped), pair, strict=True)]
    spans = [(i, max(low[i] for low, _ in ends), min(high[i] for _, high in ends)) for i in along]
    if any(low >= high for _, low, high in spans):
        return ""
    return " as they stand, " + ", ".join(
        f"{AXES[i]} {figure(settled(low))} to {figure(settled(high))}" for i, low, high in spans
    )


def _ends(part: Part, face: Face) -> tuple[Vec, Vec]:
    """Return the low and the high corner of the box around a face of a part, in the piece."""
    u, v = plane_axes(face)
    corners = [
        part.frame.point(spot({face.axis: level(part, face), u: a * part.size[u], v: b * part.size[v]}))
        for a in (0, 1)
        for b in (0, 1)
    ]
    low, high = ((f(c[0] for c in corners), f(c[1] for c in corners), f(c[2] for c in corners)) for f in (min, max))
    return low, high
