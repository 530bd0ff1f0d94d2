"""Two pairs of raking legs on the sides of a case: each pair meets near the top, a stretcher holds them apart.

A front leg's foot stands forward, a rear leg's foot back. Both lie flat on the outside of the case.
"""

from __future__ import annotations

from dataclasses import dataclass

from docgen.expressions import Expr, cos, sin, tan
from docgen.piece.assemblies.terms import around, face, from_high, from_low, given, half, zero
from docgen.piece.bench import Draft, Lazy
from docgen.piece.joints.bolted import BOLT
from docgen.piece.joints.tenoning import TENON
from docgen.project.fields import Angle, Field, Length, Many, MaterialName, Nested, PartName, Place, Word


@dataclass(frozen=True, slots=True)
class Lines:
    """The legs' middle lines in the side plane; each runs through a point and leans from plumb."""

    deep: Expr  # a point on the front leg's middle line
    up: Expr
    front: Expr  # lean, degrees
    rear: Expr
    apex: Expr  # height at which the rear leg's middle line meets the front leg's rear face
    width: Expr

    def front_at(self, up: Expr) -> Expr:
        """Return how deep the front leg's middle line stands at a height: its foot is forward."""
        return self.deep + (up - self.up) * tan(self.front)

    @property
    def meet(self) -> Expr:
        """Return how deep the rear leg's middle line stands at the apex: on the front leg's rear face."""
        return self.front_at(self.apex) + half(self.width) / cos(self.front)

    def rear_at(self, up: Expr) -> Expr:
        """Return how deep the rear leg's middle line stands at a height: its foot is back."""
        return self.meet + (self.apex - up) * tan(self.rear)


def build(draft: Draft, values: Lazy) -> None:
    """Say the four legs, their tenons, feet, rounded arrises and bolts, and the stretcher."""
    front, rear = values["front"], values["rear"]
    through = front["through"]
    lines = Lines(through["deep"], through["up"], front["lean"], rear["lean"], rear["apex"], values["width"])
    for hand in ("left", "right"):
        _pair(draft, values, lines, hand)
    if values["bolts"] is not None:
        _bolts(draft, values, lines)
    if values["stretcher"] is not None:
        _stretcher(draft, values, lines)


def _pair(draft: Draft, values: Lazy, lines: Lines, hand: str) -> None:
    """Say the two legs on one side. Their boxes run from long point to long point."""
    outside = face(values[hand], hand)
    across = from_high(outside, values["thickness"]) if hand == "left" else from_low(outside, values["thickness"])
    front, rear, top = f"{draft.name}.{hand} front", f"{draft.name}.{hand} rear", values["top"]
    grip = half(lines.width)
    a, b = lines.front, lines.rear
    common = {"material": values["material"], "grain": "up", "show": hand}
    up = (
        lines.up - (lines.up / cos(a) + grip * tan(a)),
        lines.up + (top - lines.up) / cos(a) + grip * tan(a),
    )
    draft.part(
        front,
        box=(across, around(lines.deep, lines.width), up),
        turns=((0, -a, lines.deep, lines.up),),
        called=f"{hand} front leg",
        **common,
    )
    # The rear leg's box reaches to the long point of its slanted end; its tip is then cut level with the front leg.
    up = (lines.apex - (lines.apex / cos(b) + grip * tan(b)), lines.apex + grip / tan(a + b))
    draft.part(
        rear,
        box=(across, around(lines.meet, lines.width), up),
        turns=((0, b, lines.meet, lines.apex),),
        called=f"{hand} rear leg",
        **common,
    )
    for leg in (front, rear):
        draft.say("joints", "level ends", part=leg, top=top, bottom=zero(), **_foot(values))
    draft.say("joints", "loose tenon", end=rear, into=front, **given(values["tenons"]))
    if values["outside arrises"] is not None:
        for leg in (front, rear):
            radius = values["outside arrises"]
            draft.say("edges", "round over", part=leg, along=[f"{hand} front"], radius=radius)
            # Where the rear leg lies against it the front leg's arris stays sharp: the joint shows no groove.
            stop = {"stop": {"top": (top - lines.apex) / cos(a) + grip / sin(a + b)}} if leg == front else {}
            draft.say("edges", "round over", part=leg, along=[f"{hand} back"], radius=radius, **stop)


