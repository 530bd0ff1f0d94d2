"""The key of hatching and lines at the foot of a page of joinery details."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass

from docgen.drawing.cells import measure
from docgen.drawing.hatching import Cut, hatched, inked
from docgen.drawing.placing import moved
from docgen.drawing.records import Area, Line, Path, Pen, Record, Text
from docgen.drawing.symbols_turned import turned_arc
from docgen.sheets.context import Context

SWATCH, HIGH = 6.5, 4.5  # mm: a hatched field
CHAIN = 10.0  # mm of the line that other parts are drawn in
APART = 3.0  # mm from one entry to the next
LINE = 6.0  # mm from one line of the key to the next
BRACKETS = "( ) follows from others"  # without a figure: a part of the page may have that number
FOOT = 8.0  # mm that a key of one line takes


@dataclass(frozen=True, slots=True)
class Key:
    """The key about the lower left of the page's area, and how high it stands there, mm."""

    records: tuple[Record, ...]
    tall: float


@dataclass(frozen=True, slots=True)
class Signs:
    """Which signs stand on the pages besides hatching: lines of other parts, figures in brackets, views that are turned."""

    others: bool = True
    brackets: bool = False
    turned: bool = False


ALL_PARTS = Signs()


def key(context: Context, shown: Set[Cut], signs: Signs = ALL_PARTS) -> Key:
    """Return the key of what cut faces show and of signs, in as many lines as it takes.

    What is not in every packet is told where it is `shown`: sheet stock, metal.
    """
    rows: list[list[Record]] = [[]]
    x = 0.0
    for entry, wide in _entries(context, shown, signs):
        if x + wide > context.layout.area.width:
            x = 0.0
            rows.append([])
        rows[-1] += [moved(r, x, 0.0) for r in entry]
        x += wide + APART
    up = [0.5 + LINE * n for n in range(len(rows))][::-1]
    records = tuple(moved(r, 0.0, y) for row, y in zip(rows, up, strict=True) for r in row)
    return Key(records, FOOT + LINE * (len(rows) - 1))


def _entries(context: Context, shown: Set[Cut], signs: Signs) -> list[tuple[list[Record], float]]:
    """Return what the key tells, each with its width: fields with a word, the line of another part, signs with theirs."""
    sheet = ((Cut.SHEET, 90.0), (Cut.LAYER, 45.0)) if Cut.LAYER in shown else ((Cut.SHEET, 90.0),)
    flat = "sheet stock, glass: across, flat" if Cut.LAYER in shown else "sheet stock, glass"
    out = [_entry(context, c, t) for c, t in ((((Cut.END, 45.0),), "end grain"), (((Cut.LONG, 0.0),), "long grain"))]
    if shown & {Cut.SHEET, Cut.LAYER}:
        out.append(_entry(context, sheet, flat))
    if Cut.METAL in shown:
        out.append(_entry(context, ((Cut.METAL, 45.0),), "metal", black=True))
    height = context.layout.heights.note
    if signs.others:
        text = Text((CHAIN + 2.0, 1.0), "another part", height)
        line = Line((0.0, HIGH / 2), (CHAIN, HIGH / 2), Pen.PHANTOM)
        out.append(([line, text], CHAIN + 2.0 + measure(text.text, height, context.metrics)))
    if signs.brackets:
        text = Text((0.0, 1.0), BRACKETS, height)
        out.append(([text], measure(text.text, height, context.metrics)))
    if signs.turned:
        sign, wide = turned_arc(1.0, height)  # without an angle: one of its own would read as a figure of the page
        text = Text((wide + 1.0, 1.0), "turned on paper", height)
        out.append(
            ([*(moved(r, wide, 1.0) for r in sign), text], wide + 1.0 + measure(text.text, height, context.metrics))
        )
    return out


def _entry(
    context: Context, cuts: tuple[tuple[Cut, float], ...], text: str, *, black: bool = False
) -> tuple[list[Record], float]:
    """Return hatched fields with what they tell, and the width of all; with `black` a filled one too."""
    out: list[Record] = []
    x, height = 0.0, context.layout.heights.note
    for cut, degrees in cuts:
        ring = ((x, 0.0), (x + SWATCH, 0.0), (x + SWATCH, HIGH), (x, HIGH))
        out += [Path(ring, Pen.VISIBLE, closed=True), *inked(hatched([ring], degrees, cut), cut)]
        x += SWATCH + 1.0
    if black:
        low, high = HIGH / 2 - 0.7, HIGH / 2 + 0.7
        out.append(Area((((x, low), (x + SWATCH, low), (x + SWATCH, high), (x, high)),)))
        x += SWATCH + 1.0
    out.append(Text((x + 1.0, 1.0), text, height))
    return out, x + 1.0 + measure(text, height, context.metrics)
