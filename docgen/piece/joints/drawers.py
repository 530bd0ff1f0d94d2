"""What slides of every kind say of their drawer, and the drawer noted with what is bought for it."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.model import Drawer, Item
from docgen.piece.records import Origin
from docgen.project.fields import Box, Field, Length, Many, PartName, Words
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Figures = tuple[tuple[str, Number, str], ...]

DRAWER = (
    Field("drawer", Words(), "name of the drawer", required=True),
    Field("parts", Many(PartName()), "all parts of the drawer", required=True),
    Field("front", PartName(), "its front; the slides start behind it", required=True),
    Field("sides", Many(PartName(), least=2), "the drawer's left and right side", required=True),
    Field("cases", Many(PartName(), least=2), "the parts left and right of the opening", required=True),
    Field("opening", Box(), "the clear opening behind the front", required=True),
    Field("gap", Length(least=0), "left free round the front", required=True),
)
"""The fields that slides of every kind have."""


def note(bench: Bench, values: Bound, told: Figures, what: str) -> None:
    """Note the drawer with the figures of its slides, and a pair of slides to buy."""
    origin = Origin(values.span, values.because)
    bench.drawer(
        Drawer(
            name=values["drawer"],
            parts=tuple(values["parts"]),
            opening=values["opening"],
            clearance=values["clearance"],
            slide_length=values["length"],
            gap=values["gap"],
            figures=told,
            origin=origin,
        )
    )
    bench.item(
        Item(
            what=what,
            count=1,
            size=f"{plain_length(values['length'], bench.units)} {bench.units.sign} long",
            note="their own sheet rules: read it before the drawer is cut",
            origin=origin,
        )
    )
