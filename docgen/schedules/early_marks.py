"""Holes marked through a mate that are drilled before the glue-up: a strip on the inside of a case is reached more easily then.

Geometry of what touches what; common practice.
"""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Piece
from docgen.piece.records import Authority
from docgen.schedules.glueups import GlueUp
from docgen.schedules.holds import lies_on
from docgen.schedules.rows import SetupRow


def before_gluing(piece: Piece, setup: SetupRow, glued: Sequence[GlueUp]) -> bool:
    """Return whether all holes of a set-up can be marked through their mates before the parts are glued.

    Each drilled part goes into a glue-up; each mate is glued to nothing, is screwed to that part alone and touches no other,
    so that its place is known by figures from that part.
    """
    within = {path for unit in glued for path in unit.parts}
    titles, found = set(setup.parts), False
    for path in dict.fromkeys(path for path, _ in setup.parts):
        mates = {
            hole.mate
            for feature in piece.part(path).features
            for hole in feature.made.holes
            if (path, feature.title) in titles and hole.authority is Authority.MATE
        }
        if path not in within or not mates or any(not _alone(piece, mate, path, within) for mate in mates):
            return False
        found = True
    return found


def _alone(piece: Piece, mate: str, host: str, within: set[str]) -> bool:
    """Return whether a part is screwed to its host alone, glued to nothing, and touches no other part."""
    known = {p.path for p in piece.parts}
    if mate not in known or mate in within or piece.part(mate).authority is Authority.MEASURE:
        return False
    if {f.parts[1] for f in piece.fasteners if f.parts[0] == mate} != {host}:
        return False
    box = piece.part(mate).box
    return not any(lies_on(box, p.box) for p in piece.parts if p.path not in (mate, host) and not p.hardware)
