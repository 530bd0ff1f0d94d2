"""Stops of dados and grooves: whether what goes in, or a neighbour, covers their ends, or some of the trench lies open to sight."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import Trench, trenches
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Stage

TITLE = "stops of dados and grooves: what covers their ends"
CODES = ("stop-shows",)

OUTSIDE = 0.5
"""mm before the face at which it is asked what lies there."""

LEAST = 0.3
"""mm that no eye finds in a joint."""

MOST = 40.0
"""mm: a trench open further than a cutter's radius reaches is meant to be seen, or holds what slides in it."""

LOOKS = looks.Looks(lambda piece: any(True for p in piece.parts for t in trenches(p) for _ in t.stops(p)))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield stops whose end begins before the part that fills the trench: a hollow beside it that is seen."""
    for part in subject.piece.parts:
        for trench in trenches(part):
            if trench.feature.stage is not Stage.PART:
                continue
            for end in trench.stops(part):
                found = _open(subject, part, trench, end)
                if found is not None and LEAST < found[0] < MOST:
                    yield _finding(subject, part, trench, *found)


def _open(subject: Subject, part: Part, trench: Trench, end: int) -> tuple[float, str] | None:
    """Return how far the trench lies open from its end on, and what covers it then; None where nothing does."""
    x, y, _ = trench.at(trench.reach[end])
    mouth = float(part.size[trench.axis]) + OUTSIDE if trench.side else -OUTSIDE
    start = part.frame.point((x, y, mouth))
    back = -1.0 if end else 1.0
    direction = part.frame.direction((trench.way[0] * back, trench.way[1] * back, trench.way[2] * back))
    found: list[tuple[float, str]] = []
    for other in subject.piece.parts:
        if other.path != part.path and _near(other, start):
            wood = subject.mesh(other.path).wood(start, direction)
            found += [(wood[0][0], other.path)] if wood else []
    return min(found, default=None)


def _near(other: Part, point: Vec) -> bool:
    own = other.frame.inverse().point(point)
    spans = (other.span(i) for i in range(3))
    return all(float(low) - MOST <= c <= float(high) + MOST for c, (low, high) in zip(own, spans, strict=True))


def _finding(subject: Subject, part: Part, trench: Trench, gap: float, by: str) -> Finding:
    return Finding(
        Grade.CARE,
        "stop-shows",
        (part.path, by),
        f"The end of {trench.feature.title} in {part.path} lies open over {subject.say(gap)} before {by} covers it.",
        "a stopped dado or groove ends under what it holds; a round end reaches its cutter's radius beyond the full width",
        "common practice",
        where(trench.feature.origin, part.origin),
        (("open", gap, "mm"),),
        "stop it further in by more than that, or square its end",
    )
