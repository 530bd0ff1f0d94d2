"""Wood in wood: two finished parts that want the same space at rest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.solids import LEAST_THICK, overlap
from docgen.piece.model import Piece

TITLE = "parts in the same space"
CODES = ("parts-overlap",)
LOOKS = looks.Looks(looks.several)


def declared(piece: Piece, one: str, two: str) -> float:
    """Return the interference that a joint of the two parts declares as its fit, mm (a press fit); 0 when none does."""
    fits = [
        float(value)
        for joint in piece.joints
        if one in joint.parts and two in joint.parts
        for name, value, _ in joint.figures
        if name == "interference"
    ]
    return max(fits, default=0.0)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield each pair that overlaps by more than 1 mm³ and 0.05 mm, beyond a fit that their joint declares."""
    parts = subject.piece.parts
    for a, b in combinations(parts, 2):
        if subject.apart(a.path, b.path) > -LEAST_THICK:
            continue
        found = overlap(subject.placed(a.path), subject.placed(b.path))
        if found is None or found.thickness <= declared(subject.piece, a.path, b.path):
            continue
        across, deep, up = found.centre
        yield Finding(
            Grade.STOP,
            "parts-overlap",
            (a.path, b.path),
            f"{a.path} and {b.path} are in the same place: {found.volume:.0f} mm³, {subject.say(found.thickness)} thick, "
            f"round {subject.say(across)} across, {subject.say(deep)} deep, {subject.say(up)} up.",
            "two finished parts share at most 1 mm³ and 0.05 mm, or the fit that their joint declares",
            "solids of the finished parts",
            where(b.origin, a.origin),
            (("volume", found.volume, "mm³"), ("thickness", found.thickness, "mm")),
            "move a part, cut a joint between them, or make one smaller",
        )