def _foot(values: Lazy) -> dict[str, Expr]:
    return {} if values["foot radius"] is None else {"foot_radius": values["foot radius"]}


def _bolts(draft: Draft, values: Lazy, lines: Lines) -> None:
    """Say the bolts on the legs' middle lines, from inside the case into the legs."""
    bolts = given(values["bolts"])
    heights = {"front": bolts.pop("front"), "rear": bolts.pop("rear")}
    for leg, ups in heights.items():
        at = lines.front_at if leg == "front" else lines.rear_at
        if ups:
            draft.say(
                "joints",
                "bolted",
                through=[values["left"], values["right"]],
                into=[f"{draft.name}.{hand} {leg}" for hand in ("left", "right")],
                at=[{"deep": at(up), "up": up} for up in ups],
                **bolts,
            )


def _stretcher(draft: Draft, values: Lazy, lines: Lines) -> None:
    """Say the stretcher between the rear legs, its faces square to them."""
    s, path = values["stretcher"], f"{draft.name}.stretcher"
    deep = lines.rear_at(s["up"])
    draft.part(
        path,
        material=s["material"],
        grain="across",
        box=(
            (face(values["left"], "left"), face(values["right"], "right")),
            around(deep, s["thickness"]),
            around(s["up"], s["height"]),
        ),
        turns=((0, lines.rear, deep, s["up"]),),
        show="front",
        called="stretcher",
    )
    for hand in ("left", "right"):
        draft.say("joints", "loose tenon", end=path, into=f"{draft.name}.{hand} rear", **given(s["tenons"]))


WORD = Word(
    name="raking stand",
    room="assembly",
    help="a front and a rear leg on each side of a case, each at its own lean, joined near the top, and a stretcher",
    fields=(
        Field("left", PartName(), "the case side that the left legs lie on", required=True),
        Field("right", PartName(), "the case side that the right legs lie on", required=True),
        Field("material", MaterialName(), "what the legs are made of", required=True),
        Field("thickness", Length(above=0), "of the legs, across", required=True),
        Field("width", Length(above=0), "of the legs, in the side view", required=True),
        Field("top", Length(above=0), "height at which the legs are cut level", required=True),
        Field(
            "front",
            Nested(
                (
                    Field("lean", Angle(least=0, most=60), "from plumb, foot forward", required=True),
                    Field("through", Place(("deep", "up")), "a point on its middle line", required=True),
                )
            ),
            "the front leg",
            required=True,
        ),
        Field(
            "rear",
            Nested(
                (
                    Field("lean", Angle(least=0, most=60), "from plumb, foot back", required=True),
                    Field(
                        "apex",
                        Length(above=0),
                        "height where its middle line meets the front leg's rear face",
                        required=True,
                    ),
                )
            ),
            "the rear leg",
            required=True,
        ),
        Field("tenons", Nested(TENON), "the loose tenons between front and rear leg", required=True),
        Field("foot radius", Length(above=0), "rounding of the feet's corners; absent: left sharp"),
        Field("outside arrises", Length(above=0), "round-over of the arrises away from the case; absent: left sharp"),
        Field(
            "bolts",
            Nested(
                (
                    Field("front", Many(Length(), least=0), "heights of the bolts in the front leg", default="[]"),
                    Field("rear", Many(Length(), least=0), "heights of the bolts in the rear leg", default="[]"),
                    *BOLT,
                )
            ),
            "bolts through the case sides into the legs, on the legs' middle lines; absent: none",
        ),
        Field(
            "stretcher",
            Nested(
                (
                    Field("material", MaterialName(), "what it is made of", required=True),
                    Field("up", Length(above=0), "height of its middle", required=True),
                    Field("thickness", Length(above=0), "square to the legs", required=True),
                    Field("height", Length(above=0), "along the legs", required=True),
                    Field("tenons", Nested(TENON), "its loose tenons", required=True),
                )
            ),
            "a stretcher between the rear legs",
        ),
    ),
    example="""\
stand:
  raking stand:
    left: case.left
    right: case.right
    material: leg stock
    thickness: 1 1/4
    width: 2 1/2
    top: 27 3/4
    front: {lean: 14 deg, through: {deep: 9, up: 27}}
    rear: {lean: 16 deg, apex: 26 1/2}
    tenons: {thickness: 3/8, width: 7/8, depth: 3/4, count: 2}
    foot radius: 3/8
""",
    build=build,
)
