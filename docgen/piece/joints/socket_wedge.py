"""A wedge in the round tenon of a through socket: its kerf, the wedge itself, and whether it can be."""

from __future__ import annotations

import math

from docgen.geometry.make import dot, unit
from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints import filling
from docgen.piece.joints.meeting import NEAR, face_middle, outward
from docgen.piece.joints.telling import fault, neat
from docgen.piece.model import Item, Loose, Part, Sets
from docgen.piece.operations.ground import settled
from docgen.piece.operations.wedging import RoundKerf
from docgen.piece.records import Authority, Face, Origin
from docgen.project.fields import Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

NOTE = (
    "thickness at the thick end × width × length, grain along the length; driven with glue until it holds and the blow sounds dull: in "
    "a straight hole it does not go in full, and more splits the wood round it; then sawn flush"
)
"""How far a wedge goes where no wall is flared for it. Common practice."""

TOLD = "wedged where the tenon comes out, its kerf square to the grain here"

ALONG = math.cos(math.radians(45))
"""Sine of the angle between bore and grain under which the wedge presses more across the grain than along it."""


def can_be(bench: Bench, values: Bound, into: Part, reach: float, wood: float) -> bool:
    """Tell whether the tenon can be wedged, else say so: `reach` of it along the bore, through `wood`."""
    if values["depth"] is not None:
        message = "a wedge spreads a tenon that goes through, this socket is blind"
        bench.fault(values, "wedge", "wedges-blind", message, "no depth: the socket goes through")
        return False
    if reach < wood - NEAR:
        short = figure(settled(wood - reach))
        message = f"the tenon ends {short} under the far face of {into.path}: there is no way to its wedge"
        fault(values, "wedge", "wedge-short", message, "a tenon that reaches the far face or stands out", on=bench)
        return False
    deep = values["wedge"]["deep"]
    if deep is not None and deep >= wood:
        message = f"a kerf {figure(deep)} deep splits more than the {figure(settled(wood))} of the tenon in the socket"
        fault(values, "wedge", "depth-range", message, "a kerf that ends inside the socket", on=bench)
        return False
    return True


def pressed(part: Part, into: Part, end: Face) -> Vec | None:
    """Return the direction in which a wedge in `end` presses, in the tenon's axes: the grain of `into`, square to the bore.

    None where the bore runs so much along the grain that the wedge would press across it.
    """
    out = outward(end)
    grain = part.frame.inverse().direction(into.frame.direction((1.0, 0.0, 0.0)))
    along = dot(grain, out)
    if into.material.solid_wood and math.sqrt(max(0.0, 1 - along * along)) < ALONG:
        return None
    rest = (0.0, grain[1], grain[2])
    return unit(rest) if math.hypot(grain[1], grain[2]) > NEAR else (0.0, 1.0, 0.0)


def wedged(
    bench: Bench, values: Bound, part: Part, into: Part, end: Face, diameter: Number, *, reach: float, wood: float
) -> tuple[Number, Loose] | None:
    """Saw the kerf into the round tenon, note its wedge, and return how deep the kerf is from the tip, with the wedge.

    A kerf goes two thirds of the way into the wood (common practice) and further by what stands out. None where it cannot be.
    """
    across = pressed(part, into, end)
    if across is None:
        message = f"the socket runs along the grain of {into.path}: a wedge would press across it and split it"
        bench.fault(values, "wedge", "wedge-splits", message, "no wedge there")
        return None
    said = values["wedge"]
    if said["thick"] >= diameter:
        message = f"a wedge {figure(said['thick'])} thick is no thinner than the tenon, {figure(diameter)}"
        fault(values, "wedge", "kerfs-crowded", message, "a thinner wedge", on=bench)
        return None
    inside = neat(settled(wood * 2 / 3), bench.units) if said["deep"] is None else said["deep"]
    deep = settled(float(inside) + reach - wood)
    kerf = RoundKerf(end, across, diameter, said["kerf"], deep, into.path)
    made = bench.add(part.path, kerf, title=f"kerf for a wedge in {into.path}")
    measures = (said["thick"], diameter, neat(deep, bench.units))
    size = " × ".join(plain_length(v, bench.units) for v in measures)
    origin = Origin(values.span, values.because)
    told = f"tenon of {part.path}"
    bench.item(
        Item("wedge of hardwood", 1, f"{size} {bench.units.sign}", Authority.CUT, NOTE, origin, told, Sets.GLUED)
    )
    ways = part.frame.direction(across), part.frame.direction(outward(end))
    room = math.sqrt(float(diameter) ** 2 - float(said["thick"]) ** 2)  # its corners stay within the round
    tip = part.frame.point(face_middle(part, end))
    sits = ((part.path, made.name),)
    return deep, filling.wedge(tip, ways, measures, (said["kerf"], 0.5, room), (part.path, into.path), sits)


WEDGE = (
    Field("thick", Length(above=0), "the wedge, at its thick end", required=True),
    Field("kerf", Length(above=0), "of the saw that splits the tenon", default="1 mm"),
    Field("deep", Length(above=0), "of the kerf, under the far face; absent: two thirds of the wood there"),
)
"""The fields of a wedge in a round tenon; it is as wide as the tenon is thick."""
