"""Mortise and tenon: the end of a rail, thinned to a tenon, enters a squared mortise in a post."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints import slanted_tenon
from docgen.piece.joints.housing_place import band
from docgen.piece.joints.meeting import NEAR, Seen, distance, seen, touching
from docgen.piece.joints.telling import fault
from docgen.piece.joints.tenon_extras import WEDGES, flared, haunched, wedge
from docgen.piece.model import Joint, Loose, Part
from docgen.piece.operations.ground import in_plane, settled
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Face, Origin
from docgen.project.fields import ByFace, FaceWord, Field, Flag, Length, Many, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number, Units

DEEPER = {"inch": Fraction(254, 160), "mm": Fraction(3, 2)}
"""mm: how much deeper than its tenon a blind mortise is, room for glue: 1/16 in or 1.5 mm. Common practice."""

FAT = {"inch": Fraction(254, 640), "mm": Fraction(1, 2)}
"""mm: what is left on the cheeks until the tenon is fitted: 1/64 in or 0.5 mm. Common practice."""


@dataclass(frozen=True, slots=True)
class Sized:
    """The tenon on the rail's end: from–to on the rail's width and thickness, its length, and the mortise's depth.

    `depth` None goes through the post.
    """

    width: tuple[Number, Number]
    thickness: tuple[Number, Number]
    length: Number
    depth: Number | None
    fat: Number


def usual(table: dict[str, Fraction], said: Number | None, units: Units) -> Number:
    """Return what is said, else what is usual in the file's unit; mm."""
    return table[units.system] if said is None else said


def sized(values: Bound, rail: Part, post: Part, on: Face, units: Units) -> Sized:
    """Return the tenon as it is said, through a post as long as that is thick."""
    shoulders = {rail.face(word): v for word, v in (values["shoulder"] or {}).items()}
    wide = rail.size[1]
    tenon = band(rail, values["thickness"], values["flush"])
    bare = tenon.high - tenon.low >= rail.size[2]
    long = values["length"]
    blind = long is not None
    return Sized(
        (shoulders.get(Face(1, 0), 0), wide - shoulders.get(Face(1, 1), 0)),
        (tenon.low, tenon.high),
        long if blind else post.size[on.axis],
        long + usual(DEEPER, values["deeper"], units) if blind else None,
        0 if bare else usual(FAT, values["fat"], units),
    )


def mortise(at: Seen, on: Face, tenon: Sized, *, rounded: bool = False) -> Mortise:
    """Return the mortise in the post's face `on`, the tenon's size across, from where the rail stands."""
    spans: dict[int, tuple[Number, Number]] = {}
    for mine, (low, high) in ((1, tenon.width), (2, tenon.thickness)):
        k = at.axis[mine]
        first, last = at.low[k], at.high[k]
        spans[k] = (first + low, first + high) if at.sign[mine] > 0 else (last - high, last - low)
    u, v = in_plane(on)
    reach = {i: high - low for i, (low, high) in spans.items()}
    along = at.axis[1] if reach[at.axis[1]] >= reach[at.axis[2]] else at.axis[2]
    centre = (sum(spans[u]) / Fraction(2), sum(spans[v]) / Fraction(2))
    return Mortise(on, centre, along, reach[along], reach[u + v - along], tenon.depth, squared=not rounded)


def build(bench: Bench, values: Bound) -> None:
    """Cut a mortise in each post and leave the tenons, from where rail and posts stand."""
    if _sound(bench, values, bench.part(values["end"])):
        for path in values["into"]:
            _into(bench, values, bench.part(values["end"]), bench.part(path))


