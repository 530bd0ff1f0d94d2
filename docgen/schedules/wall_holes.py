"""The holes through which a piece that hangs is screwed to its wall."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.piece.model import Part, Piece
from docgen.piece.records import Feature, HoleRow, Purpose

WALLWARD = 0.7
"""Share of a hole's way that must lead to the back, square to the wall: within 45° of it."""


def wall_holes(piece: Piece) -> Iterator[tuple[Part, Feature, HoleRow]]:
    """Yield the plain holes right through a part toward the wall that belong to no joint; none where the piece stands."""
    if piece.stands != "wall":
        return
    for part in piece.parts:
        for feature in part.features:
            for row in feature.made.holes:
                if for_the_wall(part, row):
                    yield part, feature, row


def for_the_wall(part: Part, row: HoleRow) -> bool:
    """Return True for holes right through toward the wall that no joint and no fastener of the piece uses."""
    free = row.depth is None and not row.fastener and not row.mate
    return (
        free
        and row.purpose in (Purpose.PLAIN, Purpose.CLEARANCE)
        and abs(part.frame.direction(row.direction)[1]) >= WALLWARD
    )
