"""What a true-size page says when it was drawn for one printer, and the room that this takes at its foot."""

from __future__ import annotations

from dataclasses import replace

from docgen.drawing.lettering import wrap
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Line, Point, Record, Text
from docgen.layout.model import Layout
from docgen.layout.printers import Measured, Printer

PITCH = 1.5  # between baselines, in heights (ISO 3098, with lower case letters)


def drawn_for(printer: Printer, what: str = "Drawn") -> str:
    """Return for which printer `what` is drawn, by what figures, and how to check it."""
    across, down = replace(printer, roll=None).factors((1.0, 2.0))
    ways = ("across (short side of the paper)", "down (long side)", "down")
    if printer.roll is not None:
        ways = ("across the roll", "along it", "along")
    lines = "both check lines measure 150 mm (or 6 in)"
    if printer.roll is not None:
        lines += " and the longer one at the foot, if there is one, its figure"
    return (
        f"{what} for the printer “{printer.name}”, at {100 * across:.2f} % {ways[0]} and "
        f"{100 * down:.2f} % {ways[1]}, since it prints {_said(printer.across)} across and {_said(printer.down)} "
        f"{ways[2]}. Check: printed on it at 100 %, {lines} by a steel rule. Not for another printer."
    )


def _said(lengths: tuple[Measured, ...]) -> str:
    return " and ".join(f"{m.meant:g} as {m.read:g} mm" for m in lengths)


def fitted(layout: Layout, printer: Printer, metrics: Metrics) -> Layout:
    """Return the layout with room at the foot for the note, and edges that keep drawn pages printable."""
    inner = printer.inside(layout)
    upright = replace(inner, size=(min(inner.size), max(inner.size)))
    return with_note(inner, printer, metrics, narrow=upright)


def with_note(layout: Layout, printer: Printer, metrics: Metrics, *, narrow: Layout) -> Layout:
    """Return the layout with room at the foot for the note, as it takes on the page `narrow`."""
    return replace(layout, foot=layout.foot + len(_lines(printer, narrow, metrics)) * PITCH * layout.heights.small)


def note_records(printer: Printer, layout: Layout, metrics: Metrics, baseline: float) -> list[Record]:
    """Return the note above the foot line, whose baseline is given, mm."""
    small = layout.heights.small
    lines = _lines(printer, layout, metrics)
    return [
        Text((layout.open_area.x, baseline + (len(lines) - i) * PITCH * small), line, small)
        for i, line in enumerate(lines)
    ]


def _lines(printer: Printer, layout: Layout, metrics: Metrics) -> list[str]:
    return list(wrap(drawn_for(printer), layout.open_area.width, layout.heights.small, metrics))


def stretched(records: list[Record], factors: tuple[float, float], fixed: Point) -> list[Record]:
    """Return lines and texts drawn larger by factors in x and y, about a fixed place; lettering keeps its height."""

    def moved(p: Point) -> Point:
        return (fixed[0] + (p[0] - fixed[0]) * factors[0], fixed[1] + (p[1] - fixed[1]) * factors[1])

    out: list[Record] = []
    for record in records:
        match record:
            case Line(a, b):
                out.append(replace(record, a=moved(a), b=moved(b)))
            case Text(at):
                out.append(replace(record, at=moved(at)))
            case _:
                raise TypeError(f"check lines hold no {type(record).__name__}")
    return out
