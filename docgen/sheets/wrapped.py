"""The blank whose grain runs around: a picture of the cuts in their order, and where each part begins and ends."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.drawing.columns import Column
from docgen.drawing.records import Line, Path, Pen, Point, Record, Sheet, Text
from docgen.drawing.symbols import arrow, balloon, balloon_radius, grain_arrow
from docgen.drawing.tables import Row
from docgen.layout.model import Rect
from docgen.schedules.rows import BlankPiece, BlankRow
from docgen.schedules.stock import volume
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, length, stacked
from docgen.trade.scales import largest

COLUMNS = (
    Column("no.", "right", bold=True),
    Column("part", grow=1.0),
    Column("begins at", "figures"),
    Column("ends at", "figures"),
    Column("long point to long point", "figures"),
    Column("cuts", "middle"),
)
GAP = 9.0  # mm between the view of the face and the view of the edge


def blank_key(blank: BlankRow) -> str:
    """Return the key of a blank's sheet."""
    return f"cutting/blank/{blank.name}"


def blank_sheets(context: Context, blank: BlankRow) -> tuple[Sheet, ...]:
    """Return the page of one blank; long blanks lie on their side."""
    flow = Flow(context, key=blank_key(blank), kind="cutting", title=f"Blank: {blank.name}", wide=True, whole=True)
    flow.heading("One board: do not crosscut it to lengths first", keep=40.0)
    flow.text(_sizes(context, blank))
    scale = _picture(flow, blank)
    flow.table(COLUMNS, [_row(context, blank, i) for i in range(len(blank.pieces))])
    flow.points(_steps(context, blank))
    return flow.sheets(scale=f"{scale[0]} : {scale[1]}" if scale else "none")


def _sizes(context: Context, blank: BlankRow) -> str:
    unit = context.piece.units.sign
    a, b, c = (length(context, v) for v in (blank.length, blank.width, blank.thickness))
    inch = context.piece.units.system == "inch"
    measure = f"{blank.board_feet:.2f} board feet" if inch else f"{volume(blank):.4f} m³"
    return (
        f"{blank.material}, {a} × {b} × {c} {unit}, {measure}. Lost along the show face at each corner: "
        f"{length(context, blank.lost)} {unit} to the saw (kerf {length(context, blank.kerf)} {unit}) and "
        f"{length(context, blank.miss)} {unit} for a cut that misses, on the inside face a whole wedge more; trim {length(context, blank.trim)} {unit} at both ends."
    )


def _row(context: Context, blank: BlankRow, index: int) -> Row:
    piece = blank.pieces[index]
    return Row(
        cells=(
            str(piece.number),
            context.piece.part(piece.path).called,
            length(context, piece.start),
            length(context, piece.end),
            length(context, piece.end - piece.start),
            f"{2 * index + 1} and {2 * index + 2}",
        )
    )


def _steps(context: Context, blank: BlankRow) -> list[str]:
    """Return what to mind, in the order of the work."""
    unit = context.piece.units.sign
    thick, wide = (f"{length(context, v)} {unit}" for v in (blank.milled, blank.ripped))
    around = bool(blank.unmatched)  # the last part meets the first
    first = "Cut 1 mitres the datum end" if around else "Cut 1 squares the datum end, and the last cut is square too"
    steps = [
        f"Before cut 1 mill the whole blank flat, to {thick} thick, and rip it to {wide} wide, edges parallel: both edges ride the "
        "mitre gauge in turn. Mark the show face over its whole length, and write the name of each part on it, in turn, before the first cut.",
        f"{first}; then cut in the order of the cuts' numbers. Begins and ends are measured on the show face from the datum end, at "
        "the long points.",
        "Each mitre leans against the one before. Between two cuts either turn the blank over about its long axis and stay on the "
        "same side of the blade, or turn it flat by half a turn and go to the other side of the blade. Never end over end.",
    ]
    if blank.unmatched:
        steps.append(f"The grain cannot meet at the last corner: {blank.unmatched}. Put it where it is seen least.")
    if blank.note:
        steps.append(stacked(f"{blank.note[:1].upper()}{blank.note[1:]}."))
    return steps


