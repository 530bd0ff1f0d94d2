"""What the file asks of a part's sheet, done to the sizes before they are chosen from, and the notes of a view."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from docgen.drawing.dimensions.wanted import Callout
from docgen.geometry.lines import View
from docgen.piece.model import DrawingWish
from docgen.piece.records import Face, Size

NOTE = 32  # letters of a line of a note


@dataclass(frozen=True, slots=True)
class Asked:
    """A size as the file wants it; `placed` on a face by the file, `over` on the other side of its view."""

    size: Size
    placed: bool = False
    over: bool = False


def as_asked(feature: str, sizes: Sequence[tuple[int, Size]], asked: Iterable[DrawingWish]) -> list[Asked]:
    """Return numbered sizes of a feature ("" for the blank) without those dropped, on the faces that they were moved to."""
    mine = [w for w in asked if w.size[0] == feature]
    gone = {w.size[1] for w in mine if w.word == "drop"}
    moved = {w.size[1]: w for w in mine if w.word == "move"}
    out = []
    for n, size in sizes:
        if n in gone:
            continue
        move = moved.get(n)
        face = move.face if move is not None else None
        out.append(
            Asked(replace(size, face=face) if face else size, face is not None, move is not None and move.other_side)
        )
    return out


def notes(asked: Iterable[DrawingWish], face: Face, view: View) -> list[Callout]:
    """Return the notes that stand on a face's view, each with a leader to its point."""
    return [
        Callout(f"note {n:02d}", view.flat(w.at), 0.0, _lines(w.text))
        for n, w in enumerate(asked)
        if w.word == "note" and w.face == face and w.at is not None
    ]


def _lines(text: str) -> tuple[str, ...]:
    out = [""]
    for word in text.split():
        longer = f"{out[-1]} {word}".strip()
        if len(longer) > NOTE and out[-1]:
            out.append(word)
        else:
            out[-1] = longer
    return tuple(out)
