"""What slides and runners of every kind say of their drawer, and the drawer noted with what is bought for it."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault, figure
from docgen.piece.joints.meeting import NEAR
from docgen.piece.joints.telling import fault
from docgen.piece.model import Drawer, Item, Part
from docgen.piece.records import Origin
from docgen.project.fields import Box, Field, Length, Many, PartName, Words
from docgen.project.statements import Bound
from docgen.units import Number, plain_length

Figures = tuple[tuple[str, Number, str], ...]

HANDS = ("left", "right")
"""The order in which sides, parts of the case and strips are named."""

STANDS_BACK = "box stands back"
"""The figure of a drawer that tells how far its box stands behind the front edge of the case when it is shut."""

STOP_BLOCKS = "stop blocks"
"""The figure of a drawer that blocks behind its sides stop: their depth, front to back."""

DRAWER = (
    Field("drawer", Words(), "name of the drawer", required=True),
    Field("parts", Many(PartName()), "all parts of the drawer", required=True),
    Field("front", PartName(), "its front; what it runs on starts behind it", required=True),
    Field("sides", Many(PartName(), least=2), "the drawer's left and right side", required=True),
    Field("cases", Many(PartName(), least=2), "the parts left and right of the opening", required=True),
    Field("opening", Box(), "the clear opening behind the front", required=True),
    Field("gap", Length(least=0), "left free round the front", required=True),
)
"""The fields that slides and runners of every kind have."""


def drawer(
    bench: Bench,
    values: Bound,
    told: Figures,
    *,
    length: Number,
    clearance: Number,
    runners: tuple[str, ...] = (),
    bed: str = "",
) -> None:
    """Note the drawer with the figures of what it runs on, which is `length` long."""
    bench.drawer(
        Drawer(
            name=values["drawer"],
            parts=tuple(values["parts"]),
            opening=values["opening"],
            clearance=clearance,
            slide_length=length,
            gap=values["gap"],
            figures=told,
            origin=Origin(values.span, values.because),
            runners=runners,
            bed=bed,
        )
    )


def note(bench: Bench, values: Bound, told: Figures, what: str) -> None:
    """Note the drawer with the figures of its slides, and a pair of slides to buy."""
    drawer(bench, values, told, length=values["length"], clearance=values["clearance"])
    bench.item(
        Item(
            what=what,
            count=1,
            size=f"{plain_length(values['length'], bench.units)} {bench.units.sign} long",
            note="their own sheet rules: read it before the drawer is cut",
            origin=Origin(values.span, values.because),
        )
    )


def pairs(bench: Bench, values: Bound, *names: str, code: str) -> tuple[list[Part], ...]:
    """Return the left and the right part that each of these fields names; `Fault` where one names more."""
    found = {name: [bench.part(path) for path in values[name]] for name in names}
    for name, parts in found.items():
        if len(parts) != len(HANDS):
            raise Fault(
                code, f"{len(parts)} {name} are named", name, "one left of the drawer's middle and one right of it"
            )
    return tuple(found.values())


def beside(
    bench: Bench, values: Bound, sides: list[Part], cases: list[Part], clearance: Number, *, slides: bool = False
) -> bool:
    """Tell whether each side of a drawer stands its clearance, or that of its slide, away from its case part.

    What does not is told.
    """
    gaps = (sides[0].box[0][0] - cases[0].box[0][1], cases[1].box[0][0] - sides[1].box[0][1])
    wrong = [(gap, case) for gap, case in zip(gaps, cases, strict=True) if abs(float(gap - clearance)) > NEAR]
    code, asks, less = ("drawer-room", "its clearance is", "both")
    if slides:
        code, asks, less = ("slide-room", "the slide asks for", "the slides")
    for gap, case in wrong:
        message = f"the drawer stands {figure(gap)} from {case.path}, {asks} {figure(clearance)}"
        fault(values, "clearance", code, message, f"a box as wide as the opening less {less}", on=bench)
    return not wrong
