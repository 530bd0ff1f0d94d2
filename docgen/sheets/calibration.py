"""The page on which a printer is measured: a long rule across and one down, where to measure, how to record."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.drawing.cells import block
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Area, Line, Pen, Point, Record, Sheet, Text
from docgen.layout.model import Heights, Layout, Rect
from docgen.layout.printers import LEAST_LENGTH, Printer
from docgen.piece.model import Piece
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.units import Units

TITLE = "Calibration page"
STEP = 10.0  # mm between ticks
LONG, MIDDLE, SHORT = 7.0, 3.0, 1.8  # mm that ticks reach to one side
EDGE = 3.0  # mm beside the ends of a rule
DEPTH = 16.0  # mm that a rule takes across its length


def calibration_piece() -> Piece:
    """Return what names the page at its foot, where else the piece of furniture is named."""
    return Piece("docgen", "", "", "", "", Units("mm"), "third angle", "", (), (), ())


def calibration(layout: Layout, metrics: Metrics, printer: Printer | None = None) -> Sheet:
    """Return the page for the upright paper `layout`; with a printer it tells how to check its record."""
    area, heights = layout.open_area, layout.heights
    across, down = lengths(layout)
    records = [
        *_rule((area.x + EDGE, area.top - DEPTH), across, heights, up=False),
        *_rule((area.x + DEPTH, area.y + EDGE), down, heights, up=True),
    ]
    room = Rect(area.x + DEPTH + 10, area.y, area.width - DEPTH - 16, area.height - 2 * DEPTH - 8)
    steps = _checks(across, down, printer) if printer else _steps(across, down, _paper(layout))
    records += _told(room, steps, heights, metrics, printer)
    return Sheet("calibration", "calibration", TITLE, layout.size, tuple(records), "full size", framed=False)


def lengths(layout: Layout) -> tuple[float, float]:
    """Return how long the two rules are, mm: round, and no shorter than a rule can tell; Problems on small paper."""
    area = layout.open_area
    room = (area.width - 2 * EDGE, area.height - 2 * DEPTH - EDGE)
    across, down = (STEP * int(r // STEP) for r in room)
    if min(across, down) < LEAST_LENGTH:
        message = f"on {layout.size[0]:g} × {layout.size[1]:g} mm no line of {LEAST_LENGTH:g} mm fits both ways"
        raise Problems(
            [Problem("paper-too-small", Span("--paper", 1, 1), message, "measure the printer on larger paper")]
        )
    return across, down


def _rule(start: Point, length: float, heights: Heights, *, up: bool) -> Iterator[Record]:
    """Yield a rule from `start`, to the right or upward, ticks on its outer side; the ends are long ticks."""

    def at(along: float, out: float) -> Point:
        return (start[0] - out, start[1] + along) if up else (start[0] + along, start[1] + out)

    yield Line(at(0, 0), at(length, 0), Pen.THIN)
    for k in range(round(length / STEP) + 1):
        along = STEP * k
        end = along in (0.0, LEAST_LENGTH, length)
        yield Line(
            at(along, -SHORT if end else 0), at(along, LONG if end else MIDDLE if k % 5 == 0 else SHORT), Pen.THIN
        )
        if end:
            tip = [at(along, -SHORT), at(along - 1.2, -SHORT - 2.4), at(along + 1.2, -SHORT - 2.4)]
            yield Area((tuple(tip),))
            anchor = "left" if along == 0 else "right"
            side = 1.0 if along == 0 else -1.0
            yield Text(
                at(along + side, LONG - heights.figure), f"{along:g}", heights.figure, anchor, True, 90.0 if up else 0.0
            )


def _told(
    room: Rect, steps: tuple[str, ...], heights: Heights, metrics: Metrics, printer: Printer | None
) -> Iterator[Record]:
    """Yield the title and the steps, one under the other from the top of the room."""
    y = room.top
    title = block(
        TITLE if printer is None else f"{TITLE} for “{printer.name}”", room.width, heights.title, metrics, bold=True
    )
    yield from title.records((room.x, y))
    y -= title.tall + 5
    for i, step in enumerate(steps, 1):
        words = block(step, room.width - 8, heights.figure, metrics)
        yield Text((room.x, y - words.steps()[0]), f"{i}", heights.figure, bold=True)
        yield from words.records((room.x + 8, y))
        y -= words.tall + 3.5


USUAL = "a4"  # the paper of the page where none is said
PRINT = (
    "Print this page at actual size: 100 %, “do not scale”, on the paper, from the tray and from the program that you print "
    "packets with. Let it lie for a few minutes: paper comes out of a laser printer warm and dry."
)


def _paper(layout: Layout) -> str:
    """Return the option that names the paper of this page, "" for the usual one."""
    return "" if layout.name == USUAL else f" --paper {layout.name}"


def _steps(across: float, down: float, paper: str) -> tuple[str, ...]:
    return (
        PRINT,
        f"Lay a steel rule along the rule across, and read how far it is from the line at 0 to the line at {across:g}, from "
        "the middle of one line to the middle of the other. Read tenths of a millimetre; a magnifying glass helps. "
        "Begin at the rule's 10 mark, not at its worn end.",
        f"Read the same on the rule down the page, from 0 to {down:g}.",
        f"If you like, read {LEAST_LENGTH:g} on each as well: two lengths that tell different scales are refused.",
        "Record both under a name of your own, the meant length first, then the one you read (mm, or with “in”): "
        f"docgen printer NAME --across {across:g}=READ --down {down:g}=READ{paper}, a second length as a second --across or --down.",
        "More than 3 % off is refused: then this page was fitted to the paper. Find that setting and print it again.",
        f"Write the page anew for the record, docgen printer NAME{paper}, print it, and measure: now both lengths must be true.",
        "Build with docgen build FILE --printer NAME. Each paper, tray or program that prints otherwise gets a name of its own.",
    )


def _checks(across: float, down: float, printer: Printer) -> tuple[str, ...]:
    return (
        PRINT,
        f"By a steel rule, the rule across must measure {across:g} mm and the rule down {down:g} mm, each within 0.3 mm.",
        "If one does not, print the page of docgen printer without a name, measure anew, and record "
        f"“{printer.name}” again: the new record takes the place of the old.",
        f'If both do, build with docgen build FILE --printer "{printer.name}", and check the lines of every page all the same.',
    )
