"""The drilling and tapping chart: each group of holes with everything that the drill press needs to know."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import groupby

from docgen.drawing.cells import TIE
from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.tables import Row
from docgen.piece.naming import in_words
from docgen.piece.records import Authority, HoleRow, Purpose
from docgen.schedules.rows import ChartRow
from docgen.sheets.context import Context
from docgen.sheets.counted import called
from docgen.sheets.flow import Flow, drawn_together, length, signs_line, stacked, valued
from docgen.trade.drills import told

COLUMNS = (
    Column("hole", "middle", bold=True, paired=True),
    Column("part", grow=1.0),
    Column("face"),
    Column("from the end", "figures", paired=True),
    Column("from the edge", "figures", paired=True),
    Column("for"),
    Column("drill", "figures"),
    Column("full\ndepth", "figures"),
    Column("thread,\nfull threads"),
    Column("engage-\nment", "figures"),
    Column("fastener", grow=1.0),
    Column("each", "middle"),
    Column("in all", "middle", bold=True),
)
PURPOSE = {
    Purpose.PLAIN: "plain",
    Purpose.CLEARANCE: "clearance",
    Purpose.TAPPED: "tap drill",
    Purpose.PILOT: "pilot",
    Purpose.DOWEL: "dowel",
    Purpose.BORE: "bore",
}


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the chart, on its side if the paper is upright; nothing when the piece has no holes."""
    chart = context.lists.chart
    if not chart:
        return ()
    return drawn_together(partial(_filled, context, chart)).sheets()


def _filled(context: Context, chart: Sequence[ChartRow], air: float) -> Flow:
    """Return the pages with so much of the usual air."""
    flow = Flow(context, key="drilling", kind="drilling", title="Drilling and tapping chart", wide=True, air=air)
    unit = "inches" if context.piece.units.system == "inch" else "millimetres"
    flow.text(
        f"Sizes in {unit}. Positions are hole centres from the end and the edge that the row names, on mirrored parts too. "
        "Full depth is that of the full diameter. Threads in wood: full threads and per cent of thread; test piece first. A hole has "
        "the same name in both parts that it joins. Sorted by when they are drilled, then by drill, thinnest first: the steps are in "
        "the order of work. Speed as the maker of the bit says."
    )
    used = {row.hole.authority for row in chart}
    if signs_line(used):
        flow.text(signs_line(used))
    rows: list[Row] = []
    times = {row.when for row in chart}
    for when, group in groupby(chart, key=lambda row: row.when):
        if len(times) > 1:
            rows.append(Row(heading=(when[:1].upper() + when[1:]) or "In the single parts"))
        rows += [_row(context, row) for row in group]
    flow.table(COLUMNS, rows)
    return flow


def _row(context: Context, row: ChartRow) -> Row:
    hole = row.hole
    end, edge = row.datum_end.split(", "), row.datum_edge.split(", ")
    lines = max(len(end), len(edge))  # coordinates stay level under datums of one or two lines
    ends = [*end, *[""] * (lines - len(end)), *(length(context, a) for a, _ in row.at)]
    edges = [*edge, *[""] * (lines - len(edge)), *(length(context, b) for _, b in row.at)]
    numbered = row.marks if len(row.marks) > 1 else ()
    names = [f"{row.name}{TIE}{AUTHORITY[hole.authority]}".rstrip(TIE), *[""] * (lines - 1), *numbered]
    return Row(
        cells=(
            "\n".join(names) if numbered else names[0],
            _parts(context, row),
            row.face,
            "\n".join(ends),
            "\n".join(edges),
            _purpose(row),
            _drill(context, hole),
            _depth(context, hole),
            _thread(context, hole),
            length(context, row.engagement),
            stacked(row.fastener) or "–",
            str(row.each),
            str(row.total),
        ),
        under=_remark(context, row),
    )


def _parts(context: Context, row: ChartRow) -> str:
    text = _called(context, row.parts)
    return f"{text}; mirrored: {_called(context, row.mirrored)}" if row.mirrored else text


def _called(context: Context, paths: tuple[str, ...]) -> str:
    return "; ".join(called(context, path) for path in paths)


def _purpose(row: ChartRow) -> str:
    """Return what a hole is for; a plain one by what goes through it, where that is said."""
    plain = row.hole.purpose is Purpose.PLAIN and row.hole.mate
    return "to take the other part" if plain else PURPOSE[row.hole.purpose]


def _drill(context: Context, hole: HoleRow) -> str:
    units = context.piece.units
    if hole.drill:
        return stacked(told(hole.drill, units.system))
    return length(context, hole.diameter) + (f"{TIE}mm" if units.system == "mm" else "")


def _depth(context: Context, hole: HoleRow) -> str:
    lines = ["through" if hole.depth is None else length(context, hole.depth)]
    sink = hole.sink
    if sink is not None and sink.angle is not None:
        lines.append(f"⌵ ⌀{length(context, sink.diameter)} × {valued(context, sink.angle, 'angle')}")
    elif sink is not None:
        lines.append(f"⌴ ⌀{length(context, sink.diameter)} ↧{length(context, sink.depth)}")
    return "\n".join(lines)


def _thread(context: Context, hole: HoleRow) -> str:
    if not hole.thread:
        return "–"
    lines = [hole.thread]
    if hole.thread_depth is not None:
        lines.append(f"{length(context, hole.thread_depth)} full")
    if hole.percent is not None:
        lines.append(f"{hole.percent:.0f} %")
    return "\n".join(line.replace(" ", TIE) for line in lines)


def _remark(context: Context, row: ChartRow) -> str:
    said = [row.hole.note, row.note, f"nearest on hand: {row.on_hand}" if row.on_hand else ""]
    mate = row.hole.mate
    if mate and not any(mate in text for text in said):
        through = row.hole.authority is Authority.MATE
        said.append(f"marked or drilled through {mate}, not measured" if through else f"meets {mate}")
    names = {p.path: p.called for p in context.piece.parts}
    return stacked(in_words("; ".join(dict.fromkeys(s for s in said if s)), names))
