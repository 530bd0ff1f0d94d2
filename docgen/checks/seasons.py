"""Inset fronts and solid panels over the year: how much they swell against the room they have."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.nesting import front_of
from docgen.checks.subject import Subject, where
from docgen.checks.year import year
from docgen.piece.model import Part
from docgen.piece.records import Origin
from docgen.piece.woods import movement
from docgen.trade.movement import VALID, change, greatest_height
from docgen.units import Number

TITLE = "seasonal movement of inset fronts and panels against their gaps"
CODES = ("front-binds", "panel-binds")
LOOKS = looks.Looks(looks.either(looks.drawers, looks.panes), looks.moisture, "no moisture or humidity")

SAME = 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield fronts and panels of solid wood that swell by more than their two gaps, over the stated moisture range."""
    told = year(subject.piece)
    if told is None:
        return
    start, to = told.start, told.wet
    for drawer in subject.piece.drawers:
        front = front_of(subject.piece, drawer)
        if front is not None:
            yield from _swells(subject, front, drawer.gap, "front-binds", drawer.origin, (start, to))
    for pane in subject.piece.panes:
        panel = subject.piece.part(pane.pane)
        yield from _swells(subject, panel, pane.clearance, "panel-binds", pane.origin, (start, to))


def _swells(
    subject: Subject, part: Part, gap: Number, code: str, origin: Origin, moisture: tuple[Number, Number]
) -> Iterator[Finding]:
    """Compare the swelling across the grain, flat-sawn, with the gap on both sides together."""
    wood = movement(part.material)
    if wood is None:
        return
    start, to = (float(m) for m in moisture)
    wide = float(part.size[1])
    grows = change(wide, wood.tangential, start, to)
    room = 2 * float(gap)
    if grows <= room + SAME:
        return
    tallest = greatest_height(room, wood.tangential, to - start)
    outside = (
        "" if VALID[0] <= min(start, to) and max(start, to) <= VALID[1] else " (beyond 6 to 14 % the figure is rough)"
    )
    yield Finding(
        Grade.CARE,
        code,
        (part.path,),
        f"{part.path} is {subject.say(wide)} across the grain and swells by {subject.beside(grows, room)} from {start:g} to {to:g} % "
        f"moisture if it is flat-sawn; it has {subject.say(room)} in all{outside}.",
        "ΔD = D · C · (M₂ − M₁) ≤ both gaps together; C is the tangential coefficient",
        f"Wood Handbook, FPL-GTR-190, Equation 13-2; figures: {wood.source}",
        where(origin, part.origin),
        (("swelling", grows, "mm"), ("room", room, "mm"), ("greatest width for this room", tallest, "mm")),
        f"a wider gap, quarter-sawn wood ({subject.say(change(wide, wood.radial, start, to))}), or fit it on a moist day",
    )
