"""A drawer in an opening: an inset front, a box of sheet stock in housings, slides at its sides."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies.terms import Box, from_high, from_low, given, side
from docgen.piece.bench import Draft, Lazy
from docgen.piece.joints.side_slides import SLIDE
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Field, Length, Many, MaterialName, Nested, PartName, Reach, Word, Words

PARTS = ("front", "left", "right", "box front", "back", "bottom")
"""The drawer's parts: its front, and the box behind it."""


def build(draft: Draft, values: Lazy) -> None:
    """Say the front, the box and its joints, and the slides with their screw rows."""
    front, box = values["front"], values["box"]
    across, deep, up = values["opening"]
    clearance = values["slides"]["clearance"]
    wide = (across[0] + clearance, across[1] - clearance)
    run = from_low(deep[0], box["length"])
    high = (up[0] + box["below"], up[0] + box["below"] + box["height"])
    _front(draft, front, deep)
    _box(draft, box, (wide, run, high))
    _joints(draft, box)
    draft.say(
        "joints",
        "side slides",
        drawer=draft.name,
        parts=[f"{draft.name}.{p}" for p in PARTS],
        sides=[f"{draft.name}.left", f"{draft.name}.right"],
        cases=values["cases"],
        front=f"{draft.name}.front",
        opening={"across": list(across), "deep": list(deep), "up": list(up)},
        gap=front["gap"],
        **given(values["slides"]),
    )


def _front(draft: Draft, front: Lazy, deep: tuple[Expr, Expr]) -> None:
    """Say the front, which is cut to its opening, and rounds its corner where it nests in a round one."""
    path = f"{draft.name}.front"
    draft.part(
        path,
        material=front["material"],
        grain="across",
        box=(front["across"], from_high(deep[0], front["thickness"]), front["up"]),
        show="front",
        authority="measure",
        called=side(draft.name, "front"),
    )
    if front["corner radius"] is not None:
        draft.say(
            "edges",
            "corner radius",
            part=path,
            along=list(front["corners"]),
            face="front",
            radius=front["corner radius"],
        )


def _box(draft: Draft, box: Lazy, spans: Box) -> None:
    """Say the five boards of the box: sides full length, front and back between them, the bottom in grooves."""
    (x0, x1), (y0, y1), (z0, z1) = spans
    t = box["thickness"]
    name = draft.name
    inside = (x0 + t, x1 - t)
    ply = {"material": box["material"]}
    for hand, span in (("left", from_low(x0, t)), ("right", from_high(x1, t))):
        words = side(name, hand)
        draft.part(f"{name}.{hand}", grain="deep", box=(span, (y0, y1), (z0, z1)), called=words, **ply)
    setback = box["housing"]["from end"]
    draft.part(f"{name}.box front", grain="across", box=(inside, from_low(y0 + setback, t), (z0, z1)), **ply)
    floor = box["bottom"]
    bottom = from_low(z0 + floor["up"], floor["thickness"])
    rear = from_high(y1 - setback, t)
    draft.part(f"{name}.back", grain="across", box=(inside, rear, (bottom[1], z1)), called=side(name, "back"), **ply)
    groove = floor["groove"] - floor["clearance"]
    draft.part(
        f"{name}.bottom",
        material=floor["material"],
        grain="across",
        box=((inside[0] - groove, inside[1] + groove), (y0 + setback + t - groove, y1 - setback), bottom),
        authority="measure",
        called=side(name, "bottom"),
    )


def _joints(draft: Draft, box: Lazy) -> None:
    name, h = draft.name, box["housing"]
    sides = [f"{name}.left", f"{name}.right"]
    for end in ("box front", "back"):
        draft.say(
            "joints",
            "housing",
            shelf=f"{name}.{end}",
            into=sides,
            depth=h["depth"],
            tongue=h["tongue"],
            flush="back" if end == "box front" else "front",
            through="bottom",
        )
    draft.say(
        "joints",
        "panel in groove",
        panel=f"{name}.bottom",
        into=[*sides, f"{name}.box front"],
        clearance=box["bottom"]["clearance"],
    )


BOX = (
    Field("material", MaterialName(), "what sides, front and back are made of", required=True),
    Field("thickness", Length(above=0), "actual thickness of that", required=True),
    Field("length", Length(above=0), "of the sides, front to back", required=True),
    Field("height", Length(above=0), "of the sides", required=True),
    Field("below", Length(least=0), "room under the sides", required=True),
    Field(
        "housing",
        Nested(
            (
                Field("depth", Length(above=0), "of the housings in the sides", required=True),
                Field("tongue", Length(above=0), "thickness of the bare-faced tongues that enter them", required=True),
                Field("from end", Length(least=0), "from the sides' ends to front and back", default="0"),
            )
        ),
        "how front and back enter the sides",
        required=True,
    ),
    Field(
        "bottom",
        Nested(
            (
                Field("material", MaterialName(), "what it is made of", required=True),
                Field("thickness", Length(above=0), "actual thickness of that", required=True),
                Field("up", Length(above=0), "from the sides' lower edge to its lower face", required=True),
                Field("groove", Length(above=0), "depth of the grooves", required=True),
                Field("clearance", Length(least=0), "left free in the bottom of each groove", required=True),
            )
        ),
        "the bottom, slid in from behind under the back",
        required=True,
    ),
)

FRONT = (
    Field("material", MaterialName(), "what it is made of", required=True),
    Field("thickness", Length(above=0), "its thickness; the box starts behind it", required=True),
    Field("across", Reach(), "from its left edge to its right edge", required=True),
    Field("up", Reach(), "from its lower edge to its upper edge", required=True),
    Field("gap", Length(least=0), "left free where it meets the case", required=True),
    Field("corner radius", Length(above=0), "of the corners that nest in round ones"),
    Field("corners", Many(Words(), least=0), "which: top left, top right, bottom left, bottom right", default="[]"),
)

WORD = Word(
    name="drawer",
    room="assembly",
    help="a drawer with an inset front, a box in housings and slides at its sides",
    fields=(
        Field("opening", BoxField(), "the clear opening; its deep span starts at the back of the front", required=True),
        Field(
            "cases", Many(PartName(), least=2), "the part left of the opening and the part right of it", required=True
        ),
        Field("front", Nested(FRONT), "the front, inset", required=True),
        Field("box", Nested(BOX), "the box behind it", required=True),
        Field("slides", Nested(SLIDE), "the slides, from their own sheet", required=True),
    ),
    example="""\
drawer:
  drawer:
    opening: {across: [divider.right, side.left], deep: [3/4, 15 3/4], up: [bottom.top, top.bottom]}
    cases: [divider, side]
    front: {material: front boards, thickness: 3/4, across: [12, 33], up: [22, 28], gap: 1/32}
    box:
      material: box ply
      thickness: 12 mm
      length: 12
      height: 3 1/2
      below: 1/2
      housing: {depth: 3/16, tongue: 1/4}
      bottom: {material: thin ply, thickness: 6 mm, up: 3/8, groove: 1/4, clearance: 1/32}
    slides: {clearance: 1/2, length: 12, height: 1 3/4, up: 25.35, setback: 1/16}
""",
    build=build,
)
