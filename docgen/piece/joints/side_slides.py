"""Side slides: the room, the line and the screw rows of a drawer's slides, all from the slides' own sheet."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.hardware import Fitting
from docgen.piece.joints.drawers import DRAWER, HANDS, Figures, beside, note, pairs
from docgen.piece.joints.fitting import slide
from docgen.piece.model import Joint, Part
from docgen.piece.operations import saying
from docgen.piece.operations.hole import Hole
from docgen.piece.records import Authority, Origin, Purpose
from docgen.project.fields import Field, Length, Many, Word
from docgen.project.statements import Bound
from docgen.trade.drills import nearest
from docgen.units import Number


def figures(values: Bound, front_back: Number, side: Part) -> Figures:
    """Return where the slides run, and what their sheet asks of the sides; piece axes, mm."""
    start = front_back + values["setback"]
    half = values["height"] / 2
    (x0, x1) = values["opening"][0]
    out: Figures = (
        ("slide line", values["up"], "length"),
        ("slide low", values["up"] - half, "length"),
        ("slide high", values["up"] + half, "length"),
        ("slide front", start, "length"),
        ("slide back", start + values["length"], "length"),
        ("setback", values["setback"], "length"),
        ("clearance a side", values["clearance"], "length"),
        ("box width", x1 - x0 - 2 * values["clearance"], "length"),
        ("side thickness", side.size[2], "length"),
    )
    stated = [(name, values[name], "length") for name in ("least side", "most side") if values[name] is not None]
    return (*out, *stated)


def build(bench: Bench, values: Bound) -> None:
    """Mark the screw rows on case and drawer sides and note the drawer."""
    sides, cases = pairs(bench, values, "sides", "cases", code="slides-two")
    if not beside(bench, values, sides, cases, values["clearance"], slides=True):
        return
    back = bench.part(values["front"]).box[1][1]
    made = []
    if values["screws"]:
        name = bench.next_name("S")
        for hand, case, side in zip(HANDS, cases, sides, strict=True):
            inside = HANDS[1 - HANDS.index(hand)]
            made += [
                (case.path, _row(bench, values, case, inside, back, name)),
                (side.path, _row(bench, values, side, hand, back, name)),
            ]
    origin = Origin(values.span, values.because)
    told = figures(values, back, sides[0])
    note(bench, values, told, SLIDES)
    bench.joint(
        Joint(
            "side slides",
            f"slides of {values['drawer']}",
            (*values["cases"], *values["sides"]),
            tuple(made),
            told,
            origin,
            fittings=tuple(_slide(values, case, side, back) for case, side in zip(cases, sides, strict=True)),
        )
    )


SLIDES = "pair of drawer slides, side-mounted"


def _slide(values: Bound, case: Part, side: Part, back: Number) -> Fitting:
    """Return one slide, between its case part and its side of the drawer, whose front ends at `back`."""
    a, b = sorted((case, side), key=lambda part: part.box[0][0])
    start, half = float(back + values["setback"]), float(values["height"]) / 2
    low = (float(a.box[0][1]), start, float(values["up"]) - half)
    high = (float(b.box[0][0]), start + float(values["length"]), float(values["up"]) + half)
    return slide(low, high, (case.path, side.path), SLIDES)


def _row(bench: Bench, values: Bound, part: Part, word: str, back: Number, name: str) -> str:
    """Mark the screws of one slide on a face; return the feature's name."""
    face = part.face(word)
    start = back + values["setback"]
    points = tuple(saying.on_face(part, face, {"deep": start + s, "up": values["up"]}) for s in values["screws"])
    usual, deep = PILOT[bench.units.system]
    diameter = values["pilot"] or usual
    hole = Hole(
        face=face,
        points=points,
        diameter=diameter,
        depth=values["pilot depth"] or deep,
        purpose=Purpose.PILOT,
        name=name,
        drill=nearest(diameter).name,
        authority=Authority.HARDWARE,
        note="slide line; holes as the slide's own sheet shows them",
        label="slide screws",
    )
    return bench.add(part.path, hole, title="slide line and screws").name


PILOT: dict[str, tuple[Number, Number]] = {
    "inch": (Fraction(254, 10) * Fraction(5, 64), Fraction(254, 10) * Fraction(5, 16)),
    "mm": (Fraction(2), Fraction(8)),
}
"""mm: the drill for a slide's own screws, and how deep. Common practice."""

SLIDE = (
    Field("clearance", Length(above=0), "room for one slide, a side", required=True),
    Field("length", Length(above=0), "of the slides", required=True),
    Field("height", Length(above=0), "of the slides", required=True),
    Field("up", Length(), "height of their middle line", required=True),
    Field("setback", Length(least=0), "from the back of the front to the slides", required=True),
    Field("screws", Many(Length(), least=0), "distances of the screws from the slides' front ends", default="[]"),
    Field("pilot", Length(above=0), "drill for the screws; absent: 5/64 in or 2 mm"),
    Field("pilot depth", Length(above=0), "depth of those holes; absent: 5/16 in or 8 mm"),
    Field("least side", Length(above=0), "thinnest drawer side allowed"),
    Field("most side", Length(above=0), "thickest drawer side allowed"),
)
"""The fields of slides, wherever they are said."""

WORD = Word(
    name="side slides",
    room="joint",
    help="slides at the sides of a drawer, from their own sheet: room, line and screw rows",
    fields=(
        *DRAWER,
        *SLIDE,
    ),
    example="""\
side slides:
  drawer: drawer
  parts: [drawer.front, drawer.left, drawer.right]
  front: drawer.front
  sides: [drawer.left, drawer.right]
  cases: [divider, side]
  opening: {across: [13, 33], deep: [3/4, 15 3/4], up: [23, 27 1/2]}
  gap: 1/32
  clearance: 1/2
  length: 12
  height: 1 3/4
  up: 25.35
  setback: 1/16
""",
    build=build,
)
