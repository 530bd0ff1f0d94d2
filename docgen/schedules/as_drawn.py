"""What the part sheet says of a place that a set-up counts otherwise: from another side, or by its ends and not by its middle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.piece.datums import as_placed
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Face, Feature, Setting, SizeKind, Stage
from docgen.schedules.rows import SetupRow, SetupRun, Values
from docgen.units import Number, unit_length

SAME, SQUARE = 1e-3, 1 - 1e-6
PLACES = 3
"""Decimals of a mm to which places are compared: what leans leaves noise behind it."""

ON_SHEET = "on the part sheet"
NEAR, FAR, MIDDLE, CENTRE = "near end", "far end", "middle", "centre"


def as_drawn(piece: Piece, kinds: Sequence[Kind], rows: Sequence[SetupRow]) -> tuple[SetupRow, ...]:
    """Return the set-ups with the part sheet's own figure beside each place that is counted otherwise there."""
    firsts = {kind.first for kind in kinds}  # that are drawn
    return tuple(replace(row, runs=tuple(_told(piece, firsts, row, run) for run in row.runs)) for row in rows)


def _told(piece: Piece, firsts: set[str], row: SetupRow, run: SetupRun) -> SetupRun:
    found = {
        told
        for path in run.parts
        if path in firsts
        for feature in piece.part(path).features
        if (path, feature.title) in row.parts and feature.stage is Stage.PART
        for setting in feature.made.settings
        if setting.machine == row.machine and _lengths(setting.places) <= _lengths(run.places)
        if (told := _beside(piece, piece.part(path), feature, setting))
    }
    return replace(run, places=(*run.places, *found.pop())) if len(found) == 1 else run


def _lengths(places: Values) -> set[tuple[str, float]]:
    return {(name, round(float(value), PLACES)) for name, value, _ in places if not isinstance(value, str)}


def _beside(piece: Piece, part: Part, feature: Feature, setting: Setting) -> Values:
    """Return what stands on the part sheet: a middle from the same side, then what is told from the other side."""
    same: list[tuple[str, Number | str, str]] = []
    other: list[str] = []
    for axis in range(3):
        for side in (0, 1):
            word = part.side(Face(axis, side))
            here = {
                name.removesuffix(f" from the {word}"): value
                for name, value, kind in setting.places
                if kind == "length" and not isinstance(value, str) and name.endswith(f" from the {word}")
            }
            middle = _middle(here)
            if middle is None:
                continue
            at = part.size[axis] - middle if side else middle
            drawn = next(_drawn(part, feature, axis, at), None)
            if drawn is None:
                continue
            if drawn[0] != side:
                told = part.side(Face(axis, drawn[0]))
                other.append(f"{unit_length(drawn[1], piece.units)} from the {told} to the centre")
            elif MIDDLE not in here:
                same.append((f"{CENTRE} from the {word}", middle, "length"))
    return (*same, (ON_SHEET, ", ".join(other), "text")) if other else tuple(same)


def _middle(here: dict[str, Number]) -> Number | None:
    if MIDDLE in here:
        return here[MIDDLE]
    return (here[NEAR] + here[FAR]) / 2 if NEAR in here and FAR in here else None


def _drawn(part: Part, feature: Feature, axis: int, at: Number) -> Iterator[tuple[int, Number]]:
    """Yield from which side of the part the sheet tells a place along an axis, and how far it is from there."""
    for size in (as_placed(part, s, feature) for s in feature.made.sizes):
        if size.kind is SizeKind.LENGTH and abs(size.along[axis]) > SQUARE and abs(size.end[axis] - at) < SAME:
            for side, face in enumerate((0, part.size[axis])):
                if abs(size.start[axis] - face) < SAME:
                    yield side, size.value
