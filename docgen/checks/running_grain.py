"""Grain that runs around corners: how much of the figure is missing there."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.trade.wrapped import grain_break, lost_outside

TITLE = "breaks in running grain"
CODES = ("grain-breaks",)
LOOKS = looks.Looks(looks.runs)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield a note for each blank: what the saw and the rounding take from the figure at a corner."""
    kerfs = {b.name: b.kerf for b in subject.schedules.blanks}
    for run in subject.piece.runs:
        if run.name not in kerfs:
            continue
        kerf = kerfs[run.name]
        gone = grain_break(kerf, run.radius)
        saw = lost_outside(kerf)
        by = (
            f"{subject.say(saw)} by the saw and {subject.say(gone - saw)} by the radius of {subject.say(run.radius)}"
            if run.radius
            else "what the saw takes"
        )
        unmatched = f" It cannot meet at the corner of {run.parts[-1]} and {run.parts[0]}." if run.closed else ""
        yield Finding(
            Grade.NOTE,
            "grain-breaks",
            run.parts,
            f"Around {run.name} the figure breaks by {subject.say(gone)} at each corner: {by}.{unmatched}",
            "kerf · √2 + 2 · (1 − 1/√2) · radius",
            "geometry",
            where(run.origin),
            (("break", gone, "mm"), ("by the saw", saw, "mm")),
        )
