"""What a mortise and tenon may have besides: a haunch beside the tenon, wedges through it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.joints import filling
from docgen.piece.joints.meeting import Seen, outward
from docgen.piece.joints.telling import neat
from docgen.piece.model import Item, Loose, Part, Sets
from docgen.piece.operations.ground import axis, in_plane, level, positive
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.mortise_steps import Flare, Haunch
from docgen.piece.operations.wedging import Kerfs
from docgen.piece.records import Authority, Face, Origin
from docgen.project.fields import Field, Length
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Span = tuple[Number, Number]
"""From–to, mm."""

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


def wedge(
    bench: Bench, values: Bound, rail: Part, mortise: tuple[str, str], tenon: tuple[Face, Span, Span], long: Number
) -> tuple[str, tuple[Loose, ...]]:
    """Saw the kerfs into the tenon, note two wedges, and return the feature's name with them.

    `mortise` is the post with its feature, `tenon` the rail's end with the tenon's from–to on its width and on its thickness,
    `long` its length. A kerf stands a sixth of the width in from each edge (common practice).
    """
    said, (end, (low, high), cheeks) = values["wedges"], tenon
    thick = cheeks[1] - cheeks[0]
    kerf, deep = said["kerf"], long * Fraction(2, 3) if said["deep"] is None else said["deep"]
    kerfs = Kerfs(end, long, low, high, neat((high - low - 2 * kerf) / 6, bench.units), kerf, deep)
    name = bench.add(rail.path, kerfs, title="kerfs for wedges").name
    measures = (kerf + said["by"], thick, deep)
    told = " × ".join(plain_length(v, bench.units) for v in measures) + f" {bench.units.sign}"
    origin = Origin(values.span, values.because)
    bench.item(
        Item("wedge of hardwood", 2, told, Authority.CUT, WEDGE_NOTE, origin, f"tenon of {rail.path}", Sets.GLUED)
    )
    out = rail.frame.direction(outward(end))
    tip = level(rail, end) + (long if end.side else -long)

    def driven(middle: Number, share: float) -> Loose:
        """Return the wedge in the kerf there: the strip outside it bends away, `share` of the spread to the low side."""
        spot = (float(tip), float(middle), float(sum(cheeks)) / 2)
        ways = rail.frame.direction(axis(1)), out
        room = (kerf, share, float(thick))
        return filling.wedge(
            rail.frame.point(spot), ways, measures, room, (rail.path, mortise[0]), ((rail.path, name), mortise)
        )

    in_by = kerfs.inset + kerf / Fraction(2)
    return name, (driven(low + in_by, 1.0), driven(high - in_by, 0.0))


WEDGES = (
    Field("by", Length(above=0), "how much longer the mortise is at each end on its far face", required=True),
    Field("kerf", Length(above=0), "of the saw that splits the tenon", default="1 mm"),
    Field("deep", Length(above=0), "of the kerfs, from the tip; absent: two thirds of the tenon"),
)
"""The fields of wedges in a through tenon."""
