"""The way of tilting and turning groups: every part of the group against everything else, at several angles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import apart
from docgen.checks.subject import Subject, boxes_meet, where
from docgen.geometry.shapes import turned
from docgen.geometry.solids import LEAST_THICK, overlap
from docgen.piece.model import Group

TITLE = "the swing of groups that tilt or turn"
CODES = ("swing-hits", "swing-behind")
LOOKS = looks.Looks(looks.groups)

BEHIND = 5.0
"""mm, about 3/16 in, by which a group may reach further back than the piece at rest before it is told: a wall may stand there. Common practice."""

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
    """Yield for each group the pair of parts that meets first on its way, and how many more meet later."""
    for group in subject.piece.groups:
        yield from _behind(subject, group)
        others = [p.path for p in subject.piece.parts if p.path not in group.parts]
        turns = {a: turned(group.axis, a, group.point) for a in angles(group)}
        found = []
        for mine in group.parts:
            boxes = {a: subject.oriented(mine).moved(turn) for a, turn in turns.items()}
            bounds = {a: box.bounds() for a, box in boxes.items()}
            for other in others:
                still = subject.oriented(other)
                around = still.bounds()
                near = [a for a in boxes if boxes_meet(bounds[a], around) and apart(boxes[a], still) <= -LEAST_THICK]
                hits = [h for a in near if (h := _at(subject, group, mine, other, a)) is not None]
                if hits and _at(subject, group, mine, other, 0.0) is None:
                    found.append((_first_contact(subject, group, (mine, other), hits[0].degrees), (mine, other), hits))
        if found:
            touch, pair, hits = min(found, key=lambda f: abs(f[0]))
            yield _finding(subject, group, pair, touch, hits, len(found) - 1)


def _behind(subject: Subject, group: Group) -> Iterator[Finding]:
    """Yield a note where a group swings out behind all that stands at rest: so far the piece keeps off a wall."""
    back = max(subject.placed(p.path).bounds[1][1] for p in subject.piece.parts)
    reach, degrees = max(
        (
            max(subject.oriented(p).moved(turned(group.axis, a, group.point)).bounds()[1][1] for p in group.parts),
            -abs(a),
        )
        for a in angles(group)
    )
    if reach - back <= BEHIND + 1e-6:
        return
    yield Finding(
        Grade.NOTE,
        "swing-behind",
        group.parts,
        f"When {group.name} turns, at {-degrees:.0f}° from rest it reaches {subject.about(reach - back)} further back than the piece: "
        "keep that much from a wall, and room for a hand.",
        "reach of the group to the back on its way ≤ the piece's own depth at rest, or the wall stands so far off",
        "geometry, by the boxes of the parts at the angles that are tried",
        where(*(subject.piece.part(p).origin for p in group.parts)),
        (("behind the piece", reach - back, "mm"), ("at", -degrees, "deg")),
        "say it where the piece is set up",
    )


def _at(subject: Subject, group: Group, mine: str, other: str, degrees: float) -> Hit | None:
    found = overlap(subject.swung(mine, group, degrees), subject.placed(other))
    return None if found is None else Hit(degrees, found.volume, found.thickness)


def _finding(
    subject: Subject, group: Group, pair: tuple[str, str], touch: float, hits: list[Hit], more: int
) -> Finding:
    worst = max(hits, key=lambda h: (h.thickness, h.volume))
    later = "" if not more else f" {more} more pair{'s' if more > 1 else ''} of parts would meet later."
    return Finding(
        Grade.STOP,
        "swing-hits",
        pair,
        f"When {group.name} turns, {pair[0]} meets {pair[1]} at {abs(touch):.1f}° from rest, and is to turn to "
        f"{max(abs(float(r)) for r in group.range):.1f}°; at {abs(worst.degrees):.1f}° it would stand "
        f"{subject.say(worst.thickness)} in it ({worst.volume:.0f} mm³).{later}",
        f"no overlap at the ends of the range and at {STEPS} angles between",
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


def _first_contact(subject: Subject, group: Group, pair: tuple[str, str], hit: float) -> float:
    """Return the angle of the first contact: between the last tried angle that is clear and `hit`, by halving."""
    clear = max((a for a in (0.0, *angles(group)) if a * hit >= 0 and abs(a) < abs(hit)), key=abs)
    for _ in range(HALVINGS):
        middle = (clear + hit) / 2
        if _at(subject, group, pair[0], pair[1], middle) is None:
            clear = middle
        else:
            hit = middle
    return hit
