"""What faces are called on equal parts: one that shows to the left and one that shows to the right share a sheet."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Part, Piece
from docgen.schedules.holds import listed


def shows_elsewhere(piece: Piece, paths: Sequence[str]) -> str:
    """Return which of some equal parts show another face than the first, as the piece names it; "" where none does.

    A sheet or a row names the faces of the first part alone.
    """
    first = piece.part(paths[0])
    if first.show is None:
        return ""
    others: dict[str, list[str]] = {}
    for part in (piece.part(p) for p in paths[1:]):
        if part.show is not None and part.word(part.show) != first.word(first.show):
            others.setdefault(part.side(part.show), []).append(part.called)
    told = [f"of {', '.join(names)} {'is' if len(names) == 1 else 'are'} the {side}" for side, names in others.items()]
    if not told:
        return ""
    return f"Faces are named as on {first.called}; the show face {'; '.join(told)}"


def show_faces(piece: Piece, paths: Sequence[str]) -> str:
    """Return which face of some parts is the one that shows, the parts named where it is not the same; "" where none does."""
    sides: dict[str, list[str]] = {}
    for part in (piece.part(p) for p in dict.fromkeys(paths)):
        if part.show is not None:
            sides.setdefault(part.side(part.show), []).append(part.path)
    alone = len(sides) == 1
    told = [side if alone else f"{side} of {listed(piece, which)}" for side, which in sides.items()]
    return f"the show face is the {'; the '.join(told)}: mark it first" if told else ""


def beside_show(piece: Piece, paths: Sequence[str], word: str) -> str:
    """Return on which of some parts a face is the one that shows and on which the one behind it, where they differ."""
    first = piece.part(paths[0])
    sides: dict[bool, list[str]] = {True: [], False: []}
    for part in (piece.part(p) for p in paths):
        if not _across(part, word):
            return ""
        sides[part.face(word) == part.show].append(part.called)
    if not all(sides.values()):
        return ""
    return f"the {first.plain_side(first.face(word))} is the show face of {', '.join(sides[True])}, the face behind it on {', '.join(sides[False])}"


def _across(part: Part, word: str) -> bool:
    """Return whether a face is the one that shows or the one behind it."""
    return part.show is not None and part.face(word).axis == part.show.axis
