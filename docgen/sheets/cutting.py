"""The cutting list: finished, rough and stock sizes, grain, board measure; blanks that stay whole; what to buy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import groupby

from docgen.drawing.cells import TIE
from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.symbols import AUTHORITY
from docgen.drawing.tables import Row, Style
from docgen.schedules.rows import BlankRow, CutRow, MeasuredRow, Schedules, StockRow
from docgen.schedules.stock import SQUARE_FEET, volume
from docgen.schedules.used_up import USED
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, drawn_together, length, signs_line, stacked
from docgen.sheets.wrapped import blank_sheets
from docgen.trade.boards import PLANED
from docgen.trade.weights import POUND
from docgen.units import Kind, Quantity, Units, format_quantity, plain_length

COLUMNS = (
    Column("no.", "right", bold=True),
    Column("part", grow=2.0),
    Column("count", "right", bold=True),
    Column("finished: length", "figures"),
    Column("width", "figures"),
    Column("thick", "figures"),
    Column("rough: length", "figures"),
    Column("width", "figures"),
    Column("thick", "figures"),
    Column("grain runs"),
    Column("measure", "right", paired=True),
    Column("weight each", "right"),
    Column("cut", "middle"),
)
GRAIN = {"along the length": "length", "face grain along the length": "length"}
MOST_DECIMALS = 3  # of a weight
LESS = 3.0  # mm: lettering that is taken where it saves a page
DECIMALS = {"board feet": 1, "ft²": 1, "m³": 4, "m²": 2}
BLANKS = (
    Column("blank"),
    Column("length", "figures"),
    Column("width", "figures"),
    Column("thick", "figures"),
    Column("parts in turn", grow=1.0),
    Column("measure", "right"),
    Column("cut", "middle"),
)
MEASURED = (
    Column("size", grow=1.0),
    Column("used here", "figures", bold=True),
    Column("drawn", "figures"),
    Column("difference", "figures"),
    Column("from"),
)
USED_UP = (Column("what", bold=True), Column("how much"), Column("for", grow=1.0), Column("mind", grow=2.0))
STOCK = (
    Column("material", grow=1.0),
    Column("as bought"),
    Column("net", "right"),
    Column("waste", "right"),
    Column("to buy", "right", bold=True),
    Column("unit"),
    Column("finished parts weigh", "right"),
)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the cutting list, then a page for each blank whose grain runs around; nothing without parts."""
    lists = context.lists
    if not lists.cutting:
        return ()
    sheets = drawn_together(partial(_set, context, context.layout.heights.figure)).sheets()
    if len(sheets) > 1 and context.layout.heights.figure > LESS:
        smaller = drawn_together(partial(_set, context, LESS)).sheets()
        sheets = smaller if len(smaller) < len(sheets) else sheets
    return (*sheets, *(s for blank in lists.blanks for s in blank_sheets(context, blank)))


def _set(context: Context, height: float, air: float = 1.0) -> Flow:
    """Return the lists with figures up to `height` mm, and so much of the usual air."""
    lists, heights = context.lists, context.layout.heights
    flow = Flow(context, key="cutting", kind="cutting", title="Cutting list", wide=True, air=air)
    style = Style(height, heights.least, heights.note, heights.note)
    unit = "inches" if context.piece.units.system == "inch" else "millimetres"
    flow.text(
        f"Sizes in {unit}; length runs with the grain. Finished sizes hold tongues and mitres to their long points. Rough "
        "sizes leave wood for milling: let it rest after the first pass, then mill to thickness."
        + _numbers(lists)
        + _unsaid(context)
    )
    signs = signs_line({row.authority for row in lists.cutting})
    if signs:
        flow.text(signs)
    flow.table(COLUMNS, _cut_rows(context, lists), style)
    if lists.blanks:
        flow.heading("Blanks: do not crosscut to length", keep=38.0)
        flow.text("Parts whose grain runs around a corner are cut in turn from one board, each on its own page here.")
        flow.table(BLANKS, [_blank_row(context, blank) for blank in lists.blanks], style)
    if lists.stock:
        flow.heading("Stock to buy", keep=25.0)
        flow.table(STOCK, [_stock_row(context, row) for row in lists.stock], style)
    if lists.hardware and all(row.group == USED for row in lists.hardware):  # no list of its own
        flow.heading(USED, keep=20.0)
        flow.table(USED_UP, [Row(cells=(r.what, r.size or "–", r.where, r.note)) for r in lists.hardware], style)
    if lists.measured:
        flow.heading("Sizes as measured: they win over the drawn ones on every sheet", keep=25.0)
        flow.table(MEASURED, [_measured_row(context, row) for row in lists.measured], style)
    return flow


def _numbers(lists: Schedules) -> str:
    """Say whose numbers are left out, where some are."""
    numbers = {row.number for row in lists.cutting}
    left = numbers and numbers != set(range(1, max(numbers) + 1))
    return (
        " Equal parts, and the two hands of one, go by the number of the first: numbers left out are the others'."
        if left
        else ""
    )


def _unsaid(context: Context) -> str:
    """Say what is counted on where the file does not say how a wood is bought."""
    piece = context.piece
    if not any(p.material.solid_wood and not p.material.bought for p in piece.parts if not p.hardware):
        return ""
    more = f"{length(context, PLANED[piece.units.system])} {piece.units.sign}"
    return f" Where no thickness to buy is stated, the rough one is the finished and {more} for milling: ask what the dealer has."


