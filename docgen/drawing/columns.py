"""The columns of a table: what each needs, how they share the width, how high the lettering can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.cells import is_figure, measure, tied, whole_part, wrapped
from docgen.drawing.metrics import Metrics

GUTTER = 1.6  # mm between a column's edge and its text
STEP = 0.25  # mm between the heights that are tried
MOST_LINES = 4  # a cell that would wrap to more lines asks for smaller lettering first


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, how its cells stand, and how willingly it takes room that is left over.

    `align` is left, middle, right or figures: figures stand with their units digits under one another, what follows
    (a fraction, decimals) to the right of that, and do not wrap. `grow` is a share of spare width, 0 for none. The
    lines of `paired` columns do not wrap and stand level with one another: coordinates.
    """

    head: str
    align: str = "left"
    grow: float = 0.0
    bold: bool = False
    paired: bool = False


@dataclass(frozen=True, slots=True)
class Fitted:
    """The lettering's height, the columns' left edges and widths, and the widest whole part in each."""

    height: float
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    wholes: tuple[float, ...]


def fit(
    columns: Sequence[Column],
    texts: Sequence[Sequence[str]],
    width: float,
    metrics: Metrics,
    heights: tuple[float, float, float],
) -> Fitted:
    """Return the columns in `width` mm at the largest height at which they stand well.

    `texts` has the cells of each column; `heights` are the wished for, the least, and that of the heads. At the least
    height everything is taken, and words wider than their column break.
    """
    most, least, head = heights
    tied_texts = [[line for text in column for line in tied(text).split("\n")] for column in texts]
    height = most
    while True:
        needs = [_needs(c, t, height, head, metrics) for c, t in zip(columns, tied_texts, strict=True)]
        widths = shared(needs, width, [c.grow for c in columns])
        if height <= least + 1e-9:
            break
        if sum(n[0] for n in needs) <= width and _most_lines(columns, texts, widths, height, metrics) <= MOST_LINES:
            break
        height = max(least, height - STEP)
    wholes = [_whole(c, t, height, metrics) for c, t in zip(columns, tied_texts, strict=True)]
    lefts = tuple(sum(widths[:i]) for i in range(len(widths)))
    return Fitted(height, lefts, tuple(widths), tuple(wholes))


def _whole(column: Column, lines: Sequence[str], height: float, metrics: Metrics) -> float:
    """Return the widest whole part of a figures column: up to its units digit."""
    if column.align != "figures":
        return 0.0
    return max((measure(whole_part(t), height, metrics, bold=column.bold) for t in lines if is_figure(t)), default=0.0)


def _needs(column: Column, lines: Sequence[str], height: float, head: float, metrics: Metrics) -> tuple[float, float]:
    """Return the least width of a column (its longest word) and the width at which nothing wraps."""
    words = tied(column.head).split()
    least = max((measure(w, head, metrics, bold=True) for w in words), default=0.0)
    natural = max((measure(t, head, metrics, bold=True) for t in tied(column.head).split("\n")), default=0.0)
    if column.align == "figures":
        figures = [t for t in lines if is_figure(t)]
        tails = [figure_start(t, height, metrics, bold=column.bold)[1] for t in figures]
        wide = _whole(column, lines, height, metrics) + max(tails, default=0.0)
        least, natural = max(least, wide), max(natural, least, wide)
        lines = [t for t in lines if not is_figure(t)]
    for line in lines:
        natural = max(natural, measure(line, height, metrics, bold=column.bold))
        for word in [line] if column.paired else line.split(" "):
            least = max(least, measure(word, height, metrics, bold=column.bold))
    return least + 2 * GUTTER, max(natural, least) + 2 * GUTTER


def figure_start(text: str, height: float, metrics: Metrics, *, bold: bool = False) -> tuple[float, float]:
    """Return how far left of the line behind the units digits a figure begins, and how far right of it it ends.

    A fraction alone begins right of that line, as far as one that stands behind a whole number.
    """
    whole = whole_part(text)
    wide = measure(text, height, metrics, bold=bold)
    if whole:
        before = measure(whole, height, metrics, bold=bold)
        return before, wide - before
    spare = measure(f"1 {text}", height, metrics, bold=bold) - measure("1", height, metrics, bold=bold) - wide
    return -spare, wide + spare


def _most_lines(
    columns: Sequence[Column],
    texts: Sequence[Sequence[str]],
    widths: Sequence[float],
    height: float,
    metrics: Metrics,
) -> int:
    most = 1
    for column, cells, width in zip(columns, texts, widths, strict=True):
        for text in cells:
            most = max(most, len(wrapped(text, width - 2 * GUTTER, height, metrics, bold=column.bold)))
    return most


def shared(needs: Sequence[tuple[float, float]], room: float, grow: Sequence[float]) -> list[float]:
    """Return the columns' widths: natural ones with what is left over shared out, or as much as can be had of them.

    When there is too little, narrow columns keep their natural width and the broad ones give way, down to one common
    width (more for those that grow), but none below its least. Where the least widths are too much together, the
    broad ones give way once more, and their longest words break.
    """
    least, natural = [n[0] for n in needs], [n[1] for n in needs]
    if sum(natural) <= room:
        spare, shares = room - sum(natural), sum(grow)
        return [n + (spare * g / shares if shares else 0.0) for n, g in zip(natural, grow, strict=True)]
    if sum(least) > room:
        needs, grow = [(0.0, a) for a in least], [0.0] * len(least)
    low, high = 0.0, max(natural)
    for _ in range(60):  # halving finds the common width to far below a micrometre
        cap = (low + high) / 2
        low, high = (cap, high) if sum(_capped(needs, grow, cap)) <= room else (low, cap)
    return _capped(needs, grow, low)


def _capped(needs: Sequence[tuple[float, float]], grow: Sequence[float], cap: float) -> list[float]:
    return [min(b, max(a, cap * (1 + g))) for (a, b), g in zip(needs, grow, strict=True)]
