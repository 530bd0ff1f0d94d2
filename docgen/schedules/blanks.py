"""Blanks for parts whose grain runs around mitred corners: what to cut from where along one board."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from docgen.geometry.shapes import HalfSpace
from docgen.piece.model import Kind, Part, Piece, Run
from docgen.piece.records import Feature, Setting, Stage
from docgen.schedules.rows import BlankPiece, BlankRow, Values
from docgen.schedules.terms import bought_thickness, finished, kind_numbers, wide
from docgen.trade.boards import TRIM, board_feet, in_the_rough
from docgen.trade.names import INCH
from docgen.trade.wrapped import blank_length, grain_break, keep_out, lost_outside, positions
from docgen.units import Number, unit_length

KERF = {"inch": INCH / 8, "mm": Fraction(3)}
"""Width of an ordinary saw's cut where the file does not state it. Common practice."""

NO_STOP = "no end stop: the ends that it would need are not cut yet; measure each cut along the show face"
SLANT = 1e-6
"""From which a plane cuts across a part's length."""

MISS = {"inch": INCH / 16, "mm": Fraction(3, 2)}
"""Left at each corner for a cut that misses. Common practice."""


def blanks(piece: Piece, kinds: Sequence[Kind] = ()) -> tuple[BlankRow, ...]:
    """Return a row for each run of parts, positions from the datum end of the board along its show face, mm.

    Equal parts go by the number of the first of their kind, as on the general views and in the cutting list.
    """
    numbers = kind_numbers(piece, kinds)
    return tuple(_row(piece, run, numbers) for run in piece.runs if run.parts)


def kerf_of(piece: Piece) -> Number:
    """Return the kerf, mm: as the file states it, else the ordinary one."""
    kerf = dict(piece.shop).get("kerf")
    return kerf if isinstance(kerf, (int, float, Fraction)) else KERF[piece.units.system]


def _row(piece: Piece, run: Run, numbers: Mapping[str, int]) -> BlankRow:
    parts = [piece.part(p) for p in run.parts]
    system = piece.units.system
    kerf, miss, trim = kerf_of(piece), MISS[system], TRIM[system]
    lengths = [finished(p)[0] for p in parts]
    spans = positions(lengths, kerf=kerf, miss=miss, trim=trim.length)
    length = in_the_rough(blank_length(lengths, kerf=kerf, miss=miss, trim=trim.length), system)
    ripped = max(finished(p)[1] for p in parts)
    width = in_the_rough(ripped + trim.width, system)
    thickness = bought_thickness(parts[0].material, piece.units)
    return BlankRow(
        name=run.name,
        material=parts[0].material.name,
        length=length,
        width=width,
        thickness=thickness,
        pieces=tuple(
            BlankPiece(p.path, numbers.get(p.path, p.number), a, b) for p, (a, b) in zip(parts, spans, strict=True)
        ),
        kerf=kerf,
        lost=lost_outside(kerf),
        miss=miss,
        trim=trim.length,
        board_feet=board_feet(thickness, width, length),
        unmatched=f"{parts[-1].called} and {parts[0].called}" if run.closed else "",
        note="; ".join(n for n in (wide(piece, parts[0], width), _note(piece, run, kerf)) if n),
        ripped=ripped,
        milled=parts[0].size[2],
    )


def in_turn(piece: Piece, part: Part, feature: Feature, setting: Setting) -> Values:
    """Return where a saw cuts an end of a part that comes in turn out of a blank; nothing for any other cut."""
    run = next((run for run in piece.runs if part.path in run.parts), None)
    if run is None or feature.stage is not Stage.PART or not setting.machine.endswith("saw"):
        return ()
    ends = any(isinstance(c.shape, HalfSpace) and abs(c.shape.normal[0]) > SLANT for c in feature.made.cuts)
    last = 2 * len(run.parts)
    cuts = f"1 to {last}" if run.closed else f"2 to {last - 1}; cuts 1 and {last} square, the blade upright"
    return ((f"blank {run.name}, by its own sheet: cuts", cuts, "text"),) if ends else ()


def _note(piece: Piece, run: Run, kerf: Number) -> str:
    """Say where neither knots nor joinery may stand, and how much figure a corner loses."""
    thick = piece.part(run.parts[0]).size[2]
    step = piece.units.finest * piece.units.mm
    clear = unit_length(round_up(keep_out(thick, kerf), step), piece.units)  # may be larger, never smaller
    broken = unit_length(round(Fraction(grain_break(kerf, run.radius)) / step) * step, piece.units)
    said = f"no knot and no joinery within {clear} of the middle of a corner's cuts, plus half the length of a tenon"
    corner = " and rounding" if run.radius else ""
    return f"{said}; the figure breaks by {broken} at each corner (saw cut{corner})"


def round_up(mm: Number, step: Fraction) -> Fraction:
    """Return `mm` rounded up to a whole number of `step`s."""
    return -((-Fraction(mm)) // step) * step