def _cut_rows(context: Context, lists: Schedules) -> list[Row]:
    rows: list[Row] = []
    ordered = sorted(lists.cutting, key=lambda r: _place(lists, r))
    for (material, bought), group in groupby(ordered, key=lambda r: (r.material, r.bought)):
        told = _material(context, material)
        rows.append(Row(heading=stacked(f"{told}, bought as {bought}" if bought else told)))
        rows += [_cut_row(context, row) for row in group]
    return rows


def _material(context: Context, name: str) -> str:
    """Return the file's name of a material with what it is: "case boards (black cherry)"."""
    made = next((p.material for p in context.piece.parts if p.material.name == name), None)
    kind = (made.species or made.sheet) if made else ""
    return f"{name} ({kind})" if kind and kind not in name else name


def _place(lists: Schedules, row: CutRow) -> int:
    """Return the place of a row's material in the list; rows of one material stand together, in their order."""
    seen = list(dict.fromkeys((r.material, r.bought) for r in lists.cutting))
    return seen.index((row.material, row.bought))


def _cut_row(context: Context, row: CutRow) -> Row:
    rough: tuple[str, ...] = (f"blank {row.blank}" if row.blank else "as finished", "–", "–")
    if not row.blank and row.rough != row.finished:
        rough = tuple(length(context, v) for v in row.rough)
    return Row(
        cells=(
            str(row.number),
            f"{row.title} {AUTHORITY[row.authority]}".strip(),
            str(row.count),
            *(length(context, v) for v in row.finished),
            *rough,
            "around" if row.blank else GRAIN.get(row.grain, row.grain),
            _measure(context, row),
            _weight(context, row.weight_kg, 2),
            "□",
        ),
        under=stacked(_remark(row)),
    )


def _weight(context: Context, kg: float | None, decimals: int) -> str:
    """Return a weight: in kilograms, where the file is in inches in pounds; a small one with as many decimals as tell it."""
    if kg is None:
        return "–"
    inch = context.piece.units.system == "inch"
    weight = kg / POUND if inch else kg
    while 0 < weight < 0.95 * 10**-decimals and decimals < MOST_DECIMALS:
        decimals += 1
    return f"{weight:.{decimals}f} {'lb' if inch else 'kg'}"


def _remark(row: CutRow) -> str:
    said = [row.hands, row.note]
    return "; ".join(s for s in said if s)


def _measure(context: Context, row: CutRow) -> str:
    if row.area_m2 is not None:
        inch = context.piece.units.system == "inch"
        return f"{row.area_m2 * SQUARE_FEET:.2f} ft²" if inch else f"{row.area_m2:.3f} m²"
    return "–" if row.board_feet is None else _lumber(context, row)


def _lumber(context: Context, row: CutRow | BlankRow) -> str:
    if context.piece.units.system == "inch":
        return f"{row.board_feet:.2f} bd{TIE}ft"
    return f"{volume(row):.4f} m³"


def _blank_row(context: Context, blank: BlankRow) -> Row:
    return Row(
        cells=(
            blank.name,
            length(context, blank.length),
            length(context, blank.width),
            length(context, blank.thickness),
            " → ".join(f"{p.number} {context.piece.part(p.path).called}" for p in blank.pieces),
            _lumber(context, blank),
            "□",
        ),
        under=stacked(blank.note),
    )


def _measured_row(context: Context, row: MeasuredRow) -> Row:
    piece = context.piece
    into = "; ".join(piece.part(p).called for p in row.parts)
    said = [f"goes into {into}" if into else "goes into no part"]
    if row.sizes:
        said.append(f"sizes made of it: {', '.join(row.sizes)}")
    return Row(
        cells=(
            row.name,
            _figure(row.used, piece.units),
            "–" if row.drawn is None else _figure(row.drawn, piece.units),
            "–" if row.drawn is None else _difference(row.used, row.drawn, piece.units),
            f"measured {row.on}".strip() if row.source == "measured" else "set for this print",
        ),
        under=stacked(". ".join(said)),
    )


def _difference(used: Quantity, drawn: Quantity, units: Units) -> str:
    """Return by how much a size is over (+) or under (−) the drawn one."""
    off = used.value - drawn.value
    sign = "+" if off > 0 else "−" if off < 0 else ""
    return f"{sign}{_figure(Quantity(max(off, -off), used.kind), units)}"


def _figure(size: Quantity, units: Units) -> str:
    """Return a size as a calliper says it: a decimal, a fraction only where it is one of the inch rule."""
    value = size.value / units.mm if size.kind is Kind.LENGTH else size.value
    if size.kind is Kind.ANGLE or size.kind is Kind.MASS:
        return format_quantity(size, units)
    if units.system == "inch" and isinstance(value, Fraction) and value.denominator in (2, 4, 8, 16, 32, 64):
        return plain_length(value * units.mm, replace(units, finest=Fraction(1, 64)))
    return f"{float(value):.4f}".rstrip("0").rstrip(".")


def _stock_row(context: Context, row: StockRow) -> Row:
    decimals = DECIMALS[row.unit]
    return Row(
        cells=(
            stacked(_material(context, row.material)),
            stacked(row.bought) or "–",
            f"{row.net:.{decimals}f}",
            f"{row.waste_percent:.0f} %",
            f"{row.with_waste:.{decimals}f}",
            row.unit,
            _weight(context, row.weight_kg, 1),
        )
    )
