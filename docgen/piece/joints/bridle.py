"""Bridle: the slotted end of one part straddles a tenon, at the end of another (corner) or along it (tee)."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.half_lap import opened
from docgen.piece.joints.housing_place import band
from docgen.piece.joints.meeting import NEAR, Seen, distance, seen
from docgen.piece.joints.mortise_and_tenon import FAT, usual
from docgen.piece.joints.telling import fault, neat
from docgen.piece.model import Joint, Part
from docgen.piece.operations.cheeks import Cheeks
from docgen.piece.operations.ground import settled
from docgen.piece.operations.notch import Notch
from docgen.piece.records import Face, Origin
from docgen.project.fields import FaceWord, Field, Length, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def build(bench: Bench, values: Bound) -> None:
    """Slot the one part's end and cut the other part's cheeks, from where they cross."""
    tenon, slot = bench.part(values["tenon"]), bench.part(values["slot"])
    at, back = seen(tenon, slot), seen(slot, tenon)
    if at is None or back is None or at.axis != (1, 0, 2):
        message = f"{tenon.path} and {slot.path} do not cross at a right angle with their broad faces alike"
        bench.fault(values, "slot", "bridle-not-crossed", message, "two parts in one plane, square to each other")
        return
    apart = distance(at, slot)
    if apart > -NEAR:
        far = f"lies {figure(settled(apart))} beside" if apart > NEAR else "only touches"
        message = f"{tenon.path} {far} {slot.path}: a bridle needs boxes that reach through each other"
        fault(values, "tenon", "bridle-apart", message, "boxes that overlap", on=bench)
        return
    side = _end(at, slot)
    if side is None:
        message = f"neither end of {slot.path} reaches to the far edge of {tenon.path}"
        bench.fault(values, "slot", "bridle-no-end", message, "an end that is level with that edge, or stands past it")
        return
    if values["flush"] is not None and tenon.face(values["flush"]).axis != 2:
        faces = " or ".join(tenon.word(Face(2, s)) for s in (0, 1))
        bench.fault(values, "flush", "flush-face", f"the tenon has no cheek toward its {values['flush']}", faces)
        return
    _cut(bench, values, (tenon, slot), (at, back), side)


def _end(at: Seen, slot: Part) -> int | None:
    """Return the end of the slotted part that stands level with the tenon's far edge, or past it."""
    if float(at.high[0]) >= float(slot.size[0]) - NEAR and at.low[0] > NEAR and _level(at.high[0], slot.size[0]):
        return 1
    if float(at.low[0]) <= NEAR and float(at.high[0]) < float(slot.size[0]) - NEAR and _level(at.low[0], 0):
        return 0
    return None


def _level(edge: Number, end: Number) -> bool:
    return abs(float(edge - end)) <= NEAR


def _cut(bench: Bench, values: Bound, parts: tuple[Part, Part], seen_: tuple[Seen, Seen], side: int) -> None:
    """Cut both parts and note the joint."""
    (tenon, slot), (at, back) = parts, seen_
    third = neat(tenon.size[2] / 3, bench.units) if values["thickness"] is None else values["thickness"]
    stays = band(tenon, third, values["flush"])
    if stays.high - stays.low >= tenon.size[2]:
        message = f"a tenon {figure(third)} thick does not come out of {figure(tenon.size[2])}"
        fault(values, "thickness", "tenon-too-thick", message, "a tenon thinner than the part", on=bench)
        return
    if at.sign[2] > 0:
        low, high = at.low[2] + stays.low, at.low[2] + stays.high
    else:
        low, high = at.high[2] - stays.high, at.high[2] - stays.low
    if low <= NEAR or high >= slot.size[2] - NEAR:
        message = f"the slot for {tenon.path} has wood on one side only in {slot.path}"
        bench.fault(values, "thickness", "bridle-open", message, "a tenon inside the other part's thickness")
        return
    fat = usual(FAT, values["fat"], bench.units)
    start, stop = opened(tenon, 0, back.low[0], back.high[0])
    deep = (at.low[0], None) if side else (None, at.high[0])
    a = bench.add(tenon.path, Cheeks(start, stop, stays.low, stays.high, fat), title=f"tenon for {slot.path}")
    b = bench.add(slot.path, Notch(deep, (None, None), (low, high), label="slot"), title=f"slot for {tenon.path}")
    tee = start is not None and stop is not None
    figures: tuple[tuple[str, Number, str], ...] = (
        ("tenon thickness", stays.high - stays.low, "length"),
        ("slot deep", at.high[0] - at.low[0], "length"),
        ("fat", fat, "length"),
    )
    title = f"{slot.path} straddles {tenon.path}" if tee else f"{tenon.path} in the slotted end of {slot.path}"
    bench.joint(
        Joint(
            "bridle",
            title,
            (tenon.path, slot.path),
            ((tenon.path, a.name), (slot.path, b.name)),
            figures,
            Origin(values.span, values.because),
            slot.frame.direction((1.0, 0.0, 0.0)),
            holds=True,
        )
    )


WORD = Word(
    name="bridle",
    room="joint",
    help="a bridle (open mortise and tenon): the slotted end of one part straddles a tenon on another, at a corner or a tee",
    fields=(
        Field("tenon", PartName(), "the part that is thinned, at its end or along it", required=True),
        Field(
            "slot",
            PartName(),
            "the part whose end is slotted; the boxes of both reach through the joint",
            required=True,
        ),
        Field("thickness", Length(above=0), "of the tenon; absent: a third of the part"),
        Field("flush", FaceWord(), "the face that a bare-faced tenon is flush with; absent: centred"),
        Field("fat", Length(least=0), "left on the cheeks until the tenon is fitted; absent: 1/64 in or 0.5 mm"),
    ),
    example="bridle: {tenon: top rail, slot: left stile, thickness: 1/4}",
    build=build,
)
