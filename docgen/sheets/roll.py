"""True-size drawings and sticks on a roll, for print shops: a page for each, as long as it needs, nothing to join."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet
from docgen.drawing.sticks.pieces import END_AIR
from docgen.drawing.sticks.strip import depth
from docgen.drawing.tiles import Page, is_small, shared_height, shared_pages, tile_pages, tiling_of
from docgen.drawing.tiling.grid import AIR
from docgen.drawing.tiling.ink import bounds_of
from docgen.drawing.tiling.paper import SHORT, paper
from docgen.drawing.tiling.printer_note import with_note
from docgen.drawing.tiling.rulers import long_check
from docgen.drawing.tiling.truesize import TrueSize
from docgen.expressions import ExprFault, KindFault, as_length, parse
from docgen.layout.model import Layout
from docgen.layout.printers import Printer
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.schedules.rows import Stick
from docgen.sheets.context import Context
from docgen.sheets.stick_strips import BETWEEN, LEFT, Laid, laid, strips
from docgen.sheets.true_drawings import drawings
from docgen.units import Quantity, Units

MM = Units("mm")
HINT = "rolls are usually 610, 762, 914 or 1067 mm wide: 24, 30, 36 or 42 in"
TITLE = "True-size templates"
LONGEST = 5080.0  # mm: 200 in, the longest page that needs no unit of its own in the file, which viewers support badly
WIDTHS = (270.0, 1620.0)  # mm of rolls: from 11 in, where both check lines have room, to 64 in
BESIDE = 30.0  # mm kept beside a drawing for its labels
LEAST = 260.0  # mm: a page holds its words and the check line
FOOT = 10.0  # mm above the foot line for the long check line
STEP = 10.0  # mm in which pages grow


def roll_width(text: str) -> float:
    """Return the width of a roll in mm from a text as 36 in, bare numbers as mm; Problems when it is none."""
    where = Span("--width", 1, 1, len(text))
    try:
        wide = float(as_length(parse(text.strip(), where, MM).evaluate(_no_names), MM))
    except (ExprFault, KindFault) as fault:
        raise Problems([Problem("roll-width", where, f"'{text}' is no width: {fault}", HINT)]) from None
    if not WIDTHS[0] <= wide <= WIDTHS[1]:
        message = f"a roll of {wide:g} mm is not from {WIDTHS[0]:g} to {WIDTHS[1]:g} mm wide"
        raise Problems([Problem("roll-width", where, message, HINT)])
    return wide


def _no_names(name: str) -> Quantity:
    raise KeyError(name)


def for_printer(layout: Layout, printer: Printer, metrics: Metrics) -> Layout:
    """Return the layout for a roll printer: white at both edges of its roll for what is drawn larger, room for the note."""
    assert printer.roll is not None
    width = printer.roll
    across, _ = printer.factors((width, LONGEST))
    edge = max(layout.unprintable, width / 2 - (width / 2 - layout.unprintable) / across)
    inner = replace(layout, unprintable=edge)
    return with_note(inner, printer, metrics, narrow=replace(inner, size=(min(LEAST, width), width)))


def make(context: Context, width: float) -> tuple[Sheet, ...]:
    """Return the pages on a roll `width` mm wide; none when the piece has neither templates nor sticks.

    For the context's printer they are as much longer as that draws them longer.
    """
    printer = context.printer
    grows = max(1.0, printer.factors((LONGEST, width))[0]) if printer else 1.0
    made = _pages(context, width, STEP * math.floor(LONGEST / grows / STEP))
    return tuple(_longer(sheet, width, grows) for sheet in made) if printer else made


def _longer(sheet: Sheet, width: float, grows: float) -> Sheet:
    """Return a page with as much more paper at both ends as keeps what is drawn larger on it."""
    lying = sheet.size[1] == width
    more = (grows - 1) * sheet.size[0 if lying else 1]
    dx, dy = (more / 2, 0.0) if lying else (0.0, more / 2)
    size = (sheet.size[0] + 2 * dx, sheet.size[1] + 2 * dy)
    return replace(sheet, size=size, records=tuple(moved(r, dx, dy) for r in sheet.records))


def _pages(context: Context, width: float, longest: float) -> tuple[Sheet, ...]:
    widest = _layout(context.layout, (longest, width))
    on_roll = replace(context, layout=widest)
    pages: list[tuple[Page, Layout]] = []
    shared = _layout(context.layout, (max(width, LEAST), width))
    small: list[TrueSize] = []
    for drawn in drawings(on_roll):
        if is_small(drawn.drawing, shared, context.metrics):
            small.append(drawn.drawing)
        else:
            layout = _fitting(drawn.drawing, widest)
            pages += [(p, layout) for p in tile_pages(drawn.drawing, layout, context.metrics)]
    pages += _together(small, shared, context)
    system = context.piece.units.system
    made = [_sheet(i, page, layout, system) for i, (page, layout) in enumerate(pages, 1)]
    return (*made, *_sticks(on_roll, system))


def _together(small: Sequence[TrueSize], shared: Layout, context: Context) -> Iterator[tuple[Page, Layout]]:
    """Yield the pages of small drawings, each no longer than what stands on it needs."""
    by_name = {d.title: d for d in small}
    for page in shared_pages(small, shared, context.metrics, TITLE):
        here = [by_name[name] for name in page.names]
        best, layout = page, shared
        least = max(LEAST, *(shared_height(d, shared, context.metrics) for d in here))
        for long in range(int(_rounded(least)), int(shared.size[1]), int(STEP)):
            trial = replace(shared, size=(shared.size[0], float(long)))
            tried = shared_pages(here, trial, context.metrics, TITLE)
            if len(tried) == 1:
                best, layout = tried[0], trial
                break
        yield best, layout


def _layout(layout: Layout, size: tuple[float, float]) -> Layout:
    return replace(layout, size=size, foot=layout.foot + FOOT)


def _fitting(drawing: TrueSize, widest: Layout) -> Layout:
    """Return the layout as long as the drawing needs, turned where only that keeps it in one piece."""
    width = widest.size[1]
    x0, y0, x1, y1 = bounds_of(drawing.inks)
    spans = (x1 - x0, y1 - y0)
    window = paper(widest).window
    over = (widest.size[0] - window.width, width - window.height)
    for along, across, lying in ((0, 1, True), (1, 0, False)):
        long = _rounded(spans[along] + 2 * BESIDE + over[0 if lying else 1])
        high = spans[across] + 2 * AIR + over[1 if lying else 0]
        if long <= widest.size[0] and high <= width:
            return replace(widest, size=(long, width) if lying else (width, long))
    columns = tiling_of(drawing, widest).columns
    even = (spans[0] + (columns - 1) * widest.overlap + 2 * BESIDE) / columns + over[0]
    return replace(widest, size=(min(widest.size[0], _rounded(even)), width))


def _rounded(length: float) -> float:
    return max(LEAST, STEP * math.ceil(length / STEP))


def _sheet(number: int, page: Page, layout: Layout, system: str) -> Sheet:
    names = [title.split("  ")[0] for title in page.names]
    title = page.names[0] if len(names) == 1 else f"Templates {', '.join(names)}"
    tile = f", page {page.tile}" if page.tile else ""
    records = (*page.records, *_check(layout.for_size(page.size), system))
    return Sheet(
        f"roll/{number}", "templates", f"{title}{tile}", page.size, records, "full size", framed=False,
        outline=(TITLE,),
    )  # fmt: skip


def _check(layout: Layout, system: str) -> list[Record]:
    start = (layout.unprintable + 16, layout.unprintable + layout.foot - FOOT / 2)
    return long_check(start, layout.size[0] - start[0] - layout.unprintable - 5, system, layout.heights.small)


def _sticks(context: Context, system: str) -> Iterator[Sheet]:
    """Yield pages with whole sticks one under the other, the long ones first: those that follow are as long at most."""
    width = context.layout.size[1]
    found = [(n, stick, laid(context, stick)) for n, stick in enumerate(context.lists.sticks, 1)]
    waiting = sorted(found, key=lambda f: (-_long(f[1]), f[0]))
    over = context.layout.size[0] - paper(context.layout, heading=SHORT).window.width
    number = 0
    while waiting:
        long = _rounded(_long(waiting[0][1]) + 2 * END_AIR + 2 * LEFT + over)
        layout = replace(context.layout, size=(min(context.layout.size[0], max(long, width)), width))
        room = paper(layout, heading=SHORT).window.height - 2
        here: list[tuple[int, Stick, tuple[Laid, ...]]] = []
        while waiting and (not here or _deep(waiting[0][2]) <= room):
            room -= _deep(waiting[0][2])
            here.append(waiting.pop(0))
        for sheet in strips(replace(context, layout=layout), sorted(here, key=lambda f: f[0])):
            number += 1
            yield replace(sheet, key=f"roll/sticks/{number}", records=(*sheet.records, *_check(layout, system)))


def _long(stick: Stick) -> float:
    return float(stick.length[1] - stick.length[0])


def _deep(parts: Sequence[Laid]) -> float:
    return sum(depth(part.sides, part.style) + BETWEEN for part in parts)