def _picture(flow: Flow, blank: BlankRow) -> tuple[int, int] | None:
    """Draw the blank's show face and its edge under one another to one scale; return the scale."""
    context = flow.context
    long, wide, thick = float(blank.length), float(blank.width), float(blank.thickness)
    height = context.layout.heights.figure
    ladder = context.layout.scales[context.piece.units.system]
    most = flow.rest.height * 0.5
    room = (flow.area.width - 4.0, most - GAP - 5 * height)
    scale = largest(ladder, (long, wide + thick), room)
    factor = scale[0] / scale[1] if scale else room[0] / long
    tall = (wide + thick) * factor + GAP + 5.0 * height
    strip = flow.take(tall)
    x = strip.x + (strip.width - long * factor) / 2
    face = Rect(x, strip.top - wide * factor - 1.0, long * factor, wide * factor)
    edge = Rect(x, face.y - GAP - thick * factor, long * factor, thick * factor)
    flow.add(list(_face(blank, face, factor, height)))
    flow.add(list(_edge(blank, edge, factor, height)))
    flow.y -= 2.0
    return scale


def _corners(r: Rect) -> tuple[Point, ...]:
    return ((r.x, r.y), (r.right, r.y), (r.right, r.top), (r.x, r.top))


def _face(blank: BlankRow, face: Rect, factor: float, height: float) -> Iterator[Record]:
    """Draw the show face with the parts on it: where they begin and end, their numbers, the grain."""
    yield Path(_corners(face), Pen.VISIBLE, closed=True)
    middle = face.y + face.height / 2
    for piece in blank.pieces:
        low, high = (face.x + float(v) * factor for v in (piece.start, piece.end))
        for x in (low, high):
            yield Line((x, face.y), (x, face.top), Pen.THIN)
        radius = balloon_radius(height)
        if high - low > 2 * radius + 1 and face.height > 2 * radius + 1:
            yield from balloon(((low + high) / 2, middle), piece.number, height)
        if high - low > 2 * radius + 34:
            yield from grain_arrow((low + (high - low) / 4 - radius / 2, middle), 0.0, min(16.0, (high - low) / 6))


def _edge(blank: BlankRow, edge: Rect, factor: float, height: float) -> Iterator[Record]:
    """Draw the edge with the show face up: the cuts as they lean, numbered in their order, and the datum end."""
    yield Path(_corners(edge), Pen.PHANTOM, closed=True)
    cut = 0
    last = len(blank.pieces) - 1
    for i, piece in enumerate(blank.pieces):
        yield Path(_trapeze(blank, piece, edge, factor, first=i == 0, last=i == last), Pen.VISIBLE, closed=True)
    level = edge.y - 1.2 - height
    taken = float("-inf")
    for piece in blank.pieces:
        for at in (piece.start, piece.end):
            cut += 1
            x = edge.x + float(at) * factor
            wide = 0.6 * height * len(str(cut))
            side = "right" if at == piece.end else "left"
            begin = x - wide if side == "right" else x
            row = level if begin > taken + 2.0 else level - 1.5 * height
            yield Text((x, row), str(cut), height, side, bold=True)
            taken = begin + wide
    y = edge.y - 1.2 - 3.7 * height
    yield from arrow((edge.x + 12.0, y + height / 2), (edge.x, y + height / 2), 2.5)
    yield Text((edge.x + 13.0, y), "datum end; show face up", 0.72 * height, "left")


def _trapeze(
    blank: BlankRow, piece: BlankPiece, edge: Rect, factor: float, *, first: bool, last: bool
) -> tuple[Point, ...]:
    """Return the part on the edge: long points up, mitred where another part follows; open runs end square."""
    low, high = (edge.x + float(v) * factor for v in (piece.start, piece.end))
    closed = bool(blank.unmatched)
    lean = float(blank.thickness) * factor
    inner_low = low if first and not closed else low + lean
    inner_high = high if last and not closed else high - lean
    return ((inner_low, edge.y), (inner_high, edge.y), (high, edge.top), (low, edge.top))
