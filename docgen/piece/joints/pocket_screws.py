"""Pocket screws: screws in slanting pockets of one part's broad face, out of its end or edge into another part."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import cos, radians, sin

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.fastening import milled
from docgen.piece.joints.meeting import facing, holds, outward
from docgen.piece.joints.telling import fault
from docgen.piece.model import Fastener, Joint, Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import in_plane, inside, level, settled, spot, third
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Authority, Face, Origin, Purpose, Sink
from docgen.project.fields import Angle, Count, FaceWord, Field, Length, Many, Nested, PartName, Place, Word
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.trade.pockets import Pocket, pocket
from docgen.units import Number, plain_length


def build(bench: Bench, values: Bound) -> None:
    """Bore the pockets, work out what of the screws is in the other part, and note the screws."""
    held, other = bench.part(values["through"]), bench.part(values["into"])
    face = held.face(values["face"])
    ends = [(e, f) for e, f in facing(held, other) if e.axis != face.axis]
    if not ends:
        message = f"no end or edge of {held.path} beside its {values['face']} lies on a face of {other.path}"
        bench.fault(values, "into", "parts-do-not-meet", message, "an end or an edge that touches the other part")
        return
    end, against = ends[0]
    jig = values["jig"]
    leaves = _leaves(values, held, face)
    work = pocket(leaves=leaves, angle=jig["angle"], shoulder=jig["shoulder"], length=values["length"])
    places = _places(bench, values, held, (face, end), (other, against), leaves)
    if places is None or not _sound(bench, values, work, other, against):
        return
    name = bench.next_name()
    hole = _hole(held, face, end, places, values, work, name)
    hole = _told(hole, values, bench)
    a = bench.add(held.path, hole, title=f"pockets {name}")
    _note(bench, values, name, held, other, (face, end), places, work, a.name)


def _leaves(values: Bound, held: Part, face: Face) -> Number:
    """Return how far under the face the screws leave the end."""
    return held.size[face.axis] / Fraction(2) if values["leaves"] is None else values["leaves"]


def _tip(held: Part, on: tuple[Face, Face], place: Number, leaves: Number) -> Vec:
    """Return the point of the piece at which a screw leaves the end."""
    face, end = on
    tip = {third(face.axis, end.axis): place, face.axis: inside(held, face, leaves), end.axis: level(held, end)}
    return held.frame.point(spot(tip))


def _places(
    bench: Bench,
    values: Bound,
    held: Part,
    on: tuple[Face, Face],
    other: tuple[Part, Face],
    leaves: Number,
) -> tuple[Number, ...] | None:
    """Return where the pockets stand along the end, on the axis that lies in both faces; None when one misses."""
    face, end = on
    along = third(face.axis, end.axis)
    found: list[Number] = []
    for place in values["at"]:
        run = [c for word, v in place.items() for c in [saying.coordinate(held, saying.DIRECTIONS.index(word), v)]]
        here = [v for i, v in run if i == along]
        if len(run) != 1 or not here:
            wanted = next(w for i, w in enumerate(saying.DIRECTIONS) if saying.part_axis(held, i) == along)
            message = f"the pockets of {held.path} stand side by side {wanted}"
            bench.fault(values, "at", "pocket-place", message, f"one direction each: {{{wanted}: 2}}")
            return None
        point = _tip(held, on, here[0], leaves)
        if not (holds(held, end, point) and holds(*other, point)):
            message = f"a pocket screw leaves {held.path} beside {other[0].path}"
            bench.fault(values, "at", "screw-beside-part", message, "places on both parts")
            return None
        found.append(here[0])
    return tuple(found)


def _sound(bench: Bench, values: Bound, work: Pocket, other: Part, against: Face) -> bool:
    """Tell whether the pocket has a bottom, and the screw holds and stays inside; else say what is wrong."""
    if work.bore <= 0:
        message = f"{figure(values['jig']['shoulder'])} of wood under the head is more than the pocket is long"
        fault(values, "jig", "pocket-shallow", message, "the figures of the jig's own sheet", on=bench)
        return False
    if work.engagement <= 0:
        message = f"a screw of {figure(values['length'])} ends before it reaches {other.path}"
        fault(values, "length", "screw-too-short", message, "a longer screw", on=bench)
        return False
    thick = other.size[against.axis]
    if work.straight >= float(thick):
        message = f"a screw of {figure(values['length'])} comes out of {other.path}, {figure(thick)} thick there"
        fault(values, "length", "pocket-through", message, "a shorter screw", on=bench)
        return False
    return True


def _hole(
    held: Part, face: Face, end: Face, places: tuple[Number, ...], values: Bound, work: Pocket, name: str
) -> Hole:
    """Return the pockets: a narrow hole through to the end, widened from the face down to the head's seat."""
    u, _ = in_plane(face)
    mouth = settled(float(inside(held, end, 0)) + (-work.mouth if end.side else work.mouth))
    lean = (90 - values["jig"]["angle"]) * (1 if end.side else -1)
    first = end.axis == u
    return Hole(
        face=face,
        points=tuple((mouth, p) if first else (p, mouth) for p in places),
        diameter=values["jig"]["pilot"],
        purpose=Purpose.CLEARANCE,
        name=name,
        sink=Sink(values["jig"]["bore"], settled(work.bore)),
        fastener=name,
        authority=Authority.HARDWARE,
        leans=(lean, 0) if first else (0, lean),
        label="pocket",
        reach=settled(work.run),
    )


