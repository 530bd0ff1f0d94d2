"""Insert: a bolt goes through one part into a threaded insert in the face of another."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.bolted import clearance_hole, hardware
from docgen.piece.joints.fastening import places
from docgen.piece.joints.knockdown import BOLT, PAIR, fastener, figures, holds, stock
from docgen.piece.joints.meeting import on_face
from docgen.piece.joints.telling import fault
from docgen.piece.model import Item, Joint
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Authority, Face, Origin, Purpose
from docgen.project.fields import Field, Length, Nested, Word
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.trade.knockdown import insert
from docgen.units import plain_length

LEAST = 3
"""mm of wood to leave behind the insert's bore. Common practice."""


def build(bench: Bench, values: Bound) -> None:
    """Bore both parts, work out the bolts, and note bolts and inserts."""
    bolt = hardware(bench, values)
    held, other = bench.part(values["through"]), bench.part(values["into"])
    found = places(bench, values, held, other)
    if bolt is None or found is None:
        return
    (inner, against), points = found
    said = values["insert"]
    work = insert(
        washer=bolt.washer[1],
        grip=held.size[inner.axis],
        length=said["length"],
        under=said["under"],
        pitch=bolt.thread.pitch,
        stock=stock(values, bolt),
        most=other.size[against.axis] - LEAST,
        bore=said["depth"],
    )
    if not holds(bench, values, bolt, work, "insert"):
        return
    left = other.size[against.axis] - work.bore
    if left < LEAST:
        message = f"the bore for the insert, {figure(work.bore)} deep, leaves {figure(left)} of {other.path}"
        fault(values, "insert", "insert-breaks-through", message, "a shorter insert, or thicker wood", on=bench)
        return
    name = bench.next_name()
    mouth = Face(inner.axis, 1 - inner.side)
    a = bench.add(
        held.path, clearance_hole(bolt, name, held, mouth, points, other.path), title=f"clearance holes {name}"
    )
    drill = nearest(said["bore"])
    bore = Hole(
        face=against,
        points=tuple(on_face(other, against, p) for p in points),
        diameter=said["bore"],
        depth=work.bore,
        purpose=Purpose.BORE,
        name=name,
        drill=drill.name if abs(float(drill.diameter - said["bore"])) < 0.005 else "",
        fastener=name,
        mate=held.path,
        authority=Authority.HARDWARE,
        note="for the insert: its own sheet rules, test piece first",
        label="bore for the insert",
    )
    b = bench.add(other.path, bore, title=f"bores for inserts {name}")
    origin = Origin(values.span, values.because)
    metal = (said["length"], "insert", said["under"])
    bench.fastener(fastener(bench, bolt, work, name, (held, other), inner, points, metal, origin))
    long, wide = (plain_length(said[k], bench.units) for k in ("length", "bore"))
    size = f"{long} {bench.units.sign} long, in bores of {wide}"
    note = "driven square, flush or a little under the face; wax or glue as its sheet says"
    what = f"threaded insert {bolt.thread.designation}"
    bench.item(Item(what, len(points), size, note=note, origin=origin, where=f"{name}: {other.path}"))
    title = f"{held.path} bolted to inserts in {other.path}"
    made = ((held.path, a.name), (other.path, b.name))
    bench.joint(Joint("insert", title, (held.path, other.path), made, figures(work), origin))


INSERT = (
    Field("bore", Length(above=0), "diameter of its bore in this wood", required=True),
    Field("length", Length(above=0), "of the insert", required=True),
    Field("under", Length(least=0), "how far under the face it is driven", default="0"),
    Field("depth", Length(above=0), "of the bore; absent: two pitches deeper than insert and bolt reach"),
)

WORD = Word(
    name="insert",
    room="joint",
    help="bolts through one part into threaded inserts in the face of another; sizes from the insert's own sheet",
    fields=(*PAIR, Field("insert", Nested(INSERT), "the insert, from its own sheet", required=True), *BOLT),
    example="insert: {through: cleat, into: top, at: [{across: 8, deep: 4}], insert: {bore: 3/8, length: 1/2}, thread: 1/4-20 UNC}",
    build=build,
)
