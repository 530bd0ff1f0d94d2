"""What a mortise and tenon may have besides: a haunch beside the tenon, wedges through it."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import NEAR, Seen
from docgen.piece.model import Item, Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.ground import in_plane
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.wedging import Flare, Kerfs
from docgen.piece.records import Authority, Face, Origin
from docgen.project.fields import Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Names = tuple[tuple[str, str], ...]
"""(part, feature) of what was cut."""


def haunch_trench(at: Seen, on: Face, post: Part, hole: Mortise, edge: Face, depth: Number) -> Dado:
    """Return the trench for a haunch at the rail's `edge`: as wide as the mortise, from its end to that edge.

    Where the edge is level with the post's end, the trench is open there.
    """
    side = at.host_face(edge)
    other = 3 - on.axis - side.axis
    u, v = in_plane(on)
    centre = dict(zip((u, v), hole.centre, strict=True))
    size = {hole.along: hole.length, u + v - hole.along: hole.width}
    low, high = centre[other] - size[other] / 2, centre[other] + size[other] / 2
    wall = at.level(edge)
    inner = centre[side.axis] + (size[side.axis] / 2 if side.side else -size[side.axis] / 2)
    level = post.size[side.axis] if side.side else 0
    end = None if abs(float(wall - level)) <= NEAR else wall
    start, stop = (inner, end) if side.side else (end, inner)
    return Dado(on, side.axis, low, high, depth, start, stop, label="haunch")


def wedge(
    bench: Bench, values: Bound, at: Seen, parts: tuple[Part, Part], hole: Mortise, tenon: tuple[Face, Number, Number]
) -> Names:
    """Saw the tenon, widen the mortise across the rail's width, and note two wedges.

    `tenon` is the rail's end with the tenon's from–to on its width. A kerf stands a sixth of the width in from each edge,
    and the walls lean from a quarter of the post's thickness on (common practice).
    """
    (rail, post), said, (end, low, high) = parts, values["wedges"], tenon
    wide, thick, kerf, by = high - low, post.size[hole.face.axis], said["kerf"], said["by"]
    deep = thick * Fraction(2, 3) if said["deep"] is None else said["deep"]
    inset = (wide - 2 * kerf) / 6
    a = bench.add(rail.path, Kerfs(end, thick, low, high, inset, kerf, deep), title="kerfs for wedges")
    along = at.axis[1]
    long = hole.length if hole.along == along else hole.width
    across = hole.width if hole.along == along else hole.length
    flare = Flare(hole.face, hole.centre, along, long, across, thick / Fraction(4), by)
    b = bench.add(post.path, flare, title=f"mortise widened for the wedges of {rail.path}")
    sizes = (kerf + by, across, deep)
    size = " × ".join(plain_length(v, bench.units) for v in sizes) + f" {bench.units.sign}"
    note = "thickness at the thick end × width × length, grain along the length; driven with glue, then sawn flush"
    bench.item(Item("wedge of hardwood", 2, size, Authority.CUT, note, Origin(values.span, values.because)))
    return ((rail.path, a.name), (post.path, b.name))


WEDGES = (
    Field("by", Length(above=0), "how much longer the mortise is at each end on its far face", required=True),
    Field("kerf", Length(above=0), "of the saw that splits the tenon", default="1 mm"),
    Field("deep", Length(above=0), "of the kerfs, from the tip; absent: two thirds of the tenon"),
)
"""The fields of wedges in a through tenon."""
