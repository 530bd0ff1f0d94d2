"""A drawer that slides on the wood under it, its sides beside the case: nothing is cut for it, nothing bought."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.drawers import DRAWER, beside, drawer
from docgen.piece.joints.meeting import facing
from docgen.piece.joints.telling import fault
from docgen.project.fields import Field, Length, PartName, Word
from docgen.project.statements import Bound
from docgen.trade.runners import ABOVE, CLEARANCE


def build(bench: Bench, values: Bound) -> None:
    """Note the drawer; tell where its sides do not stand on the part, or have no room beside or above them."""
    sides, cases = ([bench.part(p) for p in values[name]] for name in ("sides", "cases"))
    bed, system = bench.part(values["bed"]), bench.units.system
    if len(sides) != 2 or len(cases) != 2:
        bench.fault(
            values, "cases", "runners-two", "a drawer has two sides", "two drawer sides and two parts of the case"
        )
        return
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
    told = (
        ("clearance a side", clearance, "length"),
        ("room above", room, "length"),
        ("box width", x1 - x0 - 2 * clearance, "length"),
        ("side thickness", sides[0].size[2], "length"),
    )
    drawer(bench, values, told, length=length, clearance=clearance, bed=bed.path)


ON_WOOD = (
    Field("clearance", Length(above=0), "between drawer side and case, a side; absent: 1 mm or 1/32 in"),
    Field("above", Length(least=0), "room to leave above its sides at least; absent: 2 mm or 1/16 in"),
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
