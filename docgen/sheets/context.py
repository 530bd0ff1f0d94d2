"""What every sheet is made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from docgen.checks.finding import Finding
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Sheet
from docgen.layout.model import Layout
from docgen.layout.printers import Printer
from docgen.piece.model import Kind, Piece
from docgen.piece.solids import Solids
from docgen.schedules.rows import Schedules


@dataclass(frozen=True, slots=True)
class Context:
    """The piece, its solids and lists, and how the paper looks."""

    piece: Piece
    solids: Solids
    kinds: tuple[Kind, ...]
    lists: Schedules
    findings: tuple[Finding, ...]
    layout: Layout
    metrics: Metrics
    fingerprint: str
    printer: Printer | None = None  # the measured one that true-size pages are drawn for


class Maker(Protocol):
    """A kind of sheet: a function in its own file, listed in sheets/order.py by its layout word."""

    def __call__(self, context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
        """Return the pages. `before` holds the sheets already made (the cover is made last)."""
        ...
