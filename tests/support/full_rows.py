"""Rows of equal cuts whose figures are closed against the whole of a part: pins, tails and half pins fill a width.

Found from what is drawn, as `tests.support.twice` finds doubles; a figure in brackets closes nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product

from docgen.drawing.dimensions.wanted import Linear, Placed
from docgen.drawing.records import Text
from docgen.packet.fonts import PacketMetrics
from docgen.piece.model import Part
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Subject
from tests.support.rank import where
from tests.support.twice import BRACKETS, NEAR, SETTING


def full_rows(subject: Subject) -> list[str]:
    """Return the rows of a part's views that are told to the end, in words."""
    made = spread(subject, SETTING, PacketMetrics())
    assert made is not None
    return [text for arranged in made.arranged for text in _full(subject.part, list(arranged.placed))]


def _text(placed: Placed) -> str:
    return " / ".join(r.text for r in placed.records if isinstance(r, Text))


def _full(part: Part, placed: list[Placed]) -> Iterator[str]:
    """Yield each row of equal cuts that its figures close against the whole: pins, tails and half pins fill a width.

    A figure with a number counts so often, or once where it tells what its row ends with.
    """
    words = {where(s): f.name for f in part.features for s in f.made.sizes}
    rows: dict[tuple[str, float, float], list[tuple[str, int, float]]] = {}
    wholes: dict[tuple[float, float], list[float]] = {}
    for p in placed:
        w, text = p.wanted, _text(p)
        if not isinstance(w, Linear) or not w.sizes or BRACKETS.search(text):
            continue
        way = (round(abs(w.along[0]), 4), round(abs(w.along[1]), 4))
        value, name = float(w.sizes[0].value), words.get(where(w.sizes[0]), "")
        if w.overall:
            wholes.setdefault(way, []).append(value)
        elif name:
            many = re.match(r"(\d+)×", w.sizes[0].label)
            rows.setdefault((name, *way), []).append((text, int(many[1]) if many else 1, value))
    for (name, *along), row in rows.items():
        for ways in product(*(sorted({0, 1, n}) for _, n, _ in row)):
            full = sum(k * v for k, (_, _, v) in zip(ways, row, strict=True))
            many_kinds = any(k > 1 for k in ways) and sum(k > 0 for k in ways) > 1
            if many_kinds and any(
                abs(full - whole) < NEAR * max(ways) for whole in wholes.get((along[0], along[1]), ())
            ):
                yield f"{name}: {', '.join(t for k, (t, _, _) in zip(ways, row, strict=True) if k)} fill the whole"
