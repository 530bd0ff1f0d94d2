"""Screws in tapped wood: do they bottom, do they hold, does the drill break through."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Fastener
from docgen.trade.fasteners import LEAST_ENGAGEMENT
from docgen.trade.knockdown import IN_METAL
from docgen.trade.names import UnknownName
from docgen.trade.threads import find

TITLE = "screws that bottom, hold too little or break through"
CODES = ("bolt-bottoms", "bolt-holds-little", "drill-breaks-through", "drill-near-surface")
LOOKS = looks.Looks(looks.bolts)

LEAST_BEHIND = 3.0
"""mm of wood to leave beyond the drill's point, about 1/8 in. Common practice."""

SAME = 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield what is wrong with each fastener whose length was worked out."""
    for fastener in subject.piece.fasteners:
        if fastener.length is not None and fastener.tapped_depth > 0:
            yield from _thread(subject, fastener)
        yield from _behind(subject, fastener)


def _thread(subject: Subject, f: Fastener) -> Iterator[Finding]:
    over = f.engagement - f.tapped_depth
    through = f.wood_behind is None
    if over > SAME and not through:
        yield _finding(
            subject, f, Grade.STOP, "bolt-bottoms",
            f"Screw {f.key} ({_size(subject, f)}) bottoms: it reaches {subject.say(f.engagement)} into {f.parts[1]}, where "
            f"{subject.say(f.tapped_depth)} is tapped; it stands out by {subject.say(over)}.",
            "length − washer − grip ≤ depth of full threads",
            (("engagement", float(f.engagement), "mm"), ("full threads", float(f.tapped_depth), "mm")),
            "a shorter screw, a deeper thread or a thicker washer",
        )  # fmt: skip
    if over > SAME and through:
        yield _finding(
            subject, f, Grade.CARE, "bolt-bottoms",
            f"Screw {f.key} ({_size(subject, f)}) stands {subject.say(over)} out of the far side of {f.parts[1]}.",
            "length − washer − grip ≤ wood that is tapped",
            (("engagement", float(f.engagement), "mm"), ("tapped wood", float(f.tapped_depth), "mm")),
            "a shorter screw or a thicker washer",
        )  # fmt: skip
    try:
        major = find(f.thread).major
    except UnknownName:
        return
    held = min(f.engagement, f.tapped_depth)
    least, where_ = (IN_METAL, "metal") if f.metal else (LEAST_ENGAGEMENT, "wood")
    if held < least * major - SAME:
        yield _finding(
            subject, f, Grade.CARE, "bolt-holds-little",
            f"Screw {f.key} ({_size(subject, f)}) holds in {subject.say(held)} of thread, {float(held / major):.2f} diameters.",
            f"engagement in {where_} at least {least} diameter{'s' if least > 1 else ''}",
            (("engagement", float(held), "mm"), ("diameters", float(held / major), "")),
            "a longer screw, less grip, or thicker wood to tap",
        )  # fmt: skip


def _behind(subject: Subject, f: Fastener) -> Iterator[Finding]:
    if f.wood_behind is None or f.wood_behind >= LEAST_BEHIND:
        return
    through = f.wood_behind <= 0
    yield _finding(
        subject, f,
        Grade.STOP if through else Grade.CARE,
        "drill-breaks-through" if through else "drill-near-surface",
        f"The drill for screw {f.key} breaks through {f.parts[1]} by {subject.say(-f.wood_behind)}."
        if through
        else f"The drill for screw {f.key} leaves {subject.say(f.wood_behind)} of {f.parts[1]} beyond its point.",
        "wood behind = thickness − depth of full diameter − 0.3 · diameter (118° point), at least 3 mm",
        (("wood behind the point", float(f.wood_behind), "mm"),),
        "a shorter screw, a shallower hole with a bottoming tap, or thicker wood",
    )  # fmt: skip


def _size(subject: Subject, f: Fastener) -> str:
    return f"{f.thread} × {subject.say(f.length)}" if f.length is not None else f.thread


def _finding(
    subject: Subject,
    f: Fastener,
    grade: Grade,
    code: str,
    message: str,
    rule: str,
    figures: tuple[tuple[str, float, str], ...],
    advice: str,
) -> Finding:
    parts = tuple(p for p in f.parts if p)
    return Finding(grade, code, parts, message, rule, "common practice", where(f.origin), figures, advice)
