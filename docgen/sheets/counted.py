"""Parts in few words: kinds that are all there are counted, others named."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.naming import spoken
from docgen.schedules.holds import named
from docgen.sheets.context import Context

FEW = 2
"""Kinds of parts that are told as left out of all."""
MANY_MORE = 4
"""How many times as many kinds would have to be named instead."""


def called(context: Context, path: str) -> str:
    """Return what a part is called; what is no part of the piece is said as its path reads."""
    return next((p.called for p in context.piece.parts if p.path == path), spoken(path))


def counted(context: Context, paths: Sequence[str]) -> str:
    """Return the parts in a line: "2× front leg; bottom"; "all parts" where none, "all parts but …" where few are left out."""
    made = [p.path for p in context.piece.parts if not p.hardware]
    left = [path for path in made if path not in paths]
    if len(made) > 1 and not left:
        return "all parts"
    told = named(context.piece, paths, context.kinds)
    others = named(context.piece, left, context.kinds)
    if len(others) <= FEW and len(others) * MANY_MORE <= len(told):
        return f"all parts but {', '.join(others)}"
    return "; ".join(told)
