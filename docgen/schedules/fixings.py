"""What a part is fixed with as the file states it: how many of what, through which holes, how far apart. Common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from docgen.piece.model import Fastener, Item, Part, Piece, Sets
from docgen.schedules.drilling import fastener_text
from docgen.schedules.holds import listed, said
from docgen.trade.drills import told as drill_told

UNFIXED = "the file states no fixing"
NOT_LISTED = "not on the hardware list until the file states it"

ROUND, SPACED = 6, {"inch": Fraction(254, 40), "mm": Fraction(5)}
"""So many fixings go all round a panel; how far apart they stand is told to a whole quarter of an inch, or 5 mm."""


def fixings(piece: Piece) -> dict[str, list[Item]]:
    """Return what the file states to fix each part with."""
    out: dict[str, list[Item]] = {}
    for item in piece.items:
        for path in item.parts if item.sets is Sets.FIXES else ():
            out.setdefault(path, []).append(item)
    return out


def fixed_with(piece: Piece, paths: Sequence[str], common: str, verb: str = "with") -> str:
    """Return what parts are fixed with as the file states it, or that it states nothing and what is common practice."""
    stated = fixings(piece)
    items = list(dict.fromkeys(item for path in paths for item in stated.get(path, ())))
    rows = [f for f in piece.fasteners if f.lays and (f.parts[0] in paths or f.parts[1] in paths)]
    known = {*stated, *(p for f in rows for p in f.parts)}
    if any(path not in known for path in paths):
        return f": {UNFIXED}. {common} common practice; {NOT_LISTED}."
    told: dict[str, int] = {}
    for item in items:
        each, uneven = divmod(item.count, len(item.parts))
        others = bool(set(item.parts) - set(paths))
        shared = f" for {listed(piece, item.parts)} together" if others and uneven else ""
        count = item.count if uneven or not others else each * len(set(item.parts) & set(paths))
        size, note = (f", {item.size}" if item.size else ""), (f", {item.note}" if item.note else "")
        what = f"{item.what}{size}{shared}{note}"
        told[what] = told.get(what, 0) + count
    things = [f"{count} × {what}" for what, count in told.items()]
    return f", {verb} {'; '.join([*things, *_in_rows(piece, rows, paths)])}."


def _in_rows(piece: Piece, rows: Sequence[Fastener], paths: Sequence[str]) -> Iterator[str]:
    """Yield what is said of screws that are set out in rows, each kind once; their holes are in `paths` or in what holds these."""
    for text in dict.fromkeys(fastener_text(piece, f) for f in rows):
        found = [f for f in rows if fastener_text(piece, f) == text]
        first, count, keys = found[0], sum(f.count for f in found), ", ".join(dict.fromkeys(f.key for f in found))
        notes = "; ".join(first.notes)
        through = [f.parts[0] for f in found]
        holes = f"its holes {keys}" if set(through) <= set(paths) else f"holes {keys} of {listed(piece, through)}"
        pilot = drill_told(first.pilot, piece.units.system)
        yield (
            f"{count} × {text} through {holes}{f' ({notes})' if notes else ''}: drill {pilot}, "
            f"{said(piece, first.drill_depth)} deep, through them into {listed(piece, [f.parts[1] for f in found])}"
        )


def shared_out(piece: Piece, part: Part) -> str:
    """Return how far apart the things stand that fix a panel all round; "" where few do, or the file sets them out."""
    items = [i for i in fixings(piece).get(part.path, ()) if i.parts == (part.path,)]
    count = sum(i.count for i in items)
    if count < ROUND:
        return ""
    step = SPACED[piece.units.system]
    apart = step * (2 * Fraction(part.size[0] + part.size[1]) / count // step)
    return f" Share them out evenly along its edges, about {said(piece, apart)} apart." if apart else ""
