"""The page before true-size pages: how to print, check and join them, what there is, and maps of what takes many pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.drawing.columns import Column
from docgen.drawing.records import Link, Sheet, Text
from docgen.drawing.tables import Row, Style
from docgen.drawing.tiles import tiling_of
from docgen.drawing.tiling.keymap import key_map
from docgen.drawing.tiling.printer_note import drawn_for
from docgen.drawing.tiling.rulers import warnings
from docgen.drawing.tiling.truesize import TrueSize
from docgen.layout.model import Rect
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow
from docgen.units import Units

MAP = (58.0, 42.0)  # mm, width and height of one map
LEAST_MAP = 24.0  # mm: a map less high helps nobody
WORDS = 10.0  # mm for the name above a map, and air
PRINTING = (
    "Print these pages at actual size: 100 %, “do not scale”. Never “fit” or “shrink to page”.",
    "Measure both check lines of each page with a steel rule: 150 mm (or 6 in) across and down. A line that is 0.3 mm off is "
    "0.2 % off: 1 mm in 500 mm. If one is more than 0.5 mm off, do not use the page; correct the printer's scale and print again. "
    "Lengths that matter are checked against their figures.",
    "The lines show the scale of both directions where they lie. They do not show a page that is skewed: lay a try square on them. "
    "Nor do they show less than a rule can be read to, about 0.2 mm: that is 0.13 % of their length, 1.3 mm in a metre.",
)
# Bond paper from dry to damp, typical: 0.20 to 0.40 % across the machine's direction, 0.10 to 0.20 % along it; the steadiest
# air is 35 to 50 % relative humidity (a paper maker's notes on dimensional stability; a printing encyclopedia).
ACROSS, ALONG = 0.4, 0.2  # per cent
PAPER = (
    f"Paper moves with the air: across its fibres up to {ACROSS} %, along them up to {ALONG} % from dry to damp. Use the sheets soon "
    "after printing, and fix them with spray adhesive or dry tape. Wet glue stretches paper in seconds."
)
LONG_PAPER = 300.0  # mm: from here on it is told what a strip of paper may move


def moves(length: float, units: Units) -> str:
    """Return what a strip of paper of this length, mm, may move from dry to damp, in the piece's unit."""
    long = length / float(units.mm)
    grows = f"{ALONG / 100 * long:.{1 if units.system == 'mm' else 2}f}"
    return (
        f"From dry to damp air {long:.0f} {units.sign} of paper grow by up to {grows} {units.sign}, twice that where the fibres "
        "run across: glue the pieces to the wood one by one, each set to its own figures by the steel rule."
    )


@dataclass(frozen=True, slots=True)
class Entry:
    """One drawing in the list: its title, where it is used, its pages' names, the key of the first page."""

    title: str
    uses: str
    tiles: tuple[str, ...]
    key: str
    drawing: TrueSize | None = None


def printing(context: Context) -> tuple[str, ...]:
    """Return what to know before printing at true size, with the figures for this paper."""
    own = (drawn_for(context.printer, "The true-size pages are drawn"),) if context.printer else ()
    return (PRINTING[0], *own, *warnings(context.layout.size, context.piece.units.system), *PRINTING[1:], PAPER)


def guide(context: Context, entries: Sequence[Entry], *, kind: str, key: str, title: str) -> tuple[Sheet, ...]:
    """Return the page that explains and lists the true-size pages behind it."""
    flow = Flow(context, key=key, kind=kind, title=title)
    flow.heading("How to use these pages")
    flow.points(printing(context))
    joined = [e for e in entries if len(e.tiles) > 1]
    if joined:
        flow.points(JOINING)
    flow.points(CUTTING)
    flow.heading("What there is")
    rows = [Row((e.title, e.uses, ", ".join(t for t in e.tiles if t) or "1")) for e in entries]
    heights = context.layout.heights
    columns = (Column("true-size drawing", grow=1.0, bold=True), Column("for", grow=1.0), Column("pages"))
    flow.table(columns, rows, Style(LISTED, heights.least, heights.note, heights.note))
    _maps(flow, context, joined)
    return flow.sheets(outline=(title,))


LISTED = 2.8  # mm: lettering of the list
JOINING = (
    "A drawing that is larger than the paper comes on several pages. Their names tell where they lie: the letter is the column "
    "from the left, the number the row from the top, and the map on each page shades its place.",
    "Lay them in the order A1, B1 … A2, B2 …: each page is cut on its dashed lines, at the left and the top, and laid over the "
    "pages before it. The crosses must meet in every stroke: one that shows a step is 0.3 mm off or more.",
)
CUTTING = (
    "The middle of a line is the size. The thick line marks the datum edge, from which the drawings measure: its outer side is "
    "the edge. Hatched is waste. Prick the centres of holes, the full crosses, through the paper. A cross that is open in the "
    "middle, in a dashed circle, is not pricked: that hole is drilled through the part that it meets, and the mark only shows "
    "where it must come out.",
    "A long chain line across a drawing that breaks off, or along one that shows no edge to lay it by, is a base line: draw a pencil "
    "line on the blank at the distance that it states, square across it or gauged along it, before any end or edge is cut, and lay "
    "the chain line on it.",
)


def _maps(flow: Flow, context: Context, entries: Sequence[Entry]) -> None:
    """Set maps of the joined drawings side by side, where this page has room: each of the pages carries its own."""
    heights = context.layout.heights
    across = max(1, int(flow.area.width // (MAP[0] + 6)))
    strips = -(-len(entries) // across)
    headed = 2 * heights.heading + 4
    tall = min(MAP[1], (flow.rest.height - headed) / strips - WORDS) if strips else 0.0
    if tall < LEAST_MAP:
        return
    flow.heading("Where the pages lie", keep=tall + WORDS)
    for first in range(0, len(entries), across):
        strip = flow.take(tall + WORDS)
        for i, entry in enumerate(entries[first : first + across]):
            if entry.drawing is None:
                continue
            x = strip.x + i * (MAP[0] + 6)
            tiling = tiling_of(entry.drawing, context.layout)
            name = entry.title.split("  ")[0]
            flow.add([Text((x, strip.top - heights.note - 1), name, heights.note, "left", True)])
            room = Rect(x, strip.y + 2, MAP[0], tall)
            flow.add(key_map(tiling, entry.drawing.inks, room, here=None, small=heights.small))
            flow.add([Link((room.x, room.y, room.width, room.height), entry.key)])
