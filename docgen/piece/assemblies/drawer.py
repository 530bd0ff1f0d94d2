"""A drawer in an opening: a front inset or before the case, a box, and slides or wooden runners."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies import drawer_box, drawer_runners
from docgen.piece.assemblies.terms import Box, from_high, from_low, given, side, usual, zero
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.drawer_on_wood import ON_WOOD
from docgen.piece.joints.side_slides import SLIDE
from docgen.piece.joints.under_slides import UNDER
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Field, Length, Many, MaterialName, Nested, PartName, Reach, Word, Words
from docgen.trade.runners import CLEARANCE

PARTS = ("front", "left", "right", "box front", "back", "bottom")
"""The drawer's parts: its front, and the box behind it."""

WAYS = ("slides", "under slides", "runners", "on")
"""The fields of what a drawer runs on; one is said."""


def build(draft: Draft, values: Lazy) -> None:
    """Say the front, the box and its joints, and what it runs on with its screw rows, notches or strips."""
    box, deep, up = values["box"], values["opening"][1], values["opening"][2]
    way = _way(values)
    across, clearance = values["opening"][0], values[way]["clearance"] or usual(CLEARANCE, draft)
    wide = (across[0] + clearance, across[1] - clearance)
    run = from_low(deep[0], box["length"])
    high = (up[0] + box["below"], up[0] + box["below"] + box["height"])
    front = _front(draft, values["front"], values["opening"])
    drawer_box.said(draft, box, (wide, run, high), whole_back=way == "under slides")
    common = {
        "drawer": draft.name,
        "parts": [f"{draft.name}.{p}" for p in PARTS],
        "sides": [f"{draft.name}.left", f"{draft.name}.right"],
        "front": f"{draft.name}.front",
        "opening": {"across": list(across), "deep": list(deep), "up": list(up)},
        "gap": front,
        "cases": values["cases"],
    }
    if way == "slides":
        draft.say("joints", "side slides", **common, **given(values[way]))
    elif way == "under slides":
        extra = {"back": f"{draft.name}.back", "bottom": f"{draft.name}.bottom"}
        draft.say("joints", "under slides", **common, **extra, **given(values[way]))
    elif way == "on":
        rest = {name: value for name, value in given(values[way]).items() if name != "part"}
        draft.say("joints", "drawer on wood", bed=values[way]["part"], **common, **rest)
    else:
        inset = values["front"]["overlay"] is None
        drawer_runners.said(draft, values[way], common, (wide, run, high), (across, deep, up), inset=inset)


def _way(values: Lazy) -> str:
    """Return the field that says what the drawer runs on; one is said."""
    said = [way for way in WAYS if values[way] is not None]
    if len(said) != 1:
        found = " and ".join(said) or "nothing"
        raise Fault("drawer-slides", f"a drawer runs in one way, here is {found}", "", f"one of {', '.join(WAYS)}")
    return said[0]


def _front(draft: Draft, front: Lazy, opening: Box) -> Expr:
    """Say the front, which is cut to its opening or laps over it; return the gap round it, 0 for one that laps.

    Its corner may be round, to nest in a round one.
    """
    path, (across, deep, up) = f"{draft.name}.front", opening
    gap, overlay = front["gap"], front["overlay"]
    if (gap is None) == (overlay is None):
        found = "neither" if gap is None else "both"
        message = f"a drawer's front stands in its opening with a gap, or laps over it; here is {found}"
        raise Fault("drawer-front", message, "front", "gap: 1/16, or overlay: 3/8")
    out = -gap if overlay is None else overlay
    draft.part(
        path,
        material=front["material"],
        grain="across",
        box=(
            front["across"] or (across[0] - out, across[1] + out),
            from_high(deep[0], front["thickness"]),
            front["up"] or (up[0] - out, up[1] + out),
        ),
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
    return zero() if overlay is not None else gap


FRONT = (
    Field("material", MaterialName(), "what it is made of", required=True),
    Field("thickness", Length(above=0), "its thickness; the box starts behind it", required=True),
    Field("gap", Length(least=0), "of an inset front: left free where it meets the case"),
    Field("overlay", Length(), "of a front before the case: how far it laps over each edge of the opening"),
    Field("across", Reach(), "from its left edge to its right edge, where the opening does not say it"),
    Field("up", Reach(), "from its lower edge to its upper edge, where the opening does not say it"),
    Field("corner radius", Length(above=0), "of the corners that nest in round ones"),
    Field("corners", Many(Words(), least=0), "which: top left, top right, bottom left, bottom right", default="[]"),
)

WORD = Word(
    name="drawer",
    room="assembly",
    help="a drawer: its front inset or before the case, its box joined in one of four ways, on slides at its sides or under it, on wooden runners or on the case itself",
    fields=(
        Field("opening", BoxField(), "the clear opening; its deep span starts at the back of the front", required=True),
        Field(
            "cases",
            Many(PartName(), least=2),
            "the part left of the opening and the part right of it",
            required=True,
        ),
        Field("front", Nested(FRONT), "the front, inset or before the case", required=True),
        Field("box", Nested(drawer_box.BOX), "the box behind it", required=True),
        Field("slides", Nested(SLIDE), "slides at the sides, from their own sheet"),
        Field("under slides", Nested(UNDER), "or slides under the drawer, from their own sheet"),
        Field(
            "runners", Nested(drawer_runners.RUNNERS), "or wooden strips on the case, in grooves of the drawer's sides"
        ),
        Field(
            "on",
            Nested((Field("part", PartName(), "what it slides on", required=True), *ON_WOOD)),
            "or nothing but the part of the case that it stands on",
        ),
    ),
    example="""\
drawer:
  drawer:
    opening: {across: [divider.right, side.left], deep: [3/4, 15 3/4], up: [bottom.top, top.bottom]}
    cases: [divider, side]
    front: {material: front boards, thickness: 3/4, gap: 1/32}
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