def _into(bench: Bench, values: Bound, rail: Part, post: Part) -> None:
    """Cut one mortise and leave its tenon."""
    at = seen(rail, post)
    if at is None:
        slanted_tenon.build(bench, values, rail, post, usual(DEEPER, values["deeper"], bench.units))
        return
    on = touching(at, post)
    if on is None:
        _apart(bench, values, rail, post, at)
        return
    end = at.guest_face(Face(on.axis, 1 - on.side))
    if end.axis != 0:
        message = f"{rail.path} touches {post.path} with its {rail.word(end)}, which is no end of its length"
        bench.fault(values, "end", "tenon-not-an-end", message, "the end of a rail against the post")
        return
    tenon = sized(values, rail, post, on, bench.units)
    if not _shouldered(bench, values, rail, tenon):
        return
    hole = mortise(at, on, tenon, rounded=values["rounded"])
    if not _closed(bench, values, post, hole):
        return
    haunches = {rail.face(word): long for word, long in (values["haunch"] or {}).items()}
    hole = haunched(at, hole, haunches, usual(DEEPER, values["deeper"], bench.units))
    if values["wedges"] is not None:
        hole = flared(at, hole, post, values["wedges"]["by"])
    a = bench.add(post.path, hole, title=f"mortise for {rail.path}")
    made = [(post.path, a.name)]
    left = Tongue(
        end,
        *tenon.thickness,
        tenon.length,
        tenon.fat,
        tenon.width[0],
        rail.size[1] - tenon.width[1],
        label="tenon",
        reason="tenon for its mortise",
        beside="shoulder",
        mate="mortise",
        haunch_low=haunches.get(Face(1, 0), 0),
        haunch_high=haunches.get(Face(1, 1), 0),
        rounded=values["rounded"],
    )
    b = bench.add(rail.path, left, title=f"tenon into {post.path}")
    made.append((rail.path, b.name))
    set_in: tuple[Loose, ...] = ()
    if values["wedges"] is not None:
        name, set_in = wedge(bench, values, rail, made[0], (end, tenon.width, tenon.thickness), tenon.length)
        made.append((rail.path, name))
    bench.joint(replace(_joint(values, rail, post, tenon, tuple(made)), loose=set_in))


def _sound(bench: Bench, values: Bound, rail: Part) -> bool:
    """Tell whether the statement can be carried out: blind or through, faces where they can be."""
    if (values["length"] is None) != bool(values["through"]):
        message = "a tenon is either blind, with a length, or through"
        bench.fault(values, "length", "tenon-blind-or-through", message, "length: 1 1/4, or through: yes")
        return False
    if values["wedges"] is not None and not values["through"]:
        bench.fault(
            values, "wedges", "wedges-blind", "wedges spread a through tenon, this one is blind", "through: yes"
        )
        return False
    for word in values["haunch"] or ():
        if word not in (values["shoulder"] or ()):
            message = f"a haunch stands beside the tenon, and the {word} of {rail.path} has no shoulder"
            bench.fault(values, "haunch", "haunch-range", message, f"a shoulder there: {word}")
            return False
    for word in values["shoulder"] or ():
        if rail.face(word).axis != 1:
            edges = " or ".join(rail.word(Face(1, side)) for side in (0, 1))
            message = f"{word} is not an edge of {rail.path}: the cheeks' shoulders come from the thickness"
            bench.fault(values, "shoulder", "shoulder-face", message, edges)
            return False
    if values["flush"] is not None and rail.face(values["flush"]).axis != 2:
        faces = " or ".join(rail.word(Face(2, side)) for side in (0, 1))
        bench.fault(values, "flush", "flush-face", f"the tenon has no cheek toward its {values['flush']}", faces)
        return False
    return True


def _shouldered(bench: Bench, values: Bound, rail: Part, tenon: Sized) -> bool:
    """Tell whether at least one shoulder stops the rail and something is left between them; else say so."""
    low, high = tenon.width
    if high <= low:
        message = f"the shoulders leave nothing of {figure(rail.size[1])}"
        fault(values, "shoulder", "tenon-too-narrow", message, "narrower shoulders", on=bench)
        return False
    cheeks = tenon.thickness[1] - tenon.thickness[0]
    if cheeks > rail.size[2]:
        message = f"a tenon {figure(cheeks)} thick does not come out of {figure(rail.size[2])}"
        fault(values, "thickness", "tenon-too-thick", message, "a tenon thinner than the rail", on=bench)
        return False
    if cheeks >= rail.size[2] and high - low >= rail.size[1]:
        message = f"the whole end of {rail.path} enters: no shoulder stops it and none hides the mortise's edge"
        bench.fault(values, "thickness", "tenon-no-shoulder", message, "a thinner tenon, a shoulder, or a housing")
        return False
    return True


