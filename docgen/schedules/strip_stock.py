"""The strips that loose tenons, splines and keys are sawn off: their section, how long, and what they are tried in. mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from docgen.geometry.shapes import Outline
from docgen.piece import loose
from docgen.piece.model import Loose, Piece
from docgen.schedules.blanks import kerf_of
from docgen.schedules.holds import said
from docgen.schedules.inserts import LONG, MADE
from docgen.schedules.rows import JigRow, SetupRow, WorkRow
from docgen.units import Number, plain_length

SECTION = 2
"""How many of the figures of a thing are its section: thickness and width; the third is its length."""


def strip_stock(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield a strip for each size of thing that is sawn off one: its grain runs along its length."""
    found: dict[tuple[str, tuple[tuple[str, Number], ...]], list[Loose]] = {}
    for thing in loose.every(piece):
        if thing.grain == thing.long and not thing.driven and [n for n, _ in thing.told][:1] == ["thickness"]:
            found.setdefault((thing.what, thing.told), []).append(thing)
    for (what, told), things in found.items():
        step = next((w for w in work if w.key.startswith(MADE) and w.key.endswith(_size(piece, told))), None)
        if step is None or len(told) != SECTION + 1:
            continue
        thick, wide, long = (value for _, value in told)
        # Even the last is sawn off a piece that is long enough to be held.
        total = LONG[piece.units.system] + (len(things) - 1) * (long + kerf_of(piece))
        round_ = f", both edges rounded, radius {said(piece, r)}" if (r := _rounded(things[0].shape.outline)) else ""
        size = (
            f"hardwood {plain_length(thick, piece.units)} × {said(piece, wide)} (thickness × width){round_}; "
            f"{said(piece, _whole(piece, total))} long or more"
        )
        tried = _cut_at(piece, things, setups)
        use = f"step {step.number}: {len(things)} × {what}, each sawn off at {said(piece, long)}"
        use += f"; first tried in the test piece of set-up {', '.join(map(str, tried))}" if tried else ""
        yield JigRow(f"strip for {what}s", size, use, f"step {step.number}")


def _size(piece: Piece, told: Sequence[tuple[str, Number]]) -> str:
    """Return the sizes of a thing as the keys of steps end with them."""
    return " × ".join(plain_length(value, piece.units, rest=False) for _, value in told) + f" {piece.units.sign}"


def _whole(piece: Piece, long: Number) -> Number:
    """Return a length to the next full inch or centimetre."""
    step = piece.units.mm * (1 if piece.units.system == "inch" else 10)
    return math.ceil(float(long / step) - 1e-9) * step


def _rounded(outline: Outline) -> Number:
    """Return the radius to which the edges of a strip of this section are rounded, 0 where they stay square."""
    start = outline.edges[-1].end
    for edge in outline.edges:
        if edge.centre is not None:
            return Fraction(round(math.dist(edge.centre, start) * 10**4), 10**4)
        start = edge.end
    return 0


def _cut_at(piece: Piece, things: Sequence[Loose], setups: Sequence[SetupRow]) -> list[int]:
    """Return the numbers of the set-ups that cut the mortises or slots of some things."""
    titles = {
        (path, f.title) for t in things for path, name in t.sits for f in piece.part(path).features if f.name == name
    }
    return [row.number for row in setups if titles & set(row.parts)]
