"""A case of two sides with shelves in housings between them, and a back in rabbets: a bookcase, a cupboard's body."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies.terms import Box, face, from_high, from_low, side, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Field, Length, Many, MaterialName, Nested, Word


def build(draft: Draft, values: Lazy) -> None:
    """Say the sides, the shelves with their housings, and the back with its rabbets."""
    box: Box = values["box"]
    thick, material = values["thickness"], values["material"]
    left, right = (f"{draft.name}.{hand}" for hand in ("left", "right"))
    for path, span in ((left, from_low(box[0][0], thick)), (right, from_high(box[0][1], thick))):
        hand = path.rpartition(".")[2]
        words = side(draft.name, hand)
        draft.part(path, material=material, grain="up", box=with_span(box, 0, span), show=hand, called=words)
    between = with_span(box, 0, (face(left, "right"), face(right, "left")))
    between = with_span(between, 1, _deep(box, values))
    for n, up in enumerate(values["shelves"], 1):
        path = f"{draft.name}.shelf {n}"
        draft.part(path, material=material, grain="across", box=with_span(between, 2, from_low(up, thick)), show="top")
        draft.say("joints", "housing", shelf=path, into=[left, right], **_housing(values))
    if values["back"] is not None:
        _back(draft, values, (left, right))


def _deep(box: Box, values: Lazy) -> tuple[Expr, Expr]:
    """Return how deep the shelves reach: from their setback to the back, or to the sides' rear edges."""
    low, high = box[1]
    back = values["back"]
    return low + values["setback"], high if back is None else high - back["thickness"]


def _housing(values: Lazy) -> dict[str, object]:
    """Return the fields of each shelf's housing; behind the shelves it runs out, into the rabbet of the back."""
    stop = {} if values["stop"] is None else {"front": values["stop"]}
    return {
        "depth": values["housing"],
        "tongue": values["tongue"],
        "fat": values["fat"] if values["tongue"] is not None else None,
        "stop": stop or None,
        "through": "back",
    }


def _back(draft: Draft, values: Lazy, sides: tuple[str, str]) -> None:
    back, path = values["back"], f"{draft.name}.back"
    box: Box = values["box"]
    inset = values["thickness"] - back["rabbet"] + back["gap"]
    across = (box[0][0] + inset, box[0][1] - inset)
    spans = with_span(with_span(box, 0, across), 1, from_high(box[1][1], back["thickness"]))
    draft.part(
        path,
        material=back["material"],
        grain="up",
        box=spans,
        show="front",
        authority="measure",
        called=side(draft.name, "back"),
    )
    draft.say("joints", "panel in rabbet", panel=path, into=list(sides), gap=back["gap"])


WORD = Word(
    name="housed case",
    room="assembly",
    help="two sides with shelves in housings between them, and a back in rabbets of the sides",
    fields=(
        Field("box", BoxField(), "outside of the case, from low to high on each axis", required=True),
        Field("material", MaterialName(), "what sides and shelves are made of", required=True),
        Field("thickness", Length(above=0), "thickness of the boards", required=True),
        Field("shelves", Many(Length()), "heights of the shelves' undersides, rising", required=True),
        Field("housing", Length(above=0), "depth of the housings", required=True),
        Field("tongue", Length(above=0), "thickness of the shelves' tongues; absent: the whole thickness enters"),
        Field("fat", Length(least=0), "how much the tongues are cut over, to be planed to fit"),
        Field(
            "stop", Length(least=0), "how far behind the shelves' front edges the housings stop; absent: they run out"
        ),
        Field("setback", Length(least=0), "of the shelves behind the sides' front edges", default="0"),
        Field(
            "back",
            Nested(
                (
                    Field("material", MaterialName(), "what it is made of", required=True),
                    Field("thickness", Length(above=0), "actual thickness of that", required=True),
                    Field("rabbet", Length(above=0), "how far the rabbets go into the sides' thickness", required=True),
                    Field("gap", Length(least=0), "left free on each side", default="0"),
                )
            ),
            "a back as high as the sides, flush with their rear edges; absent: open",
        ),
    ),
    example="""\
case:
  housed case:
    box: {across: [0, 36], deep: [0, 11], up: [0, 60]}
    material: boards
    thickness: 13/16
    shelves: [3, 21, 40, 58]
    housing: 1/4
    stop: 1/2
    back: {material: back ply, thickness: 1/4, rabbet: 3/8, gap: 1/32}
""",
    build=build,
)
