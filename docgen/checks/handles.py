"""Inset fronts and doors with nothing to open them by: neither a hole or notch of their own, nor a pull in the file.

What the file says of pulls it says in words: one such word, anywhere, speaks for all fronts and doors. So it is a note.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from docgen.checks import looks
from docgen.checks.doors import doors
from docgen.checks.finding import Finding, Grade
from docgen.checks.nesting import front_of
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part, Piece
from docgen.piece.records import Feature, Origin, Purpose

TITLE = "something to open inset fronts and doors by"
CODES = ("nothing-to-open-by",)
LOOKS = looks.Looks(looks.either(looks.drawers, looks.doors))

PULLS = re.compile(
    r"\b(?:pull|knob|handle|grip|catch|latch|lock)(?:s|es)?\b(?! (?:rails?|stiles?|the|it|them|out|off|up|apart)\b)"
)
"""What a thing is called by which one opens, or that holds shut, in names, notes and what is bought.

A lock rail is no lock, and what one is told to pull out or to grip is no pull.
"""


def check(subject: Subject) -> Iterator[Finding]:
    """Yield one note for the fronts of drawers set in with a gap, and one for the doors, that nothing opens."""
    piece = subject.piece
    if _has_pulls(piece):
        return
    fronts = [(front, d.origin) for d in piece.drawers if d.gap > 0 and (front := front_of(piece, d)) is not None]
    shut = [(front, origin) for front, origin in fronts if not _opened(piece, [front])]
    if shut:
        names = [front.path for front, _ in shut]
        yield _finding(
            [f for f, _ in shut], shut[0][1], f"{', '.join(names)}: set in flush, none can be taken by its edges"
        )
    hung = [(door.group, door.joint.origin) for door in doors(subject)]
    closed = [(g, o) for g, o in hung if not _opened(piece, [piece.part(p) for p in g.parts])]
    if closed:
        parts = [piece.part(group.parts[0]) for group, _ in closed]
        yield _finding(
            parts, closed[0][1], f"{', '.join(g.name for g, _ in closed)}, nor holds {_it(len(closed))} shut"
        )


def _it(count: int) -> str:
    return "it" if count == 1 else "them"


def _has_pulls(piece: Piece) -> bool:
    told = [i.what for i in piece.items] + [f"{p.called} {p.note}" for p in piece.parts]
    return any(PULLS.search(text.lower()) for text in (*told, *piece.notes))


def _opened(piece: Piece, parts: Sequence[Part]) -> bool:
    """Return whether a part has a plain hole, or an opening, that no joint asks for: for a knob, or a finger."""
    joined = {end for joint in piece.joints for end in joint.features}
    return any(_grips(f) for part in parts for f in part.features if (part.path, f.name) not in joined)


def _grips(feature: Feature) -> bool:
    made = feature.made
    return any(row.purpose is Purpose.PLAIN and not row.mate for row in made.holes) or any(
        t.openings for t in made.templates
    )


def _finding(parts: Sequence[Part], origin: Origin, told: str) -> Finding:
    return Finding(
        Grade.NOTE,
        "nothing-to-open-by",
        tuple(p.path for p in parts),
        f"Nothing in the file opens {told}.",
        "what is set in flush has a pull, a knob or a finger hole",
        "common practice; the check reads the file's words and holes, not what you have in mind",
        where(origin, parts[0].origin),
        advice="draw the hole for it, and note or list what goes there, before the front is cut",
    )
