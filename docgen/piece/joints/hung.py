"""Hung: a door or lid turns about the pins of its hinges, at an upright edge of it."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.model import Group, Item, Joint
from docgen.piece.records import Authority, Origin
from docgen.project.fields import Angle, Choice, Count, Field, Length, Many, PartName, Word, Words
from docgen.project.statements import Bound
from docgen.units import Number

HINGES = (
    Field("on", PartName(), "the part of the case that it hangs on", required=True),
    Field("side", Choice(("left", "right")), "the side at which it hangs, seen from the front", required=True),
    Field("kind", Words(), "what is bought: butt hinge, 50 mm", default="hinge"),
    Field("count", Count(), "how many", default="2"),
    Field("opens", Angle(least=1, most=180), "how far it swings", default="95"),
    Field("pin", Length(least=0), "how far the pins stand before the front face", default="0"),
    Field("off", Length(), "how far they stand beside the edge, away from the door", default="0"),
)
"""The fields of hinges, wherever they are said."""


def build(bench: Bench, values: Bound) -> None:
    """Note the parts that swing, about the pins, and the hinges to buy."""
    stile = bench.part(values["stile"])
    right = values["side"] == "right"
    edge, front = stile.box[0][1 if right else 0], stile.box[1][0]
    across = float(edge + values["off"] if right else edge - values["off"])
    # Its free edge comes forward: about up, across turns toward the back where the angle is positive.
    swing = (0, values["opens"]) if right else (-values["opens"], 0)
    point = (across, float(front - values["pin"]), float(stile.box[2][0]))
    bench.group(Group(values["name"], tuple(values["parts"]), point, 2, swing))
    post = bench.part(values["on"])
    room = max(max(a[0] - b[1], b[0] - a[1]) for a, b in zip(stile.box, post.box, strict=True))
    origin = Origin(values.span, values.because)
    figures: tuple[tuple[str, Number, str], ...] = (
        ("clearance", max(room, 0), "length"),
        ("opens", values["opens"], "angle"),
    )
    bench.joint(Joint("hung", f"{values['name']} on {post.path}", (stile.path, post.path), (), figures, origin))
    bench.item(
        Item(
            what=values["kind"],
            count=values["count"],
            authority=Authority.HARDWARE,
            note=f"for {values['name']}: read its own sheet before the door is cut",
            origin=origin,
        )
    )


WORD = Word(
    name="hung",
    room="joint",
    help="an upright door turns about the pins of hinges at one of its sides; the swing is tried against everything else",
    fields=(
        Field("name", Words(), "what the door is called", required=True),
        Field("parts", Many(PartName()), "everything that turns", required=True),
        Field("stile", PartName(), "the part that carries the hinges", required=True),
        *HINGES,
    ),
    example="hung: {name: door, parts: [door], stile: door, on: side, side: left, kind: 'butt hinge, 2 in', count: 2}",
    build=build,
)
