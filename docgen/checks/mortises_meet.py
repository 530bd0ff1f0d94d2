"""Mortises from two sides that meet in the middle of a part: the tenons in them have no room for both."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.cavities import Cavity, cavities
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import apart
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Extrusion
from docgen.geometry.solids import Solid, common, made
from docgen.piece.model import Part

TITLE = "mortises that meet in the middle"
CODES = ("mortises-meet",)
LOOKS = looks.Looks(lambda piece: any(True for p in piece.parts for _ in cavities(p)))

LEAST = 1.0  # mm³
TOUCH = 0.01  # mm


def check(subject: Subject) -> Iterator[Finding]:
    """Yield two pockets of a part that share room; those of one joint are one mortise in steps."""
    for part in subject.piece.parts:
        pockets = [c for c in subject.cavities(part.path) if not c.runs(part)]
        for one, other in combinations(pockets, 2):
            if one.feature.name == other.feature.name or _one_joint(subject, part, one, other):
                continue
            depth = -apart(one.oriented(), other.oriented())
            if depth <= TOUCH:
                continue
            volume = common(_room(one), _room(other))
            if volume > LEAST:
                yield _finding(subject, part, one, other, (depth, volume))


def _room(cavity: Cavity) -> Solid:
    low, high = sorted((cavity.mouth, cavity.bottom))
    return made(Extrusion(cavity.shape.outline, cavity.shape.frame, low, high), 1e5)


def _one_joint(subject: Subject, part: Part, one: Cavity, other: Cavity) -> bool:
    pair = {(part.path, one.feature.name), (part.path, other.feature.name)}
    return any(pair <= set(joint.features) for joint in subject.piece.joints)


def _finding(subject: Subject, part: Part, one: Cavity, other: Cavity, by: tuple[float, float]) -> Finding:
    depth, volume = by
    return Finding(
        Grade.CARE,
        "mortises-meet",
        (part.path,),
        f"In {part.path} {one.feature.title} and {other.feature.title} meet: they share {volume:.0f} mm³ and run "
        f"{subject.say(depth)} into each other.",
        "two mortises of one part leave wood between them, or their tenons are mitred where they meet",
        "solids of both cutters; common practice",
        where(one.feature.origin, other.feature.origin, part.origin),
        (("shared", volume, "mm³"), ("run together by", depth, "mm")),
        "shorten both tenons and mortises, set one higher, or mitre the tenons' ends",
    )
