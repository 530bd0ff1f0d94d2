"""Pivot: a bolt is locked in one part and turns in a sleeve in another; what is beyond it swings about it."""

from __future__ import annotations

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.hardware import Fitting
from docgen.piece.joints.bolted import BOLT, Hardware, figures, hardware, tapped_hole
from docgen.piece.joints.bolting import Screwing, work_out
from docgen.piece.joints.fastening import AXES, milled
from docgen.piece.joints.fitting import rings
from docgen.piece.joints.meeting import facing, holds, in_plane, moved, on_face, outward
from docgen.piece.joints.telling import fault
from docgen.piece.model import FACE_WORDS, Fastener, Group, Item, Joint, Part, Sets
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Authority, Face, Origin, Purpose
from docgen.project.fields import (
    Angle,
    Choice,
    Count,
    FaceWord,
    Field,
    Length,
    Many,
    Nested,
    PartName,
    Place,
    Word,
    Words,
)
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.trade.fasteners import head
from docgen.trade.names import UnknownName
from docgen.units import Number, plain_length

LOCK = "thread lock"
LOCK_NOTE = (
    "a drop in each tapped thread and none in the sleeve, once the whole swing is tried dry: hard before anything hangs on the bolts; "
    "a compound whose maker allows it for metal in wood, or epoxy: those for metal on metal may never set in wood; a jam nut instead "
    "where the bolt comes out behind"
)
"""What keeps a bolt from unscrewing as the part turns about it. Common practice; the compound's label rules."""


def build(bench: Bench, values: Bound) -> None:
    """Bore for the sleeves, tap for the bolts, note bolts, sleeves and the group that swings."""
    held, tapped = values["sleeve in"], values["bolt in"]
    if len(held) != len(tapped):
        bench.fault(values, "bolt in", "pairs-differ", f"{len(held)} sleeves and {len(tapped)} bolts", "one for each")
        return
    bolt = hardware(bench, values)
    if bolt is None:
        return
    name = bench.next_name()
    points = [_pair(bench, values, bolt, name, bench.part(a), bench.part(b)) for a, b in zip(held, tapped, strict=True)]
    found = [p for p in points if p is not None]
    if found:
        _buy(bench, values, bolt, name, tuple(bench.part(p) for p in held), len(found))
    if values["swings"] is not None and found:
        _swing(bench, values["swings"], found[0])


def _buy(bench: Bench, values: Bound, bolt: Hardware, name: str, held: tuple[Part, ...], count: int) -> None:
    """Note sleeves and washers with their sizes; a sleeve whose length is not said is as long as the wood is thick."""
    sleeve, origin, units = values["sleeve"], Origin(values.span, values.because), bench.units
    inner = facing(held[0], bench.part(values["bolt in"][0]), float(values["spacer"]))[0][0]
    long = held[0].size[inner.axis] if sleeve["length"] is None else sleeve["length"]
    told = [plain_length(v, units) for v in (sleeve["inside"], sleeve["outside"], long)]
    size = f"{told[0]} inside × {told[1]} outside × {told[2]} {units.sign} long"
    bench.item(
        Item(
            what="sleeve (plain bearing)",
            count=count,
            size=f"{size}, {sleeve['size']}" if sleeve["size"] else size,
            note="pressed into its bore, its ends level with the wood or a hair inside; the bolt turns in it",
            origin=origin,
            where=f"{name}: {', '.join(p.path for p in held)}",
        )
    )
    wide, thick = (plain_length(v, units) for v in (head("washer", bolt.thread.size)[0], values["spacer"]))
    washer = f"for {bolt.thread.size}, {wide} across × {thick} {units.sign} thick"
    note = "between the parts; its thickness is the gap between them"
    bench.item(
        Item(
            "washer, low friction",
            count,
            values["spacer size"] or washer,
            note=note,
            origin=origin,
            where=name,
            sets=Sets.BOLTED,
        )
    )
    bench.item(Item(LOCK, 1, "", Authority.CUT, LOCK_NOTE, origin=origin, where=name, sets=Sets.BOLTED))


