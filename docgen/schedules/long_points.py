"""Places in set-ups from an end that is cut aslant by then: they run from its long point, not from where a face begins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from docgen.piece.datums import leans
from docgen.piece.model import Part, Piece
from docgen.piece.records import Face
from docgen.schedules.rows import SetupRow, SetupRun, Values

CUTS = ("long side", "short side", "long point", "short point")  # sizes of such a cut, which name their points


def long_points(piece: Piece, rows: Sequence[SetupRow]) -> tuple[SetupRow, ...]:
    """Return the set-ups with the long point named wherever an earlier one leans across the end that a place runs from."""
    when: dict[tuple[str, str], int] = {}
    for row in rows:
        for key in row.parts:
            when.setdefault(key, row.number)
    return tuple(replace(row, runs=tuple(_told(piece, when, row, run) for run in row.runs)) for row in rows)


def _told(piece: Piece, when: Mapping[tuple[str, str], int], row: SetupRow, run: SetupRun) -> SetupRun:
    words = {
        f" from the {part.side(end)}": f" from the long point of the {part.side(end)}"
        for part in map(piece.part, run.parts)
        for end in (Face(0, 0), Face(0, 1))
        if _aslant(part, end, when, row.number)
    }
    return replace(run, places=_named(run.places, words)) if words else run


def _aslant(part: Part, end: Face, when: Mapping[tuple[str, str], int], number: int) -> bool:
    """Return True when the end leans before a set-up."""
    return any(leans(f, end) and when.get((part.path, f.title), number) < number for f in part.features)


def _named(places: Values, words: Mapping[str, str]) -> Values:
    out = []
    for name, value, kind in places:
        old = next((w for w in words if name.endswith(w) and not name.startswith(CUTS)), "")
        out.append((name.removesuffix(old) + words[old] if old else name, value, kind))
    return tuple(out)
