"""What a check answers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from docgen.places import Span


class Grade(StrEnum):
    """How grave a finding is."""

    STOP = "stop"  # cannot be built as drawn
    CARE = "care"  # can be built, needs attention
    NOTE = "note"  # good to know


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a check found, with its figures, rule and source."""

    grade: Grade
    code: str  # stable, has a section in shared/problems.md
    parts: tuple[str, ...]
    message: str  # one or two sentences with the figures and units
    rule: str  # "wood left on the mitre's diagonal = T·√2 − R·(√2 − 1)"
    source: str  # where the rule comes from; "common practice" if from nowhere else
    where: Span | None = None
    figures: tuple[tuple[str, float, str], ...] = ()  # name, value, unit (mm, deg, N, kg, "")
    advice: str = ""  # a way out
    aside: tuple[str, ...] = ()  # names of figures for who works on the file: paper leaves them out
