"""Boards glued up to width from the stated stock: clamps needed by the 45° rule against the clamps that the shop has."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.trade.glueup import clamps, greatest_spacing

TITLE = "clamps for boards that are glued up to width"
CODES = ("clamps-short", "clamps-few")
LOOKS = looks.Looks(looks.solid, looks.shop("clamp", "clamps"), "no clamps of the shop")

RULE = "clamps = length / (2 · distance from the jaw to the nearest glue line), the outer ones half a spacing from the ends"
SOURCE = "pressure that spreads at 45° from each jaw; common practice"

SAME = 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield glue-ups that need more clamps, or longer ones, than the shop has.

    A part of solid wood that is wider in the rough than its stated stock is glued from as few equal boards as the
    stock allows, without cauls. Silent where neither stock nor clamps are stated.
    """
    shop = dict(subject.piece.shop)
    longest, count = shop.get("clamp"), shop.get("clamps")
    for part, title, long, wide in _glue_ups(subject):
        boards = glued(part, wide)
        if boards < 2:
            continue
        if longest is not None and wide > float(longest) + SAME:  # type: ignore[arg-type]
            yield _short(subject, part, title, wide, float(longest))  # type: ignore[arg-type]
        if count is not None:
            reach = wide / boards
            needed = clamps(long, reach)
            if needed > int(count):  # type: ignore[call-overload]
                yield _few(subject, part, title, (long, reach), boards, (needed, int(count)))  # type: ignore[call-overload]


def _glue_ups(subject: Subject) -> Iterator[tuple[Part, str, float, float]]:
    """Yield what may be glued up, with its rough length and width, mm: parts, and blanks that parts are cut from in turn."""
    for row in subject.schedules.cutting:
        if not row.blank:
            yield subject.piece.part(row.parts[0]), row.title, float(row.rough[0]), float(row.rough[1])
    for blank in subject.schedules.blanks:
        part = subject.piece.part(blank.pieces[0].path)
        yield part, f"the blank {blank.name}", float(blank.length), float(blank.width)


def glued(part: Part, wide: float) -> int:
    """Return from how many boards a part `wide` mm in the rough is glued: 1 where its stock is not stated, or wide enough."""
    stock = part.material.stock
    if stock is None or not part.material.solid_wood or part.hardware:
        return 1
    return max(1, math.ceil(wide / float(stock[1]) - SAME))


def _short(subject: Subject, part: Part, title: str, wide: float, longest: float) -> Finding:
    return Finding(
        Grade.CARE,
        "clamps-short",
        (part.path,),
        f"{title} is glued up to {subject.say(wide)}, rough; the longest clamp opens {subject.say(longest)}.",
        "a clamp opens at least as wide as the glue-up",
        "the stock and the clamps as the file states them",
        where(part.origin),
        (("needed", wide, "mm"), ("longest clamp", longest, "mm")),
        "glue two halves first and the last line with wedges against battens, or lengthen the clamps",
    )


def _few(
    subject: Subject, part: Part, title: str, size: tuple[float, float], boards: int, told: tuple[int, int]
) -> Finding:
    (long, reach), (needed, have) = size, told
    return Finding(
        Grade.CARE,
        "clamps-few",
        (part.path,),
        f"{title} is glued from {boards} boards of {subject.say(reach)}: its glue lines are {subject.say(long)} long and need "
        f"{needed} clamps, no further apart than {subject.say(greatest_spacing(reach))}; the shop has {have}.",
        RULE,
        SOURCE,
        where(part.origin),
        (
            ("clamps needed", float(needed), ""),
            ("clamps in the shop", float(have), ""),
            ("jaw to glue line", reach, "mm"),
        ),
        "stiff cauls along both edges carry the pressure further: a caul adds its width to the distance",
    )
