"""What a mortise and tenon may have besides: a haunch beside the tenon, wedges through it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import Seen
from docgen.piece.joints.telling import neat
from docgen.piece.model import Item, Part, Sets
from docgen.piece.operations.ground import in_plane, positive
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.mortise_steps import Flare, Haunch
from docgen.piece.operations.wedging import Kerfs
from docgen.piece.records import Authority, Face, Origin
from docgen.project.fields import Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Sizes = tuple[Number, Number]
"""Length and thickness of a tenon, mm."""

WEDGE_NOTE = "thickness at the thick end × width × length, grain along the length; driven with glue, then sawn flush"


def haunched(at: Seen, hole: Mortise, haunches: dict[Face, Number], deeper: Number) -> Mortise:
    """Return the mortise with steps for the rail's haunches, from its ends to the rail's edges.

    `haunches` are their lengths by the rail's edge; a step that reaches the post's end is open there.
    """
    if not haunches:
        return hole
    along = at.axis[1]
    if hole.along != along:
        hole = replace(hole, along=along, length=hole.width, width=hole.length)
    middle = dict(zip(in_plane(hole.face), hole.centre, strict=True))[along]
    for edge, long in haunches.items():
        side, wall = at.host_face(edge).side, at.level(edge)
        reach = positive(wall - middle) - hole.length / 2
        hole = replace(hole, steps=(*hole.steps, Haunch(bool(side), reach, long + deeper)))
    return hole


def flared(at: Seen, hole: Mortise, post: Part, by: Number) -> Mortise:
    """Return a through mortise that is longer by `by` at both ends on its far face, across the rail's width.

    Its walls begin to lean at a quarter of the post's thickness (common practice).
    """
    if hole.along != at.axis[1]:
        hole = replace(hole, along=at.axis[1], length=hole.width, width=hole.length)
    return replace(hole, steps=(*hole.steps, Flare(post.size[hole.face.axis] / Fraction(4), by)))


def wedge(bench: Bench, values: Bound, rail: Part, tenon: tuple[Face, Number, Number], size: Sizes) -> str:
    """Saw the kerfs into the tenon, note two wedges, and return the feature's name.

    `tenon` is the rail's end with the tenon's from–to on its width, `size` its length and thickness. A kerf stands a sixth
    of the width in from each edge (common practice).
    """
    said, (end, low, high), (long, thick) = values["wedges"], tenon, size
    kerf, deep = said["kerf"], long * Fraction(2, 3) if said["deep"] is None else said["deep"]
    kerfs = Kerfs(end, long, low, high, neat((high - low - 2 * kerf) / 6, bench.units), kerf, deep)
    name = bench.add(rail.path, kerfs, title="kerfs for wedges").name
    told = " × ".join(plain_length(v, bench.units) for v in (kerf + said["by"], thick, deep)) + f" {bench.units.sign}"
    origin = Origin(values.span, values.because)
    bench.item(
        Item("wedge of hardwood", 2, told, Authority.CUT, WEDGE_NOTE, origin, f"tenon of {rail.path}", Sets.GLUED)
    )
    return name


WEDGES = (
    Field("by", Length(above=0), "how much longer the mortise is at each end on its far face", required=True),
    Field("kerf", Length(above=0), "of the saw that splits the tenon", default="1 mm"),
    Field("deep", Length(above=0), "of the kerfs, from the tip; absent: two thirds of the tenon"),
)
"""The fields of wedges in a through tenon."""
