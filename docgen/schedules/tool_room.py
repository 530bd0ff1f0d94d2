"""What stands in the way of a cut on the glued parts: a bearing runs deeper than its cutter, and strikes what lies there."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.geometry.solids import Solid, blank, common, made
from docgen.piece.model import Part, Piece
from docgen.piece.records import Stage

LEAST = 1.0
"""mm³ that a part and the tool's room share, from which it is struck: less is mere touching."""


def in_the_way(piece: Piece, paths: Sequence[str]) -> tuple[str, ...]:
    """Return which of these parts stand where the tool of a cut on the others, glued up, has to pass."""
    parts = [piece.part(p) for p in paths]
    rooms = [(part.path, room) for part in parts for room in _rooms(part)]
    if not rooms:
        return ()
    cut = {path for path, _ in rooms}
    boxes = {p.path: blank((0, 0, 0), p.size).moved(p.frame) for p in parts if p.path not in cut}
    return tuple(path for path, box in boxes.items() if any(common(box, room) > LEAST for _, room in rooms))


def _rooms(part: Part) -> list[Solid]:
    """Return the room that tools take beyond their cuts in a part when it is glued up, in the piece's axes."""
    return [
        made(shape).moved(part.frame)
        for feature in part.features
        if feature.stage is Stage.GLUED
        for setting in feature.made.settings
        for shape in setting.clear
    ]