def _told(hole: Hole, values: Bound, bench: Bench) -> Hole:
    """Return the pockets with the drill and the jig's figures told in words."""
    units = bench.units
    jig = values["jig"]
    bore, left = (plain_length(jig[k], units) for k in ("bore", "shoulder"))
    note = (
        f"pocket jig with its stepped bit {bore}, {float(jig['angle']):g}° to the face, collar so that {left} {units.sign} "
        "is left under the head: the jig's own sheet rules"
    )
    drill = nearest(jig["pilot"])
    near = abs(float(drill.diameter - jig["pilot"])) < 0.005
    return replace(hole, drill=drill.name if near else "", note=note)


def _note(
    bench: Bench,
    values: Bound,
    name: str,
    held: Part,
    other: Part,
    on: tuple[Face, Face],
    places: tuple[Number, ...],
    work: Pocket,
    feature: str,
) -> None:
    face, end = on
    lean = float(values["jig"]["angle"])
    out, into = held.frame.direction(outward(end)), held.frame.direction(outward(face))
    way = tuple(out[i] * cos(radians(lean)) - into[i] * sin(radians(lean)) for i in range(3))
    back = float(values["jig"]["shoulder"])
    heads = []
    for p in places:
        tip = _tip(held, on, p, _leaves(values, held, face))
        heads.append(tuple(tip[i] - way[i] * back for i in range(3)))
    origin = Origin(values.span, values.because)
    bench.fastener(
        Fastener(
            key=name,
            what="pocket screw, washer head, self-drilling",
            thread=f"No. {values['gauge']}",
            length=values["length"],
            count=len(places),
            grip=values["jig"]["shoulder"],
            engagement=settled(work.engagement),
            points=tuple((h[0], h[1], h[2]) for h in heads),
            direction=(way[0], way[1], way[2]),
            parts=(held.path, other.path),
            depends=milled(held, other),
            notes=("coarse thread for softwood and sheet, fine for hardwood, as the jig's sheet says",),
            origin=origin,
        )
    )
    figures: tuple[tuple[str, Number, str], ...] = (
        ("mouth from the end, on the face", settled(work.mouth), "length"),
        ("bore along the drill", settled(work.bore), "length"),
        ("engagement", settled(work.engagement), "length"),
        ("square into the other part", settled(work.straight), "length"),
    )
    title = f"{held.path} held to {other.path} by pocket screws"
    bench.joint(Joint("pocket screws", title, (held.path, other.path), ((held.path, feature),), figures, origin))


JIG = (
    Field("angle", Angle(least=10, most=45), "of the pockets from the face", default="15 deg"),
    Field("bore", Length(above=0), "diameter of the pocket", required=True),
    Field("pilot", Length(above=0), "diameter of the hole that the stepped bit leads with", required=True),
    Field(
        "shoulder", Length(above=0), "wood left under the head, along the screw: the collar's setting", required=True
    ),
)

WORD = Word(
    name="pocket screws",
    room="joint",
    help="screws in slanting pockets, out of the end or edge of one part into another; the jig's own sheet gives the figures",
    fields=(
        Field("through", PartName(), "the part with the pockets; its end or edge touches the other one", required=True),
        Field("into", PartName(), "the part that holds the screws", required=True),
        Field("face", FaceWord(), "the broad face in which the pockets are bored", required=True),
        Field("at", Many(Place()), "where each stands along the end, by one direction of the piece", required=True),
        Field("length", Length(above=0), "of the screws, as bought", required=True),
        Field("gauge", Count(least=0), "number of the screw: 7 for No. 7", default="8"),
        Field("jig", Nested(JIG), "the figures of the pocket jig's own sheet", required=True),
        Field(
            "leaves", Length(above=0), "how far under that face the screw leaves the end; absent: half the thickness"
        ),
    ),
    example="pocket screws: {through: rail, into: stile, face: back, at: [{up: 3}, {up: 5}], length: 1 1/4, jig: {bore: 3/8, pilot: 9/64, shoulder: 1/2}}",
    build=build,
)
