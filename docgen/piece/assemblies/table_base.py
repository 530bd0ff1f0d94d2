"""A table base: four legs, upright or splayed, and aprons between them; stretchers lower down."""

from __future__ import annotations

from docgen.expressions import Expr, cos, sin
from docgen.piece.assemblies.frames import DOWELS
from docgen.piece.assemblies.table_places import Base, Leg, Place, legs_of
from docgen.piece.assemblies.terms import AXES, SIDES, around, given, half, zero
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.tenoning import TENON
from docgen.project.fields import Angle, Choice, Field, Flag, Length, Many, MaterialName, Nested, Word
from docgen.project.fields import Box as BoxField

ROUND = ("front", "back", "left", "right")


def build(draft: Draft, values: Lazy) -> None:
    """Say legs, aprons and stretchers with their joints."""
    base = Base(draft, values, legs_of(values), values["splay"] is not None)
    for leg in base.legs:
        _leg(base, leg)
    apron = values["aprons"]
    _rails(base, apron, "apron", base.box[2][1] - apron["below top"], level=True)
    stretchers = values["stretchers"]
    if stretchers is not None:
        if values["taper"] is not None:
            message = "legs that taper on their inner faces leave no flat for stretchers"
            raise Fault("rail-joint", message, "stretchers", "legs without taper")
        _rails(base, stretchers, "stretcher", stretchers["up"] + stretchers["width"], level=False)


def _leg(base: Base, leg: Leg) -> None:
    """Say a leg, cut level at both ends where it leans, and its taper."""
    draft, size, values = base.draft, base.size, base.values
    path, (low, high) = base.named(leg.path), base.box[2]
    up, extra = (low, high), zero()
    turns: tuple[tuple[int, Expr, Expr, Expr], ...] = ()
    if base.splayed:
        # From the middle of the top down to the floor along the leg, and on to the long points of both ends.
        steep = cos(leg.alpha) * cos(leg.beta)
        a, b = base.legs[0].alpha, base.legs[-1].beta  # both positive: the same lean on every side
        extra = half(size) * (sin(a) * cos(b) + sin(b)) / (cos(a) * cos(b))
        up = (high - (high - low) / steep - extra, high + extra)
        turns = ((1, leg.alpha, leg.across, high), (0, leg.beta, leg.deep, high))
    draft.part(
        path,
        material=values["legs"]["material"],
        grain="up",
        box=(around(leg.across, size), around(leg.deep, size), up),
        turns=turns,
        show=leg.hand,
        called=leg.path,
    )
    if base.splayed:
        draft.say("joints", "level ends", part=path, top=high, bottom=low)
    taper = values["taper"]
    if taper is not None:
        run = high - low - values["aprons"]["width"] - values["aprons"]["below top"] - taper["under"]
        run = run / (cos(leg.alpha) * cos(leg.beta)) + extra if base.splayed else run
        inner = [SIDES[0][leg.hand == "left"], SIDES[1][leg.end == "front"]]
        draft.say("operations", "taper", part=path, face=inner, end="bottom", run=run, amount=size - taper["foot"])


def _rails(base: Base, rail: Lazy, noun: str, top: Expr, *, level: bool) -> None:
    """Say the rails of one height, each between two legs, with its joints; `top` is the height of their upper edges.

    Between legs that lean the rails lean with them, so that their joints stay in the rails' thickness.
    """
    for side in rail["sides"]:
        path = base.named(f"{side} {noun}")
        place = Place.of(base, rail, side, top, level=level)
        base.draft.part(
            path,
            material=rail["material"],
            grain=AXES[place.along],
            box=place.box(),
            turns=place.turns(),
            show=side,
            called=f"{side} {noun}",
        )
        if level and base.leans(place.square):
            inside = next(word for word in SIDES[place.square] if word != side)
            base.draft.say("operations", "bevel", part=path, end="top", long_point=inside, angle=place.lean)
        ends = [leg for leg in base.legs if side in (leg.hand, leg.end)]
        _joined(base, rail, path, [base.named(leg.path) for leg in ends])