def _pair(bench: Bench, values: Bound, bolt: Hardware, name: str, held: Part, tapped: Part) -> Vec | None:
    """Make one pivot; return the place where its axis enters the tapped part."""
    place = {AXES.index(k): v for k, v in values["at"].items()}
    spacer = values["spacer"]
    pairs = facing(held, tapped, float(spacer))
    for inner, against in pairs:
        point = in_plane(held, inner, place) if len(place) == 2 else None
        if point is None:
            continue
        beyond = moved(point, held.frame.direction(outward(inner)), float(spacer))
        if holds(held, inner, point) and holds(tapped, against, beyond):
            _make(bench, values, bolt, name, (held, inner), (tapped, against), (point, beyond))
            return beyond
    if pairs:
        message = f"that place does not lie on both {held.path} and {tapped.path}"
        bench.fault(values, "at", "pivot-misses", message, "a place on both parts, by two directions")
    else:
        message = f"no faces of {held.path} and {tapped.path} look at each other {figure(spacer)} apart"
        fault(values, "spacer", "pivot-misses", message, "faces that are a spacer apart", on=bench)
    return None


def _make(
    bench: Bench,
    values: Bound,
    bolt: Hardware,
    name: str,
    held: tuple[Part, Face],
    tapped: tuple[Part, Face],
    points: tuple[Vec, Vec],
) -> None:
    (one, inner), (two, against) = held, tapped
    thick, sleeve = one.size[inner.axis], values["sleeve"]
    work = work_out(
        bolt.thread,
        grip=thick + values["spacer"],
        washer=bolt.washer[1],
        tapped=two.size[against.axis],
        wanted=values["engagement"],
        through=not values["blind"],
        length=values["length"],
    )
    mouth = Face(inner.axis, 1 - inner.side)
    bore = Hole(
        face=mouth,
        points=(on_face(one, mouth, points[0]),),
        diameter=sleeve["outside"],
        purpose=Purpose.BORE,
        name=name,
        drill=nearest(sleeve["outside"]).name,
        fastener=name,
        mate=two.path,
        note="bore for the sleeve: a press fit, test piece first",
        label="bore for the sleeve",
    )
    a = bench.add(one.path, bore, title=f"bore for the pivot's sleeve {name}")
    tap = tapped_hole(bolt.thread, work, name, two, against, (points[1],), one.path)
    b = bench.add(two.path, tap, title=f"tapped hole {name} for the pivot")
    way = one.frame.direction(outward(inner))
    origin = Origin(values.span, values.because)
    bench.fastener(
        _fastener(
            bolt, work, name, (one, two), moved(points[0], way, -float(thick)), way, two.size[against.axis], origin
        )
    )
    bench.joint(
        Joint(
            "pivot",
            f"{two.path} turns in {one.path}",
            (one.path, two.path),
            ((one.path, a.name), (two.path, b.name)),
            (("spacer", values["spacer"], "length"), ("sleeve outside", sleeve["outside"], "length"), *figures(work)),
            origin,
            fittings=_sleeved(values, bolt, (one, two), inner, points[0]),
        )
    )


def _sleeved(values: Bound, bolt: Hardware, parts: tuple[Part, Part], inner: Face, at: Vec) -> tuple[Fitting, ...]:
    """Return the sleeve in its bore and the washer between the parts, about the axis at the face that they share."""
    (one, two), sleeve = parts, values["sleeve"]
    long = one.size[inner.axis] if sleeve["length"] is None else sleeve["length"]
    try:
        wide: Number = head("washer", bolt.thread.size)[0]
    except UnknownName:
        wide = 0
    return rings(
        at,
        one.frame.direction(outward(inner)),
        (
            ("sleeve", sleeve["inside"], sleeve["outside"], -long, 0, (one.path,)),
            ("washer", bolt.thread.major, wide, 0, values["spacer"], (one.path, two.path)),
        ),
    )


