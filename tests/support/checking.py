"""Running one check on a hand-made piece."""

from __future__ import annotations

from types import ModuleType

from docgen.checks.finding import Finding
from docgen.checks.subject import Subject
from docgen.piece.model import Kind, Piece
from docgen.piece.solids import Solids
from docgen.schedules.blanks import blanks
from docgen.schedules.cutting import cutting
from docgen.schedules.rows import Schedules


def subject(of: Piece) -> Subject:
    """Return the subject of a piece: every part its own kind, with the lists that checks read."""
    solids = Solids(of)
    kinds = tuple(Kind((p.path,)) for p in of.parts)
    lists = Schedules(
        cutting=cutting(of, solids, kinds),
        blanks=blanks(of),
        stock=(),
        chart=(),
        sticks=(),
        setups=(),
        hardware=(),
        cautions=(),
    )
    return Subject(of, solids, kinds, lists)


def found(check: ModuleType, of: Piece) -> list[Finding]:
    """Return what one check finds in a piece."""
    return list(check.check(subject(of)))


def codes(check: ModuleType, of: Piece) -> list[str]:
    """Return the codes of what one check finds."""
    return [f.code for f in found(check, of)]
