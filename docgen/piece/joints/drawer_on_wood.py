"""A drawer that slides on the wood under it, its sides beside the case: nothing is cut for it, nothing bought."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.drawers import DRAWER, STANDS_BACK, STOP_BLOCKS, Figures, beside, drawer, pairs
from docgen.piece.joints.meeting import facing
from docgen.piece.joints.telling import fault
from docgen.piece.model import Item, Part, Sets
from docgen.piece.naming import spoken
from docgen.piece.records import Authority, Origin
from docgen.project.fields import Field, Length, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.trade.runners import ABOVE, CLEARANCE, LEAST_STOP
from docgen.units import plain_length


def build(bench: Bench, values: Bound) -> None:
    """Note the drawer; tell where its sides do not stand on the part, or have no room beside or above them."""
    sides, cases = pairs(bench, values, "sides", "cases", code="runners-two")
    bed, system = bench.part(values["bed"]), bench.units.system
    clearance = CLEARANCE[system] if values["clearance"] is None else values["clearance"]
    least = ABOVE[system] if values["above"] is None else values["above"]
    if not beside(bench, values, sides, cases, clearance):
        return
    for side in sides:
        if all(a != side.face("bottom") for a, _ in facing(side, bed)):
            message = f"the lower edge of {side.path} does not stand on {bed.path}"
            bench.fault(values, "bed", "drawer-off-bed", message, "a box with nothing below it: below: 0")
            return
    room = values["opening"][2][1] - max(side.box[2][1] for side in sides)
    if room < least:
        message = f"above the sides of the drawer {figure(room)} are left"
        fault(values, "above", "drawer-above", message, f"at least {figure(least)}: a lower box", on=bench)
        return
    (x0, x1), length = values["opening"][0], sides[0].size[0]
    stopped = _stopped(bench, values, sides, bed)
    if stopped is None:
        return
    told = (
        ("clearance a side", clearance, "length"),
        ("room above", room, "length"),
        ("box width", x1 - x0 - 2 * clearance, "length"),
        ("side thickness", sides[0].size[2], "length"),
        (STANDS_BACK, sides[0].box[1][0] - bed.box[1][0], "length"),
        *stopped,
    )
    drawer(bench, values, told, length=length, clearance=clearance, bed=bed.path)


def _stopped(bench: Bench, values: Bound, sides: list[Part], bed: Part) -> Figures | None:
    """Note the blocks that stop the drawer, and return their figures; None, told, where there is no room for them.

    One stands behind each side, on the part that the drawer slides on, and takes up the room that is left behind the box.
    """
    said = values["stops"]
    if said is None:
        return ()
    room = values["opening"][1][1] - max(side.box[1][1] for side in sides)
    least = LEAST_STOP[bench.units.system]
    if room < least:
        message = f"behind the box {figure(room)} are left"
        fault(values, "stops", "drawer-stops", message, f"at least {figure(least)}: a shorter box", on=bench)
        return None
    size = " × ".join(plain_length(v, bench.units) for v in (said["length"], room, said["height"]))
    bench.item(
        Item(
            what="stop block",
            count=2,
            size=f"{size} {bench.units.sign}",
            authority=Authority.CUT,
            note="length × depth × height, its grain as that of the part it is glued on",
            origin=Origin(values.span, values.because),
            where=f"behind the sides of {spoken(values['drawer'])}, on {bed.called}",
            sets=Sets.LAST,
        )
    )
    return ((STOP_BLOCKS, room, "length"),)


ON_WOOD = (
    Field("clearance", Length(above=0), "between drawer side and case, a side; absent: 1 mm or 1/32 in"),
    Field("above", Length(least=0), "room to leave above its sides at least; absent: 2 mm or 1/16 in"),
    Field(
        "stops",
        Nested(
            (
                Field("length", Length(above=0), "of each, along the back", required=True),
                Field("height", Length(above=0), "of each", required=True),
            )
        ),
        "two blocks glued on that part behind the drawer's sides, which stop an inset front flush",
    ),
)
"""The fields of a drawer that slides on wood, wherever they are said."""

WORD = Word(
    name="drawer on wood",
    room="joint",
    help="a drawer that slides on a part of the case under it, between two others, without slides or runners",
    fields=(*DRAWER, Field("bed", PartName(), "the part that it slides on", required=True), *ON_WOOD),
    example="""\
drawer on wood:
  drawer: drawer
  parts: [drawer.front, drawer.left, drawer.right]
  front: drawer.front
  sides: [drawer.left, drawer.right]
  cases: [left side, right side]
  bed: shelf
  opening: {across: [20, 420], deep: [20, 390], up: [100, 200]}
  gap: 1
""",
    build=build,
)
