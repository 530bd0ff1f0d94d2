"""Parts that stand in the way of the tool that cuts the glued parts, and that cannot be slid in when it has passed."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Piece
from docgen.piece.records import Stage
from docgen.schedules.glueups import glueups
from docgen.schedules.tool_room import in_the_way

TITLE = "what a bearing strikes in glued parts"
CODES = ("tool-struck",)


def _cut_with_room(piece: Piece) -> bool:
    """Return whether a tool that takes room beyond its cut runs on glued parts."""
    settings = (s for p in piece.parts for f in p.features if f.stage is Stage.GLUED for s in f.made.settings)
    return any(s.clear for s in settings)


LOOKS = looks.Looks(_cut_with_room)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield STOP for parts that are struck, where the glue-up has to hold them already: no side is open to slide them in."""
    piece = subject.piece
    if not _cut_with_room(piece):
        return
    for unit in glueups(piece):
        struck = [p for p in in_the_way(piece, unit.parts) if p not in unit.slid]
        if struck:
            cut = [p for p in unit.parts if any(f.stage is Stage.GLUED for f in piece.part(p).features)]
            yield Finding(
                Grade.STOP,
                "tool-struck",
                tuple(struck),
                f"The bearing that cuts {', '.join(subject.called(p) for p in cut)} when they are glued runs deeper than its cut and "
                f"strikes {', '.join(subject.called(p) for p in struck)}, which no side lets in afterwards.",
                "what stands within the bearing's way, 1/4 in deep beyond the cutter, goes in after the cut",
                "geometry of the bit; the bearing's height is common practice",
                where(*(f.origin for p in cut for f in piece.part(p).features if f.stage is Stage.GLUED)),
                (),
                "let its dados run out at one side, begin it further from the face, or cut the rabbets before the glue-up",
            )
