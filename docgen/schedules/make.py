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
from docgen.schedules.measured import measured
from docgen.schedules.rows import Schedules
from docgen.schedules.setups import setups
from docgen.schedules.sticks import sticks
from docgen.schedules.stock import stock


def schedules(piece: Piece, solids: Solids, kinds: Sequence[Kind]) -> Schedules:
    """Return the lists of `piece`; `kinds` are its equal parts."""
    cut = cutting(piece, solids, kinds)
    whole = blanks(piece)
    return Schedules(
        cutting=cut,
        blanks=whole,
        stock=stock(piece, cut, whole),
        chart=drilling(piece),
        sticks=sticks(piece, kinds),
        setups=setups(piece, kinds),
        hardware=hardware(piece, kinds),
        cautions=cautions(piece, solids),
        measured=measured(piece),
        chain=chain(piece, kinds),
    )
