"""Cross dowel: a bolt goes through one part into the end of another, to a barrel nut bored in crosswise."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.bolted import Hardware, clearance_hole, hardware
from docgen.piece.joints.fastening import places
from docgen.piece.joints.knockdown import BOLT, PAIR, fastener, figures, holds, stock
from docgen.piece.joints.meeting import on_face
from docgen.piece.joints.telling import fault
from docgen.piece.model import Item, Joint, Part
from docgen.piece.operations.ground import in_plane
from docgen.piece.operations.hole import Hole, On
from docgen.piece.records import Authority, Face, Origin, Purpose
from docgen.project.fields import FaceWord, Field, Length, Nested, Word
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.trade.knockdown import Bolting, cross_dowel
from docgen.units import Number, plain_length

LEAST = 3
"""mm of wood to leave behind the dowel's bore. Common practice."""


def build(bench: Bench, values: Bound) -> None:
    """Bore both parts, work out the bolts, and note bolts and dowels."""
    bolt = hardware(bench, values)
    held, other = bench.part(values["through"]), bench.part(values["into"])
    found = places(bench, values, held, other)
    if bolt is None or found is None:
        return
    (inner, end), points = found
    face = other.face(values["face"])
    if face.axis == end.axis:
        faces = ", ".join(other.word(Face(i, s)) for i in in_plane(end) for s in (0, 1))
        message = f"the dowel is bored in crosswise to the bolt, not from the {values['face']}"
        bench.fault(values, "face", "dowel-face", message, faces)
        return
    said = values["dowel"]
    work = cross_dowel(
        washer=bolt.washer[1],
        grip=held.size[inner.axis],
        set_back=values["set back"],
        dowel=said["diameter"],
        pitch=bolt.thread.pitch,
        stock=stock(values, bolt),
    )
    mouths = tuple(on_face(other, end, p) for p in points)
    deep = _depth(bench, values, other, (face, end), mouths[0])
    if deep is None or not holds(bench, values, bolt, work, "dowel"):
        return
    name, nut = bench.next_name(), bench.next_name()
    mouth = Face(inner.axis, 1 - inner.side)
    a = bench.add(
        held.path, clearance_hole(bolt, name, held, mouth, points, other.path), title=f"clearance holes {name}"
    )
    long = _bolt_hole(bolt, work, name, held.path, end, mouths)
    b = bench.add(other.path, long, title=f"bores for bolts {name}")
    cross = _dowel_hole(values, (nut, name), other, (face, end), mouths, deep)
    c = bench.add(other.path, cross, title=f"bores for cross dowels {nut}")
    origin = Origin(values.span, values.because)
    metal = (said["diameter"], "cross dowel", values["set back"] - said["diameter"] / 2)
    bench.fastener(fastener(bench, bolt, work, name, (held, other), inner, points, metal, origin))
    size = " × ".join(plain_length(v, bench.units) for v in (said["diameter"], said["length"])) + f" {bench.units.sign}"
    what, note = f"cross dowel (barrel nut) {bolt.thread.designation}", "turn its slot into line with the bolt"
    bench.item(Item(what, len(points), size, note=note, origin=origin, where=f"{nut}: {other.path}"))
    made = ((held.path, a.name), (other.path, b.name), (other.path, c.name))
    title = f"{held.path} bolted to cross dowels in {other.path}"
    told = (*figures(work), ("dowel from the end", values["set back"], "length"), ("depth of its bore", deep, "length"))
    bench.joint(Joint("cross dowel", title, (held.path, other.path), made, told, origin))


def _under(other: Part, face: Face, end: Face, mouth: On) -> Number:
    """Return how far the bolt's axis lies under the face from which the dowel is bored in."""
    at = dict(zip(in_plane(end), mouth, strict=True))[face.axis]
    return other.size[face.axis] - at if face.side else at


def _depth(bench: Bench, values: Bound, other: Part, on: tuple[Face, Face], mouth: On) -> Number | None:
    """Return how deep the dowel's bore is, so that its thread lies on the bolt's axis; None when it cannot."""
    said, under = values["dowel"], _under(other, *on, mouth)
    seat = said["length"] / 2 if said["seat"] is None else said["seat"]
    if seat > under:
        message = (
            f"the dowel stands out: its thread is {figure(seat)} from its end, the bolt {figure(under)} under the face"
        )
        fault(values, "dowel", "dowel-stands-out", message, "bolts further in, or a shorter dowel", on=bench)
        return None
    deep: Number = under + said["length"] - seat
    left = other.size[on[0].axis] - deep
    if left < LEAST:
        message = f"the dowel's bore leaves {figure(left)} of {other.path} behind it"
        fault(
            values, "dowel", "dowel-breaks-through", message, "bolts nearer to that face, or a shorter dowel", on=bench
        )
        return None
    return deep


def _bolt_hole(bolt: Hardware, work: Bolting, name: str, mate: str, end: Face, mouths: tuple[On, ...]) -> Hole:
    return Hole(
        face=end,
        points=mouths,
        diameter=bolt.hole.diameter,
        depth=work.bore,
        purpose=Purpose.CLEARANCE,
        name=name,
        drill=bolt.hole.name,
        fastener=name,
        mate=mate,
        authority=Authority.MATE,
        note=f"mark through {mate}",
        label="bore for the bolt",
    )


def _dowel_hole(
    values: Bound, names: tuple[str, str], other: Part, on: tuple[Face, Face], mouths: tuple[On, ...], deep: Number
) -> Hole:
    """Return the crosswise bores: on the bolts' lines, so far from the end."""
    face, end = on
    back = values["set back"]
    along = other.size[end.axis] - back if end.side else back
    u, v = in_plane(face)
    spots = []
    for mouth in mouths:
        at = dict(zip(in_plane(end), mouth, strict=True)) | {end.axis: along}
        spots.append((at[u], at[v]))
    wide = values["dowel"]["diameter"]
    return Hole(
        face=face,
        points=tuple(dict.fromkeys(spots)),
        diameter=wide,
        depth=deep,
        purpose=Purpose.BORE,
        name=names[0],
        meets=names[1],
        drill=nearest(wide).name if abs(float(nearest(wide).diameter - wide)) < 0.005 else "",
        authority=Authority.HARDWARE,
        note="flat-bottomed bit; the dowel's own sheet rules",
        tip=180,
        label="bore for the cross dowel",
    )


DOWEL = (
    Field("diameter", Length(above=0), "of the dowel and its bore", required=True),
    Field("length", Length(above=0), "of the dowel", required=True),
    Field("seat", Length(above=0), "from its slotted end to the middle of its thread; absent: half its length"),
)

WORD = Word(
    name="cross dowel",
    room="joint",
    help="bolts through one part into the end of another, to cross dowels (barrel nuts); sizes from the hardware's own sheet",
    fields=(
        *PAIR,
        Field("face", FaceWord(), "the face of that part from which the dowels are bored in", required=True),
        Field("set back", Length(above=0), "from the end to the dowel's middle", required=True),
        Field("dowel", Nested(DOWEL), "the cross dowel, from its own sheet", required=True),
        *BOLT,
    ),
    example="cross dowel: {through: side, into: rail, at: [{deep: 2, up: 12}], face: back, set back: 1 1/4, dowel: {diameter: 10 mm, length: 14 mm}, thread: M6}",
    build=build,
)
