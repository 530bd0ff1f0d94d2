"""Holes and their fasteners that meet inside the wood, or leave a wall between them that is too thin."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.drilled import Drilled, apart, coaxial, drilled
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.piece.records import HoleRow

TITLE = "holes and fasteners that meet inside the wood"
CODES = ("holes-meet", "holes-close")
LOOKS = looks.Looks(looks.holes)

LEAST = 1.5
"""mm of wood between two holes, about 1/16 in, so that a drill does not wander into its neighbour. Common practice."""

SAME = 1e-3


def check(subject: Subject) -> Iterator[Finding]:
    """Yield, once for two rows of a part, holes that run into each other or come nearer than 1.5 mm."""
    for part in subject.piece.parts:
        worst: dict[tuple[str, str, str, str], tuple[float, Drilled, Drilled]] = {}
        for one, other in combinations(drilled(part), 2):
            if coaxial(one, other) or _meant(one.row, other.row):
                continue
            wall = apart(one, other) - one.radius - other.radius
            key = (one.feature.name, one.row.name, other.feature.name, other.row.name)
            if wall < LEAST - SAME and (key not in worst or wall < worst[key][0]):
                worst[key] = (wall, one, other)
        for found in worst.values():
            yield _finding(subject, part, *found)


def _meant(one: HoleRow, other: HoleRow) -> bool:
    """Tell whether the one is bored to meet the other, as a bolt's bore does its barrel nut's."""
    return bool((one.meets and one.meets == other.name) or (other.meets and other.meets == one.name))


def _finding(subject: Subject, part: Part, wall: float, one: Drilled, other: Drilled) -> Finding:
    meet = wall <= SAME
    names = " and ".join(f"{h.feature.title}" for h in (one, other))
    if one.feature.name == other.feature.name:
        names = f"two of {one.feature.title}"
    return Finding(
        Grade.STOP if meet else Grade.CARE,
        "holes-meet" if meet else "holes-close",
        (part.path,),
        f"In {part.path} {names} meet inside the wood: they run {subject.say(-wall)} into each other."
        if meet
        else f"In {part.path} {names} come within {subject.say(wall)} of each other.",
        "distance between two holes' middle lines − both radii ≥ 1.5 mm (1/16 in)",
        "geometry; the least wall is common practice",
        where(one.feature.origin, other.feature.origin, part.origin),
        (("wood between", wall, "mm"),),
        "stagger them, take shorter fasteners, or move one",
    )
