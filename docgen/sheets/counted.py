"""Parts in few words: kinds that are all there are counted, others named."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.naming import spoken
from docgen.schedules.holds import named
from docgen.sheets.context import Context


def called(context: Context, path: str) -> str:
    """Return what a part is called; what is no part of the piece is said as its path reads."""
    return next((p.called for p in context.piece.parts if p.path == path), spoken(path))


def counted(context: Context, paths: Sequence[str]) -> str:
    """Return the parts in a line: "2× front leg; bottom"; "all parts" where none is left out."""
    made = {p.path for p in context.piece.parts if not p.hardware}
    if len(made) > 1 and set(paths) >= made:
        return "all parts"
    return "; ".join(named(context.piece, paths, context.kinds))