def _closed(bench: Bench, values: Bound, post: Part, hole: Mortise) -> bool:
    """Tell whether the mortise has a wall on all four sides; one that runs out of the post is left to the operation."""
    for i, c in zip(in_plane(hole.face), hole.centre, strict=True):
        half = (hole.length if i == hole.along else hole.width) / 2
        free: tuple[Number, Number] = (c - half, post.size[i] - c - half)
        for side in (0, 1):
            if abs(float(free[side])) <= NEAR:
                word = post.word(Face(i, side))
                message = f"the mortise is open toward the {word} of {post.path}: there is no wood beyond it"
                bench.fault(values, "shoulder", "mortise-open", message, f"a shoulder toward the {word}")
                return False
    return True


def _apart(bench: Bench, values: Bound, rail: Part, post: Part, at: Seen) -> None:
    gap = distance(at, post)
    apart = figure(settled(abs(gap)))
    how = f"stands {apart} away from" if gap > NEAR else f"reaches {apart} into" if gap < -NEAR else "only meets"
    message = f"{rail.path} {how} {post.path}: its end does not touch a face of that part"
    fault(values, "end", "parts-do-not-meet", message, "an end that touches: the joint adds the tenon", on=bench)


def _joint(values: Bound, rail: Part, post: Part, tenon: Sized, made: tuple[tuple[str, str], ...]) -> Joint:
    figures: list[tuple[str, Number, str]] = [
        ("tenon thickness", tenon.thickness[1] - tenon.thickness[0], "length"),
        ("tenon width", tenon.width[1] - tenon.width[0], "length"),
        ("tenon length", tenon.length, "length"),
        ("fat", tenon.fat, "length"),
    ]
    if tenon.depth is not None:
        figures.append(("mortise depth", tenon.depth, "length"))
    return Joint(
        "mortise and tenon",
        f"{rail.path} tenoned into {post.path}",
        (rail.path, post.path),
        made,
        tuple(figures),
        Origin(values.span, values.because),
        holds=True,
    )


WORD = Word(
    name="mortise and tenon",
    room="joint",
    help="the end of a rail, thinned to a tenon, enters a mortise in a post; a rail that leans to it gets slanted shoulders",
    fields=(
        Field(
            "end",
            PartName(),
            "the rail, whose ends touch the posts; one that leans reaches them with every corner and is cut",
            required=True,
        ),
        Field(
            "into", Many(PartName()), "the post, or the posts at both ends, in which mortises are cut", required=True
        ),
        Field("thickness", Length(above=0), "of the tenon; absent: as thick as the rail, with no cheeks cut"),
        Field("flush", FaceWord(), "the rail's face that a bare-faced tenon is flush with; absent: centred"),
        Field("shoulder", ByFace(Length(above=0)), "width of the shoulder at that edge of the rail"),
        Field("length", Length(above=0), "of a blind tenon, beyond the shoulders"),
        Field("through", Flag(), "the tenon goes through the post and ends flush", default="no"),
        Field("haunch", ByFace(Length(above=0)), "length of a haunch left beside the tenon at that shoulder"),
        Field("rounded", Flag(), "edges half round, for a mortise left as the router cuts it", default="no"),
        Field("wedges", Nested(WEDGES), "two wedges spread a through tenon across its width"),
        Field("deeper", Length(least=0), "how much deeper a blind mortise is; absent: 1/16 in or 1.5 mm"),
        Field("fat", Length(least=0), "left on the cheeks until the tenon is fitted; absent: 1/64 in or 0.5 mm"),
    ),
    example="mortise and tenon: {end: rail, into: [left leg, right leg], thickness: 3/8, shoulder: {top: 1/2}, length: 1}",
    build=build,
)
