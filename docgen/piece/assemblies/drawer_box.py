"""The box of a drawer: four boards joined at their corners in one of four ways, and a bottom in grooves."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies.terms import Box, from_high, from_low, given, side
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.project.fields import Choice, Count, Field, Length, MaterialName, Nested, Words

WAYS = ("housing", "rabbets", "dovetails", "fingers")
"""The fields of the ways to join the corners; one is said."""


def said(draft: Draft, box: Lazy, spans: Box, *, whole_back: bool) -> None:
    """Say the box in its outside `spans`.

    The back stands on the bottom, which is slid in from behind; a `whole_back` reaches down to the sides' lower
    edges and is grooved for it.
    """
    ways = [way for way in WAYS if box[way] is not None]
    if len(ways) != 1:
        found = " and ".join(ways) or "nothing"
        message = f"the corners of the box are joined in one way, here is {found}"
        raise Fault("drawer-corners", message, "box", f"one of {', '.join(WAYS)}")
    way = ways[0]
    whole_back = whole_back or way == "fingers"
    _boards(draft, box, spans, way, whole_back=whole_back)
    _corners(draft, box, way)
    sides = [f"{draft.name}.left", f"{draft.name}.right"]
    ends = [f"{draft.name}.box front", *([f"{draft.name}.back"] * whole_back)]
    # In boards that reach the corners the sides' grooves would show: they stop; those of front and back run out in the
    # sockets.
    rest = {"panel": f"{draft.name}.bottom", "clearance": box["bottom"]["clearance"]}
    if way in ("dovetails", "fingers"):
        draft.say("joints", "panel in groove", into=sides, stopped=True, **rest)
        draft.say("joints", "panel in groove", into=ends, **rest)
    else:
        draft.say("joints", "panel in groove", into=[*sides, *ends], **rest)


def _boards(draft: Draft, box: Lazy, spans: Box, way: str, *, whole_back: bool) -> None:
    """Say the five boards: sides full length, front and back between them or into the corners."""
    (x0, x1), (y0, y1), (z0, z1) = spans
    t, name, floor = box["thickness"], draft.name, box["bottom"]
    ply = {"material": box["material"]}
    for hand, span in (("left", from_low(x0, t)), ("right", from_high(x1, t))):
        draft.part(f"{name}.{hand}", grain="deep", box=(span, (y0, y1), (z0, z1)), called=side(name, hand), **ply)
    inside = (x0 + t, x1 - t)
    across, setback = _across(box, way, (x0, x1), inside), None
    if way == "housing":
        setback = box["housing"]["from end"]
    first, last = (y0, y1) if setback is None else (y0 + setback, y1 - setback)
    draft.part(f"{name}.box front", grain="across", box=(across, from_low(first, t), (z0, z1)), **ply)
    bottom = from_low(z0 + floor["up"], floor["thickness"])
    up = (z0, z1) if whole_back else (bottom[1], z1)
    draft.part(f"{name}.back", grain="across", box=(across, from_high(last, t), up), called=side(name, "back"), **ply)
    groove = floor["groove"] - floor["clearance"]
    rear = last - t + groove if whole_back else last
    draft.part(
        f"{name}.bottom",
        material=floor["material"],
        grain="across",
        box=((inside[0] - groove, inside[1] + groove), (first + t - groove, rear), bottom),
        authority="measure",
        called=side(name, "bottom"),
    )


def _across(box: Lazy, way: str, outside: tuple[Expr, Expr], inside: tuple[Expr, Expr]) -> tuple[Expr, Expr]:
    """Return the span of front and back: between the sides, into their rabbets, or to the outer corners."""
    if way == "housing":
        return inside
    if way == "rabbets":
        deep = box["rabbets"]["depth"]
        return inside[0] - deep, inside[1] + deep
    return outside


def _corners(draft: Draft, box: Lazy, way: str) -> None:
    """Say the joints at the four corners."""
    name = draft.name
    sides, ends = [f"{name}.left", f"{name}.right"], [f"{name}.box front", f"{name}.back"]
    if way == "dovetails":
        draft.say("joints", "dovetail", tails=sides, pins=ends, **given(box["dovetails"]))
    elif way == "fingers":
        draft.say("joints", "finger", outer=sides, inner=ends, **given(box["fingers"]))
    elif way == "rabbets":
        for end in ends:
            draft.say("joints", "panel in rabbet", panel=end, into=sides)
    else:
        _housed(draft, box["housing"], sides, ends)


def _housed(draft: Draft, housing: Lazy, sides: list[str], ends: list[str]) -> None:
    for end, flush in zip(ends, ("back", "front"), strict=True):
        draft.say(
            "joints",
            "housing",
            shelf=end,
            into=sides,
            depth=housing["depth"],
            tongue=housing["tongue"],
            flush=flush,
            through="bottom",
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
        "front and back enter the sides with tongues",
    ),
    Field(
        "rabbets",
        Nested((Field("depth", Length(above=0), "how far they go into the sides' thickness", required=True),)),
        "or they lie in rabbets at the sides' ends, glued and pinned",
    ),
    Field(
        "dovetails",
        Nested(
            (
                Field("count", Count(), "how many tails at each corner"),
                Field("spacing", Length(above=0), "or about how far from tail to tail"),
                Field("slope", Words(), "1:8 for hardwood, 1:6 for softwood, or degrees", default="1:8"),
                Field("pin", Length(above=0), "between two tails at their ends"),
                Field("half pin", Length(above=0), "at the edges, at its narrow side"),
            )
        ),
        "or by dovetails, the tails on the sides",
    ),
    Field(
        "fingers",
        Nested(
            (
                Field("count", Count(least=3), "fingers and sockets across the width, an odd number"),
                Field("width", Length(above=0), "or the width of the cutter"),
                Field("cut with", Choice(("straight bit", "dado set")), "in a router table or on a saw"),
            )
        ),
        "or by fingers",
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
        "the bottom, slid in from behind under the back; above slides and in finger joints grooved in all round",
        required=True,
    ),
)
"""The fields of a drawer's box."""
