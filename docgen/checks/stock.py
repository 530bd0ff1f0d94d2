"""Boards and sheets against the parts that are cut from them: too short, too narrow, too thin."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Material, Part
from docgen.trade.boards import Quarters, quarters
from docgen.trade.names import INCH, UnknownName

TITLE = "stock shorter or thinner than what is cut from it"
CODES = ("stock-too-short", "stock-too-thin", "stock-rough-only", "stock-little-to-flatten")

FLATTEN = INCH / 16
"""What surfaced stock should have over the finished thickness, to be flattened. Common practice."""

SAME = 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield parts and blanks longer than the stated stock, sheets wider than it, and boards too thin to be milled."""
    seen: set[str] = set()
    for row in subject.schedules.cutting:
        part = subject.piece.part(row.parts[0])
        if not row.blank:
            yield from _short(subject, part, row.title, float(row.rough[0]), float(row.rough[1]))
        if part.material.name not in seen:
            seen.add(part.material.name)
            yield from _thin(subject, part)
    for blank in subject.schedules.blanks:
        part = subject.piece.part(blank.pieces[0].path)
        yield from _short(subject, part, f"the blank {blank.name}", float(blank.length), 0.0)


def _short(subject: Subject, part: Part, title: str, length: float, width: float) -> Iterator[Finding]:
    stock = part.material.stock
    if stock is None:
        return
    long, wide = float(stock[0]), float(stock[1])
    # Solid boards are glued up to width; sheets are not.
    sheet_wide = not part.material.solid_wood and width > wide + SAME
    if length <= long + SAME and not sheet_wide:
        return
    what, need, have = ("wide", width, wide) if length <= long + SAME else ("long", length, long)
    yield Finding(
        Grade.STOP,
        "stock-too-short",
        (part.path,),
        f"{title} needs {part.material.name} {subject.say(need)} {what}, rough; the stock is {subject.say(have)} {what}.",
        "rough size ≤ stock; solid boards may be glued up to width",
        "the stock as the file states it; trim as in the cutting list",
        where(part.material.origin, part.origin),
        (("needed", need, "mm"), ("stock", have, "mm")),
        "longer stock, a joint in the length, or another layout",
    )


def _quarters(material: Material) -> Quarters | None:
    if not material.solid_wood or not material.bought:
        return None
    try:
        return quarters(material.bought)
    except UnknownName:
        return None


def _thin(subject: Subject, part: Part) -> Iterator[Finding]:
    stock = _quarters(part.material)
    if stock is None:
        return
    thick = part.material.thickness
    if thick > stock.rough + SAME:
        grade, code, told = Grade.STOP, "stock-too-thin", f"only {subject.say(stock.rough)} even in the rough"
    elif thick > stock.surfaced + SAME:
        grade, code, told = Grade.CARE, "stock-rough-only", f"{subject.say(stock.surfaced)} when surfaced: buy it rough"
    elif stock.surfaced - thick < FLATTEN - SAME:
        left = subject.say(stock.surfaced - thick)
        grade, code, told = (
            Grade.NOTE,
            "stock-little-to-flatten",
            f"{subject.say(stock.surfaced)} when surfaced: {left} is left to flatten",
        )
    else:
        return
    yield Finding(
        grade,
        code,
        (part.path,),
        f"{part.material.name} is {subject.say(thick)} thick; {stock.name} stock is {told}.",
        "surfaced thickness of the quarter − finished thickness ≥ 1/16 in to flatten",
        "NHLA grading rules and Wood Handbook, Table 6-2; 1/16 in is common practice",
        where(part.material.origin, part.origin),
        (
            ("finished", float(thick), "mm"),
            ("surfaced", float(stock.surfaced), "mm"),
            ("rough", float(stock.rough), "mm"),
        ),
        "the next thicker stock" if grade is not Grade.NOTE else "choose flat boards, or buy it rough",
    )
