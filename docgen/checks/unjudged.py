"""Woods of which neither the file nor the tables say how they move or bend: what the checks leave out for want of it."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.sag import load_on, stiffness
from docgen.checks.standing import top_of
from docgen.checks.subject import Subject
from docgen.piece.model import Part
from docgen.piece.woods import movement

TITLE = "woods whose movement or stiffness nobody states"
CODES = ("movement-not-judged", "sag-not-judged")
LOOKS = looks.Looks(lambda piece: any(p.material.solid_wood for p in piece.parts))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield a note for each solid wood whose movement is known to neither file nor tables, and for each loaded board so."""
    unknown: dict[str, list[Part]] = {}
    for part in subject.piece.parts:
        if part.material.solid_wood and not part.hardware and movement(part.material) is None:
            unknown.setdefault(part.material.species, []).append(part)
    for species, parts in unknown.items():
        yield Finding(
            Grade.NOTE,
            "movement-not-judged",
            tuple(p.path for p in parts),
            f"Movement not judged: no table says how {species} moves across its grain, and the file does not state it. Cross-grain "
            f"fixings, panels, doors and inset fronts of {_count(len(parts))} were not looked at.",
            "what moves is judged only where its figures are known",
            "common practice",
            parts[0].material.origin.span,
            advice="state it for the material: movement: {tangential: 0.36, radial: 0.18}, in per cent for 1 % of moisture, as "
            "handbooks of that wood print it",
        )
    yield from _limp(subject)


def _limp(subject: Subject) -> Iterator[Finding]:
    """Yield a note for the boards that carry a stated load and whose stiffness is known to nobody."""
    top = top_of(subject)
    boards = [p for p in subject.piece.parts if looks.level(p) and stiffness(p) is None and load_on(subject, p, top)]
    names = list(dict.fromkeys(p.material.species or p.material.sheet for p in boards))
    if boards:
        yield Finding(
            Grade.NOTE,
            "sag-not-judged",
            tuple(p.path for p in boards),
            f"Sag not judged: no table says how stiff {' and '.join(names)} is, and {_count(len(boards))} of it "
            f"{'carries' if len(boards) == 1 else 'carry'} a stated load.",
            "what bends is judged only where its stiffness is known",
            "common practice",
            boards[0].material.origin.span,
            advice="state it for the material: stiffness: 11000, the modulus of elasticity along the grain in MPa",
        )


def _count(many: int) -> str:
    return "1 part" if many == 1 else f"{many} parts"
