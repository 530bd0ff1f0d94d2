"""Weights that one person should not lift alone."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.schedules.cautions import LIFT_ALONE

TITLE = "weights over 23 kg (51 lb)"
CODES = ("part-heavy", "piece-heavy")

SOURCE = "load constant of the revised NIOSH lifting equation, publication 94-110"
RULE = "one person lifts at most 23 kg (51 lb) under the best conditions"


def check(subject: Subject) -> Iterator[Finding]:
    """Yield each part over 23 kg, and the whole piece."""
    known = [(p, kg) for p in subject.piece.parts if (kg := subject.weight(p)) is not None]
    for part, kg in known:
        if kg > LIFT_ALONE:
            yield Finding(
                Grade.CARE,
                "part-heavy",
                (part.path,),
                f"{part.path} weighs {subject.weigh(kg)}: two people lift it.",
                RULE,
                SOURCE,
                where(part.origin),
                (("weight", kg, "kg"),),
                "lift it with two",
            )
    total = sum(kg for _, kg in known)
    if total > LIFT_ALONE:
        unknown = len(subject.piece.parts) - len(known)
        parts = "part" if unknown == 1 else "parts"
        more = f", {unknown} {parts} of unknown weight not counted" if unknown else ""
        yield Finding(
            Grade.CARE,
            "piece-heavy",
            (),
            f"The whole piece weighs {subject.weigh(total)} without hardware{more}: two people lift it.",
            RULE,
            SOURCE,
            None,
            (("weight", total, "kg"),),
            "lift it with two, or take it apart",
        )
