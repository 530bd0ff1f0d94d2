"""Slides under a drawer: the room, the recess under the bottom, notches and hook holes, all from the slides' own sheet."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.drawers import DRAWER, Figures, note, pairs
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations import saying
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.notch import Notch
from docgen.piece.records import Authority, Feature, Origin, Purpose
from docgen.project.fields import Field, Length, Nested, PartName, Word
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.units import Number

NEAR = 0.01
"""mm by which the recess under the bottom may be off."""


def build(bench: Bench, values: Bound) -> None:
    """Cut the notches, bore the hook holes, and note the drawer; tell what the slides' sheet does not allow."""
    (sides,) = pairs(bench, values, "sides", code="slides-two")
    back, bottom, front = (bench.part(values[name]) for name in ("back", "bottom", "front"))
    _recess(bench, values, sides, bottom)
    _deep_enough(bench, values, front)
    made = [(back.path, f.name) for f in _back(bench, values, back, sides)]
    told = _figures(values, sides[0], front)
    origin = Origin(values.span, values.because)
    note(bench, values, told, "pair of drawer slides, under the drawer")
    title = f"slides under {values['drawer']}"
    joined = (*values["cases"], *values["parts"])
    bench.joint(Joint("under slides", title, joined, tuple(made), told, origin))


def _figures(values: Bound, side: Part, front: Part) -> Figures:
    """Return what the slides' sheet asks for, and where they run; mm."""
    (x0, x1), start = values["opening"][0], front.box[1][1] + values["setback"]
    out: Figures = (
        ("slide front", start, "length"),
        ("slide back", start + values["length"], "length"),
        ("setback", values["setback"], "length"),
        ("clearance a side", values["clearance"], "length"),
        ("box width", x1 - x0 - 2 * values["clearance"], "length"),
        ("recess", values["recess"], "length"),
        ("side thickness", side.size[2], "length"),
    )
    stated = [(name, values[name], "length") for name in ("least side", "most side") if values[name] is not None]
    return (*out, *stated)


def _recess(bench: Bench, values: Bound, sides: list[Part], bottom: Part) -> None:
    """Tell when the bottom does not lie as high over the sides' lower edges as the slides ask."""
    for side in sides:
        room = bottom.box[2][0] - side.box[2][0]
        if abs(float(room - values["recess"])) > NEAR:
            message = f"the bottom lies {figure(room)} above the lower edge of {side.path}"
            fault(values, "recess", "slide-recess", message, f"{figure(values['recess'])}, for the slide", on=bench)
            return


def _deep_enough(bench: Bench, values: Bound, front: Part) -> None:
    """Tell when the case is less deep behind the front than the slides' sheet asks."""
    least, room = values["least depth"], values["opening"][1][1] - front.box[1][1]
    if least is not None and room < least - NEAR:
        message = f"behind the front the case is {figure(room)} deep, the slides ask for {figure(least)}"
        fault(values, "least depth", "slide-depth", message, "shorter slides, or a deeper case", on=bench)


def _back(bench: Bench, values: Bound, back: Part, sides: list[Part]) -> list[Feature]:
    """Cut the notches in the lower edge of the back, and bore the holes for the slides' hooks.

    Both are measured from the sides' inner faces, whatever the corners of the box are.
    """
    made = []
    notch, hooks = values["notch"], values["hooks"]
    inner = (sides[0].box[0][1], sides[1].box[0][0])
    if notch is not None:
        foot, deep = back.face("bottom"), notch["up"]
        for start, end in ((inner[0], inner[0] + notch["across"]), (inner[1] - notch["across"], inner[1])):
            spans: list[tuple[Number | None, Number | None]] = [(None, None)] * 3
            axis, low, high = saying.reach(back, "across", (start, end))
            spans[axis] = (low if low > NEAR else None, high if high < back.size[axis] - NEAR else None)
            spans[foot.axis] = (back.size[foot.axis] - deep, None) if foot.side else (None, deep)
            made.append(bench.add(back.path, Notch(spans[0], spans[1], spans[2]), title="notch for the slide"))
    if hooks is not None:
        face, up = back.face("back"), back.box[2][0] + hooks["up"]
        places = (inner[0] + hooks["across"], inner[1] - hooks["across"])
        hole = Hole(
            face=face,
            points=tuple(saying.on_face(back, face, {"across": x, "up": up}) for x in places),
            diameter=hooks["diameter"],
            depth=hooks["depth"],
            purpose=Purpose.BORE,
            name=bench.next_name("H"),
            drill=nearest(hooks["diameter"]).name,
            authority=Authority.HARDWARE,
            note="hooks of the slides; holes as the slides' own sheet shows them",
            label="hook holes",
        )
        made.append(bench.add(back.path, hole, title="holes for the slides' hooks"))
    return made


UNDER = (
    Field("clearance", Length(least=0), "between drawer side and case, a side", required=True),
    Field("length", Length(above=0), "of the slides", required=True),
    Field("recess", Length(above=0), "from the sides' lower edges up to the bottom", required=True),
    Field("setback", Length(least=0), "from the back of the front to the slides", required=True),
    Field(
        "notch",
        Nested(
            (
                Field("across", Length(above=0), "from the sides' inner faces inward", required=True),
                Field("up", Length(above=0), "from its lower edge", required=True),
            )
        ),
        "out of the back's lower edge, beside both sides",
    ),
    Field(
        "hooks",
        Nested(
            (
                Field("across", Length(above=0), "from the sides' inner faces to the holes", required=True),
                Field("up", Length(above=0), "from its lower edge to the holes", required=True),
                Field("diameter", Length(above=0), "of the holes", required=True),
                Field("depth", Length(above=0), "of the holes", required=True),
            )
        ),
        "holes in the rear of the back for the slides' hooks",
    ),
    Field("least depth", Length(above=0), "of the case behind the front"),
    Field("least side", Length(above=0), "thinnest drawer side allowed"),
    Field("most side", Length(above=0), "thickest drawer side allowed"),
)
"""The fields of slides under a drawer, wherever they are said."""

WORD = Word(
    name="under slides",
    room="joint",
    help="slides under a drawer, from their own sheet: room, recess, notches and hook holes in the back",
    fields=(
        *DRAWER,
        Field("back", PartName(), "its back, down to the sides' lower edges", required=True),
        Field("bottom", PartName(), "its bottom", required=True),
        *UNDER,
    ),
    example="""\
under slides:
  drawer: drawer
  parts: [drawer.front, drawer.left, drawer.right, drawer.back, drawer.bottom]
  front: drawer.front
  back: drawer.back
  bottom: drawer.bottom
  sides: [drawer.left, drawer.right]
  cases: [divider, side]
  opening: {across: [13, 33], deep: [3/4, 20], up: [23, 27 1/2]}
  gap: 1/16
  clearance: 3/16
  length: 18
  recess: 1/2
  setback: 1/8
  notch: {across: 1 3/8, up: 1/2}
  hooks: {across: 9/32, up: 7/16, diameter: 6 mm, depth: 10 mm}
  least depth: 18 3/4
""",
    build=build,
)
