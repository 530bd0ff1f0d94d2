"""Panels and panes in their frames: clearance on each side, and whether the rabbet is deep enough."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.rays import first_wood
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Pane

TITLE = "panes and panels against the openings of their frames"
CODES = ("pane-too-large", "pane-tight", "pane-proud")
LOOKS = looks.Looks(looks.panes)

LEAST = 0.75
"""mm a side that a pane needs to drop in, about 1/32 in, though the file asks for less. Common practice."""

NEAR = 0.05
"""mm by which a clearance may fall short of the stated one before it is told."""


def check(subject: Subject) -> Iterator[Finding]:
    """Yield panes with less clearance than stated on a side, and panes thicker than their rabbet is deep."""
    for pane in subject.piece.panes:
        for word, gap in gaps(subject, pane):
            asked = max(float(pane.clearance), LEAST)
            if gap >= asked - NEAR:
                continue
            inside = gap < 0
            yield Finding(
                Grade.STOP if inside else Grade.CARE,
                "pane-too-large" if inside else "pane-tight",
                (pane.pane, *pane.frame),
                f"{pane.pane} does not drop in: at its {word} it runs {subject.say(-gap)} into the frame."
                if inside
                else f"{pane.pane} has {subject.say(gap)} at its {word}; {subject.say(asked)} a side is what it needs.",
                f"opening in the rabbet = {pane.word} + 2 × clearance a side, at least 0.75 mm (1/32 in)",
                f"geometry; measured on the solids along the {pane.word}'s middle lines",
                where(pane.origin),
                (("clearance", gap, "mm"), ("asked for", asked, "mm")),
                f"measure the opening, then cut the {pane.word}",
            )
        yield from _proud(subject, pane)


def gaps(subject: Subject, pane: Pane) -> Iterator[tuple[str, float]]:
    """Yield (side, gap to the nearest rail) along the middle lines of the pane; sides with no rail are left out."""
    part = subject.piece.part(pane.pane)
    middle = [float(s) / 2 for s in part.size]
    start = part.frame.point((middle[0], middle[1], middle[2]))
    for axis in (0, 1):
        for side in (0, 1):
            own = [0.0, 0.0, 0.0]
            own[axis] = 1.0 if side else -1.0
            way: Vec = part.frame.direction((own[0], own[1], own[2]))
            wood = subject.mesh(part.path).wood(start, way)
            if not wood:
                continue
            found = [d for rail in pane.frame if (d := first_wood(subject.mesh(rail), start, way)) is not None]
            if found:
                word = next(w for w, face in part.words if face == (axis, side))
                yield f"{word} side", min(found) - wood[-1][1]


def _proud(subject: Subject, pane: Pane) -> Iterator[Finding]:
    thick, deep = subject.piece.part(pane.pane).size[2], pane.rabbet[1]
    if thick > deep + NEAR:
        yield Finding(
            Grade.CARE,
            "pane-proud",
            (pane.pane, *pane.frame),
            f"{pane.pane} is {subject.say(thick)} thick and lies in a rabbet {subject.say(deep)} deep: it stands "
            f"{subject.say(thick - deep)} proud, with no room for stops.",
            f"rabbet depth ≥ {pane.word} + what beds and holds it",
            "common practice",
            where(pane.origin),
            (("proud by", float(thick - deep), "mm"),),
            f"a deeper rabbet, or a thinner {pane.word}",
        )
