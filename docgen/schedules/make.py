"""All lists of a piece."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Kind, Piece
from docgen.piece.solids import Solids
from docgen.schedules.blanks import blanks
from docgen.schedules.cautions import cautions
from docgen.schedules.chain import chain
from docgen.schedules.cutting import cutting
from docgen.schedules.drilling import drilling
from docgen.schedules.hardware import hardware
from docgen.schedules.jigs import jigs
from docgen.schedules.long_points import long_points
from docgen.schedules.machine_steps import Made
from docgen.schedules.measured import measured
from docgen.schedules.rows import Schedules
from docgen.schedules.setups import setups
from docgen.schedules.sticks import sticks
from docgen.schedules.stock import stock
from docgen.schedules.work_order import in_order, work_order


def schedules(piece: Piece, solids: Solids, kinds: Sequence[Kind]) -> Schedules:
    """Return the lists of `piece`; `kinds` are its equal parts."""
    cut = cutting(piece, solids, kinds)
    whole = blanks(piece, kinds)
    marked, runs, hangs = sticks(piece, kinds), long_points(piece, setups(piece, kinds)), chain(piece, kinds, whole)
    on_sticks = frozenset(p for stick in marked for p in (*stick.parts, *stick.mirrored))
    steps = work_order(piece, Made(cut, whole, runs, hangs, on_sticks))
    if (ordered := in_order(runs, steps)) != runs:
        runs = ordered
        steps = work_order(piece, Made(cut, whole, runs, hangs, on_sticks))
    return Schedules(
        cutting=cut,
        blanks=whole,
        stock=stock(piece, cut, whole),
        chart=drilling(piece),
        sticks=marked,
        setups=runs,
        hardware=hardware(piece, kinds),
        cautions=cautions(piece, solids, kinds, cutting=cut, work=steps),
        measured=measured(piece),
        chain=hangs,
        work=steps,
        jigs=jigs(piece, runs, steps),
    )
