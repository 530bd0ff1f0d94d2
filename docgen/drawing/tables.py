"""Tables as records: columns with heads, wrapped cells, aligned figures, rules, pages that go on.

Text is never cut. A table first becomes smaller, down to its least height, then its cells wrap, and what does not
stand on a page goes to the next one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from docgen.drawing.cells import Block, block, is_figure, measure
from docgen.drawing.columns import GUTTER, Column, Fitted, figure_start, fit
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import PaperFault
from docgen.drawing.records import Line, Pen, Record, Text
from docgen.layout.model import Rect

ROW_AIR = 0.9  # mm between a rule and the text under or above it


@dataclass(frozen=True, slots=True)
class Row:
    """A row of texts, one a column. A line break in a cell begins a new line.

    `under` is a remark that runs below the cells across all columns. A `heading` row has one text, across all columns,
    and stays with the row after it.
    """

    cells: tuple[str, ...] = ()
    under: str = ""
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Style:
    """Heights in mm of the cells, of the least cells, of heads and of remarks; `verticals` rules the columns too.

    `air` is what stays free between a rule and the text under or above it, mm.
    """

    height: float = 3.5
    least: float = 2.5
    head: float = 2.5
    remark: float = 2.5
    verticals: bool = True
    air: float = ROW_AIR


@dataclass(frozen=True, slots=True)
class Placed:
    """The part of a table that stands on one page: its records, the room it takes, the row boxes by index."""

    records: tuple[Record, ...]
    box: Rect
    rows: tuple[tuple[int, Rect], ...]
    height: float  # of the lettering that was chosen


@dataclass(frozen=True, slots=True)
class _Strip:
    """What is set in one go: a row, or as many of its lines as a page takes. Heights in mm, air included."""

    index: int
    heading: bool
    blocks: tuple[Block, ...]
    under: Block
    tall: float
    together: float  # with what must stay on the same page


def table(
    columns: Sequence[Column],
    rows: Sequence[Row],
    areas: tuple[Rect, Rect],
    metrics: Metrics,
    style: Style | None = None,
) -> tuple[Placed, ...]:
    """Return the table in pages: it begins at the top of ``areas[0]`` and goes on in ``areas[1]``, page after page.

    Both areas are equally wide. A first area too low for the head and one row gives a first page without records; no
    rows give the head alone. A row taller than a whole page is parted between its lines. ValueError when a row has
    another number of cells than there are columns; PaperFault when an area takes no line at all.
    """
    for row in rows:
        if not row.heading and len(row.cells) != len(columns):
            raise ValueError(f"{len(row.cells)} cells in {len(columns)} columns: {row.cells}")
    style = style or Style()
    width = areas[0].width
    texts = [[row.cells[i] for row in rows if not row.heading] for i in range(len(columns))]
    fitted = fit(columns, texts, width, metrics, (style.height, style.least, style.head))
    heads = tuple(
        block(c.head, w - 2 * GUTTER, style.head, metrics, bold=True)
        for c, w in zip(columns, fitted.widths, strict=True)
    )
    head_tall = max(b.tall for b in heads) + 2 * style.air if any(b.lines for b in heads) else 0.0
    strips = _strips(columns, rows, fitted, style, width, metrics, areas[1].height - head_tall)
    page_of = _Pages(tuple(columns), tuple(rows), fitted, width, metrics, style)
    return tuple(page_of.fill(strips, heads, head_tall, areas))


def _strips(
    columns: Sequence[Column],
    rows: Sequence[Row],
    fitted: Fitted,
    style: Style,
    width: float,
    metrics: Metrics,
    most: float,
) -> list[_Strip]:
    out: list[_Strip] = []
    for index, row in enumerate(rows):
        if row.heading:
            blocks = [block(row.heading, width - 2 * GUTTER, fitted.height, metrics, bold=True)]
        else:
            blocks = [
                block(text, w - 2 * GUTTER, fitted.height, metrics, bold=c.bold)
                for text, w, c in zip(row.cells, fitted.widths, columns, strict=True)
            ]
            blocks = _level(columns, blocks)
        under = block(row.under, width - 4 * GUTTER, style.remark, metrics)
        out += _parted(index, bool(row.heading), blocks, under, most, style.air)
    for i in range(len(out) - 2, -1, -1):
        with_next = out[i].tall + out[i + 1].together
        if out[i].heading and with_next <= most:
            out[i] = _strip(out[i].index, True, out[i].blocks, out[i].under, style.air, with_next)
    return out


def _level(columns: Sequence[Column], blocks: list[Block]) -> list[Block]:
    """Return the cells of a row with the lines of paired columns level with one another."""
    paired = [b.reach for b, c in zip(blocks, columns, strict=True) if c.paired]
    most = max((len(r) for r in paired), default=0)
    lines = [[r[i] for r in paired if i < len(r)] for i in range(most)]
    level = tuple((max(up for up, _ in line), max(down for _, down in line)) for line in lines)
    return [replace(b, reach=level[: len(b.lines)]) if c.paired else b for b, c in zip(blocks, columns, strict=True)]


def _strip(
    index: int, heading: bool, blocks: Sequence[Block], under: Block, air: float, together: float | None = None
) -> _Strip:
    tall = max((b.tall for b in blocks), default=0.0) + 2 * air
    tall += under.tall + air if under.lines else 0.0
    return _Strip(index, heading, tuple(blocks), under, tall, tall if together is None else together)


def _parted(index: int, heading: bool, blocks: list[Block], under: Block, most: float, air: float) -> list[_Strip]:
    """Return a row as one strip, or as several when it is taller than a page."""
    whole = _strip(index, heading, blocks, under, air)
    if whole.tall <= most:
        return [whole]
    out: list[_Strip] = []
    while any(b.lines for b in (*blocks, under)):
        pairs = [b.parted(most - 2 * air) for b in blocks]
        cells_done = not any(b.lines for b in blocks)
        remark, rest = under.parted(most - 3 * air if cells_done else 0.0)
        taken = [first for first, _ in pairs]
        if not any(b.lines for b in (*taken, remark)):
            raise PaperFault("a line of a table")
        out.append(_strip(index, heading, taken, remark, air))
        blocks, under = [last for _, last in pairs], rest
    return out


@dataclass(frozen=True, slots=True)
class _Pages:
    """Sets strips on pages, from the top down."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    fitted: Fitted
    width: float
    metrics: Metrics
    style: Style

    def fill(
        self, strips: Sequence[_Strip], heads: tuple[Block, ...], head_tall: float, areas: tuple[Rect, Rect]
    ) -> list[Placed]:
        """Return the pages in order; there is always one."""
        out: list[Placed] = []
        at = 0
        while True:
            area = areas[1] if out else areas[0]
            count, y = 0, area.top - head_tall
            while at + count < len(strips) and y - strips[at + count].together >= area.y - 1e-6:
                y -= strips[at + count].tall
                count += 1
            if not count and strips:
                if out:
                    raise PaperFault("a row of a table")
                out.append(Placed((), Rect(area.x, area.top, self.width, 0.0), (), self.fitted.height))
                continue
            out.append(self._page(strips[at : at + count], heads, head_tall, area))
            at += count
            if at >= len(strips):
                return out

    def _page(self, strips: Sequence[_Strip], heads: tuple[Block, ...], head_tall: float, area: Rect) -> Placed:
        records: list[Record] = []
        boxes: list[tuple[int, Rect]] = []
        y = area.top
        spans: list[tuple[float, float]] = []  # between which heights the columns are ruled
        if head_tall:
            records += self._head(heads, area.x, y, head_tall)
            spans.append((y, y - head_tall))
            y -= head_tall
        for strip in strips:
            records += self._row(strip, area.x, y)
            cells = strip.tall - (
                strip.under.tall + 2 * self.style.air if strip.under.lines else 0.0
            )  # clear of the remark
            if not strip.heading and cells > 0:
                spans.append((y, y - cells))
            y -= strip.tall
            records.append(self._rule(area.x, y))
            boxes.append((strip.index, Rect(area.x, y, self.width, strip.tall)))
        if self.style.verticals:
            for high, low in _joined(spans):
                xs = [area.x + left for left in self.fitted.lefts[1:]]
                records += [Line((x, high), (x, low), Pen.THIN) for x in xs]
        return Placed(tuple(records), Rect(area.x, y, self.width, area.top - y), tuple(boxes), self.fitted.height)

    def _rule(self, x: float, y: float, pen: Pen = Pen.THIN) -> Line:
        return Line((x, y), (x + self.width, y), pen)

    def _head(self, heads: tuple[Block, ...], x: float, top: float, tall: float) -> list[Record]:
        """Return the heads, standing on the rule below them."""
        records: list[Record] = [self._rule(x, top), self._rule(x, top - tall, Pen.FRAME)]
        for i, head in enumerate(heads):
            align = "left" if self.columns[i].align == "figures" else self.columns[i].align
            records += head.records((self._anchor_x(i, x, align), top - tall + self.style.air + head.tall), align)
        return records

    def _anchor_x(self, index: int, x: float, align: str) -> float:
        left, wide = x + self.fitted.lefts[index], self.fitted.widths[index]
        return {"left": left + GUTTER, "middle": left + wide / 2, "right": left + wide - GUTTER}[align]

    def _row(self, strip: _Strip, x: float, top: float) -> list[Record]:
        records: list[Record] = []
        if strip.heading:
            records += strip.blocks[0].records((x + GUTTER, top - self.style.air))
        else:
            for i, cell in enumerate(strip.blocks):
                whole = self.rows[strip.index].cells[i].split("\n")
                records += self._cell(cell, i, x, top - self.style.air, whole)
        if strip.under.lines:
            records += strip.under.records((x + 3 * GUTTER, top - strip.tall + self.style.air + strip.under.tall))
        return records

    def _cell(self, cell: Block, index: int, x: float, top: float, whole: Sequence[str]) -> list[Record]:
        """Return the lines of a cell; figures that did not have to break stand at their column's units digit."""
        column = self.columns[index]
        if column.align != "figures":
            return cell.records((self._anchor_x(index, x, column.align), top), column.align)
        edge = x + self.fitted.lefts[index] + GUTTER
        out: list[Record] = []
        for record in cell.records((edge, top)):
            if isinstance(record, Text) and is_figure(record.text) and record.text in whole:
                back, _ = figure_start(record.text, cell.height, self.metrics, bold=cell.bold)
                wide = measure(record.text, cell.height, self.metrics, bold=cell.bold)
                right = edge + self.fitted.widths[index] - 2 * GUTTER
                x = max(edge, min(edge + self.fitted.wholes[index] - back, right - wide))
                out.append(Text((x, record.at[1]), record.text, cell.height, "left", cell.bold))
            else:
                out.append(record)
        return out


def _joined(spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return spans from the top down with those joined that touch."""
    out: list[tuple[float, float]] = []
    for high, low in spans:
        if out and abs(out[-1][1] - high) < 1e-6:
            out[-1] = (out[-1][0], low)
        else:
            out.append((high, low))
    return out
