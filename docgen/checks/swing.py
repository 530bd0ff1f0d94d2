"""The way of tilting and turning groups: every part of the group against everything else, at several angles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, boxes_meet, where
from docgen.geometry.solids import overlap
from docgen.piece.model import Group

TITLE = "the swing of groups that tilt or turn"
CODES = ("swing-hits",)

STEPS = 12
"""Angles between the ends of the range at which the group is tried, beside both ends."""

HALVINGS = 6
"""The angle of the first contact is found to the step divided by 2 to this power."""


@dataclass(frozen=True, slots=True)
class Hit:
    """The worst place of one pair: angle, volume, thickness."""

    degrees: float
    volume: float
    thickness: float


def angles(group: Group) -> list[float]:
    """Return the angles tried, from rest outward, without rest itself: what overlaps there is told as that."""
    low, high = float(group.range[0]), float(group.range[1])
    count = STEPS + 1
    found = [low + (high - low) * k / count for k in range(count + 1)]
    return sorted((a for a in found if abs(a) > 1e-9), key=lambda a: (abs(a), a))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield each pair of a group's part and another part that come into each other on the way."""
    for group in subject.piece.groups:
        others = [p.path for p in subject.piece.parts if p.path not in group.parts]
        for mine in group.parts:
            for other in others:
                hits = [(a, h) for a in angles(group) if (h := _at(subject, group, mine, other, a)) is not None]
                if hits and _at(subject, group, mine, other, 0.0) is None:
                    yield _finding(subject, group, (mine, other), hits)


def _at(subject: Subject, group: Group, mine: str, other: str, degrees: float) -> Hit | None:
    moved = subject.swung(mine, group, degrees)
    still = subject.placed(other)
    if not boxes_meet(moved.bounds, still.bounds):
        return None
    found = overlap(moved, still)
    return None if found is None else Hit(degrees, found.volume, found.thickness)


def _finding(subject: Subject, group: Group, pair: tuple[str, str], hits: list[tuple[float, Hit]]) -> Finding:
    first = hits[0][0]
    tried = [0.0, *(a for a in angles(group) if a * first > 0)]
    before = max((a for a in tried if abs(a) < abs(first)), key=abs)
    touch = _first_contact(subject, group, pair, before, first)
    worst = max((h for _, h in hits), key=lambda h: (h.thickness, h.volume))
    return Finding(
        Grade.STOP,
        "swing-hits",
        pair,
        f"When {group.name} turns, {pair[0]} meets {pair[1]} at {abs(touch):.1f}° from rest; at {abs(worst.degrees):.1f}° it would "
        f"stand {subject.say(worst.thickness)} in it ({worst.volume:.0f} mm³). It is to turn to "
        f"{max(abs(float(r)) for r in group.range):.1f}°.",
        f"no overlap at rest's neighbours, at {STEPS} angles between and at the ends of the range",
        "solids of the finished parts, turned about the group's axis",
        where(subject.piece.part(pair[0]).origin, subject.piece.part(pair[1]).origin),
        (
            ("first contact", abs(touch), "deg"),
            ("worst at", abs(worst.degrees), "deg"),
            ("thickness there", worst.thickness, "mm"),
            ("volume there", worst.volume, "mm³"),
        ),
        "move the axis, tilt less, or cut the part that is in the way",
    )


def _first_contact(subject: Subject, group: Group, pair: tuple[str, str], clear: float, hit: float) -> float:
    """Return the angle of the first contact between one that is clear and one that is not, by halving."""
    for _ in range(HALVINGS):
        middle = (clear + hit) / 2
        if _at(subject, group, pair[0], pair[1], middle) is None:
            clear = middle
        else:
            hit = middle
    return hit