def _joined(base: Base, rail: Lazy, path: str, legs: list[str]) -> None:
    """Say the joints at both ends of a rail; between legs that lean each cuts the rail's ends to lie on them."""
    ways = [way for way in WAYS if rail[way] is not None]
    if len(ways) != 1:
        found = " and ".join(ways) or "nothing"
        message = f"rails are joined in one way, here is {found}"
        raise Fault("rail-joint", message, "", f"one of {', '.join(WAYS)}")
    how = rail[ways[0]]
    if ways[0] == "tenons":
        shoulder = {"top": how["above"], "bottom": how["below"]}
        fields = {name: how[name] for name in ("thickness", "length", "through", "rounded")}
        base.draft.say("joints", "mortise and tenon", end=path, into=legs, shoulder=shoulder, **fields)
        return
    for leg in legs:
        if ways[0] == "dowels":
            base.draft.say("joints", "dowel", part=path, into=leg, **given(how))
        else:
            base.draft.say("joints", "loose tenon", end=path, into=leg, **given(how))


WAYS = ("tenons", "dowels", "loose tenons")
"""The ways to join a rail to its legs; one is said."""

TENONS = (
    Field("thickness", Length(above=0), "of the tenons", required=True),
    Field("length", Length(above=0), "of blind tenons"),
    Field("through", Flag(), "they go through the legs", default="no"),
    Field("above", Length(above=0), "shoulder at the upper edge, where the mortise would run out of the leg"),
    Field("below", Length(above=0), "shoulder at the lower edge"),
    Field("rounded", Flag(), "edges half round, as the router leaves the mortises", default="no"),
)


def _rail_fields(place: Field, sides: str) -> tuple[Field, ...]:
    return (
        Field("material", MaterialName(), "what they are made of", required=True),
        Field("thickness", Length(above=0), "of the boards", required=True),
        Field("width", Length(above=0), "of the boards, upright", required=True),
        place,
        Field("set back", Length(least=0), "behind the outer faces of the legs", default="0"),
        Field("sides", Many(Choice(ROUND)), "which there are", default=sides),
        Field("tenons", Nested(TENONS), "mortise and tenon at both ends"),
        Field("dowels", Nested(DOWELS), "or dowels"),
        Field("loose tenons", Nested(TENON), "or loose tenons"),
    )


WORD = Word(
    name="table base",
    room="assembly",
    help="four legs, upright, tapered or splayed, with aprons between them at the top and stretchers lower down",
    fields=(
        Field(
            "box",
            BoxField(),
            "outside of the legs at their upper ends; up from the floor to the underside of the top",
            required=True,
        ),
        Field(
            "legs",
            Nested(
                (
                    Field("material", MaterialName(), "what they are made of", required=True),
                    Field("size", Length(above=0), "of their square section", required=True),
                )
            ),
            "the four legs",
            required=True,
        ),
        Field(
            "splay",
            Nested(
                (
                    Field("across", Angle(least=0.5, most=30), "from plumb in the front view, feet outward"),
                    Field("deep", Angle(least=0.5, most=30), "from plumb in the side view, feet outward"),
                )
            ),
            "how the legs lean; the aprons lean with them, and their upper edges are bevelled level",
        ),
        Field(
            "taper",
            Nested(
                (
                    Field("foot", Length(above=0), "what is left of the section at the floor", required=True),
                    Field("under", Length(least=0), "how far under the aprons the taper begins", required=True),
                )
            ),
            "of the two inner faces of each leg",
        ),
        Field(
            "aprons",
            Nested(
                _rail_fields(
                    Field("below top", Length(least=0), "of the aprons under the legs' upper ends", default="0"),
                    "[front, back, left, right]",
                )
            ),
            "the boards under the top",
            required=True,
        ),
        Field(
            "stretchers",
            Nested(
                _rail_fields(
                    Field("up", Length(above=0), "height of their lower edge above the floor", required=True),
                    "[left, right]",
                )
            ),
            "rails lower down",
        ),
    ),
    example="""\
base:
  table base:
    box: {across: [1, 23], deep: [1, 15], up: [0, 21]}
    legs: {material: squares, size: 1 5/8}
    taper: {foot: 1, under: 1}
    aprons:
      material: boards
      thickness: 3/4
      width: 3 1/2
      set back: 1/8
      tenons: {thickness: 5/16, length: 3/4, above: 1/2, below: 1/4}
""",
    build=build,
)
