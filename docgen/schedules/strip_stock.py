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

Sizes = tuple[tuple[str, Number], ...]


def strip_stock(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield the strips for things that are sawn off one, their grain along their length; equal but for their width in one row."""
    found: dict[tuple[str, Sizes], list[Loose]] = {}
    for thing in loose.every(piece):
        if thing.grain == thing.long and not thing.driven and [n for n, _ in thing.told][:1] == ["thickness"]:
            found.setdefault((thing.what, thing.told), []).append(thing)
    alike: dict[tuple[str, Number, Number, Number], list[tuple[list[Loose], WorkRow]]] = {}
    for (what, told), things in found.items():
        step = next((w for w in work if w.key.startswith(MADE) and w.key.endswith(_size(piece, told))), None)
        if step is not None and len(told) == 3:  # thickness, width, length
            key = (what, told[0][1], told[2][1], _rounded(things[0].shape.outline))
            alike.setdefault(key, []).append((things, step))
    for (what, thick, long, round_), rows in alike.items():
        edges = f", both edges rounded to {said(piece, round_)}" if round_ else ""
        each = "; ".join(_strip(piece, things) for things, _ in rows)
        tried = sorted({n for things, _ in rows for n in _cut_at(piece, things, setups)})
        use = f"{_numbers('step', [s.number for _, s in rows])}: sawn off at {said(piece, long)}"
        use += f", when tried in the test piece of {_numbers('set-up', tried)}" if tried else ""
        size = f"hardwood {said(piece, thick)} thick{edges}: {each}"
        yield JigRow(f"strip for {what}s", size, use, f"step {max(s.number for _, s in rows)}")


def _numbers(what: str, numbers: Sequence[int]) -> str:
    return f"{what} {', '.join(map(str, numbers))}"


def _strip(piece: Piece, things: Sequence[Loose]) -> str:
    """Return how wide and how long a strip is: even the last thing is sawn off a piece that is long enough to be held."""
    (_, wide), (_, long) = things[0].told[1:]
    total = LONG[piece.units.system] + (len(things) - 1) * (long + kerf_of(piece))
    return f"{said(piece, wide)} wide, {said(piece, _whole(piece, total))} long for {len(things)}"


def _size(piece: Piece, told: Sizes) -> str:
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