def _fastener(
    bolt: Hardware,
    work: Screwing,
    name: str,
    parts: tuple[Part, Part],
    head: Vec,
    way: Vec,
    wood: Number,
    origin: Origin,
) -> Fastener:
    return Fastener(
        key=name,
        what=f"pivot bolt, {bolt.kind}",
        thread=bolt.thread.designation,
        length=work.length,
        count=1,
        washer=bolt.washer[1],
        head=bolt.outside,
        grip=work.grip,
        engagement=work.engagement,
        tapped_depth=work.full_threads,
        drill_depth=wood if work.drilled is None else work.drilled,
        wood_behind=work.behind,
        points=(head,),
        direction=way,
        parts=(parts[0].path, parts[1].path),
        depends=milled(*parts),
        notes=("locked in its thread with the thread lock of this list; it turns in the sleeve",),
        origin=origin,
    )


def _swing(bench: Bench, swings: Bound, point: Vec) -> None:
    """Note the group; angles are right-handed about the axis, so lifting the low side is negative across."""
    axis = AXES.index(swings["about"])
    lifted, high = FACE_WORDS[swings["lifts"]]
    # Right-handed about `axis`, the axis after the next one moves: about across, + takes back (deep) up.
    positive = (lifted == (axis + 1) % 3) == bool(high)
    angle, stay = swings["angle"], swings["stay"]
    if stay is not None:
        note = (
            "read its own sheet before anything is drilled: what it holds, how thick it folds, where it is screwed on"
        )
        origin = Origin(swings.span, swings.because)
        bench.item(Item(stay["kind"], stay["count"], note=note, origin=origin, where=swings["name"]))
    bench.group(
        Group(
            name=swings["name"],
            parts=tuple(swings["parts"]),
            point=point,
            axis=axis,
            range=(0, angle) if positive else (-angle, 0),
            stays=(0, "") if stay is None else (stay["count"], stay["kind"]),
        )
    )


SLEEVE = (
    Field("outside", Length(above=0), "diameter of its bore in the wood", required=True),
    Field("inside", Length(above=0), "diameter in which the bolt turns", required=True),
    Field("length", Length(above=0), "of the sleeve; absent: the wood's thickness"),
    Field("size", Words(), "what it is made of, or how it is bought"),
)

STAY = (
    Field("kind", Words(), "what is bought, with what has to be true of it", required=True),
    Field("count", Count(), "how many", default="2"),
)

SWINGS = (
    Field("name", Words(), "of the group", required=True),
    Field("parts", Many(PartName()), "what swings", required=True),
    Field("angle", Angle(least=0, most=180), "as far as it swings from rest", required=True),
    Field("lifts", FaceWord(), "the side that rises", required=True),
    Field("about", Choice(AXES), "the axis", default="across"),
    Field("stay", Nested(STAY), "bought stays that hold it where it is put, in place of friction in the pivots"),
)

WORD = Word(
    name="pivot",
    room="joint",
    help="a bolt is locked in tapped wood of one part and turns in a sleeve in another, a spacer between them",
    fields=(
        Field("sleeve in", Many(PartName()), "the part with the sleeve, or several", required=True),
        Field("bolt in", Many(PartName()), "the part that is tapped, one for each of those", required=True),
        Field("at", Place(), "place of the axis, by two directions of the piece", required=True),
        Field("sleeve", Nested(SLEEVE), "the sleeve, from its own sheet", required=True),
        Field("spacer", Length(least=0), "thickness of the washer between the parts", required=True),
        Field(
            "spacer size", Words(), "the washer as it is bought; absent: the standard washer's width at that thickness"
        ),
        Field("swings", Nested(SWINGS), "what turns about it, and how far"),
        *BOLT,
    ),
    example="""\
pivot:
  sleeve in: [left cheek, right cheek]
  bolt in: [frame.left, frame.right]
  at: {deep: 16 1/2, up: 29 3/16}
  thread: 1/4-20 UNC
  sleeve: {outside: 3/8, inside: 1/4}
  spacer: 1/16
  swings: {name: easel, parts: [frame.left, frame.right], angle: 55 deg, lifts: front}
""",
    build=build,
)
