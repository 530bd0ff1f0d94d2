"""Joints whose parts stand apart in the finished piece, further than what the joint itself leaves between them."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Joint

TITLE = "joints whose parts do not meet"
CODES = ("joint-apart",)
LOOKS = looks.Looks(looks.joints)

NEAR = 0.2
"""mm that may be between parts that touch: what glue or a screw draws together. Common practice."""

ROOMS = ("gap", "clearance", "spacer", "clearance a side", "washer", "play")
"""Names of figures by which a joint says what it leaves between its parts."""


def check(subject: Subject) -> Iterator[Finding]:
    """Yield each part of a joint that comes near none of the others. Boxes that lean with their parts are compared."""
    for joint in subject.piece.joints:
        if len(joint.parts) < 2:
            continue
        allowed = room(joint) + NEAR
        for path in joint.parts:
            away = min(subject.apart(path, other) for other in joint.parts if other != path)
            if away > allowed + 1e-6:
                yield _finding(subject, joint, path, away, allowed)


def room(joint: Joint) -> float:
    """Return the room that a joint leaves between its parts by its own figures, mm."""
    return max((float(value) for name, value, kind in joint.figures if name in ROOMS and kind == "length"), default=0.0)


def _finding(subject: Subject, joint: Joint, path: str, away: float, allowed: float) -> Finding:
    return Finding(
        Grade.STOP,
        "joint-apart",
        (path, *(p for p in joint.parts if p != path)),
        f"{joint.title}: {path} stands {subject.say(away)} from the nearest part of the joint.",
        "parts of a joint touch, or leave no more than the joint's own gap, clearance or spacer and 0.2 mm",
        "geometry, between the finished parts' own boxes",
        where(joint.origin, subject.piece.part(path).origin),
        (("apart", away, "mm"), ("allowed", allowed, "mm")),
        "place the part against the other, or take off less of it",
    )
