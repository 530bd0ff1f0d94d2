"""Check lines that show whether a page was printed true, and what a viewer that fits pages makes of it."""

from __future__ import annotations

from fractions import Fraction

from docgen.drawing.records import Line, Pen, Point, Record, Text

MM_LENGTH = 150.0  # a reading error of 0.25 mm is then 0.17 per cent
INCHES = 6
INCH = float(Fraction(254, 10))
DEPTH = 10.0  # mm that a check line takes across its length, figures included
LENGTH = INCHES * INCH  # the longer of its two scales
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}  # mm; ANSI/ASME Y14.1 and ISO 216
USUAL_EDGE = 25.4 / 6  # mm that many laser printers leave white: 1/6 in (from memory)


def check_line(start: Point, *, up: bool, small: float) -> list[Record]:
    """Return a line with 150 mm on one side and 6 in on the other, from `start` to the right or upward.

    `small` is the height of its figures. It takes DEPTH across, half on each side.
    """

    def at(along: float, across: float) -> Point:
        return (start[0] - across, start[1] + along) if up else (start[0] + along, start[1] + across)

    angle = 90.0 if up else 0.0
    out: list[Record] = [Line(at(0, 0), at(LENGTH, 0), Pen.THIN)]
    for k in range(16):
        long = k in (0, 15)
        out.append(Line(at(10.0 * k, 0), at(10.0 * k, 3.0 if long else 2.0 if k % 5 == 0 else 1.2), Pen.THIN))
    for k in range(INCHES + 1):
        long = k in (0, INCHES)
        out.append(Line(at(INCH * k, 0), at(INCH * k, -3.0 if long else -2.0), Pen.THIN))
    out.append(Text(at(MM_LENGTH - 1, 2.6), "150 mm", small, "right", False, angle))
    out.append(Text(at(LENGTH - 1, -2.6 - small), "6 in", small, "right", False, angle))
    where = "down the page" if up else "across the page"
    out.append(Text(at(2, 2.6), f"check {where}", small, "left", False, angle))
    out.append(Text(at(2, -2.6 - small), "with a steel rule", small, "left", False, angle))
    return out


LONG = {
    "mm": (300.0, 500.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0),
    "inch": tuple(INCH * n for n in (12, 18, 24, 36, 48, 72, 96, 120, 144)),
}  # mm: lengths of the long check line, round in the piece's unit


def long_check(start: Point, room: float, system: str, small: float) -> list[Record]:
    """Return the longest level check line of a round length within `room` mm; none where 150 mm tell as much.

    On a page of metres the short lines do not tell enough: 0.2 mm in 150 are 4 mm in 3 m.
    """
    fitting = [length for length in LONG[system] if length <= room]
    if not fitting:
        return []
    length, (x, y) = fitting[-1], start
    said = f"{length / INCH:g} in" if system == "inch" else f"{length:g} mm"
    ticks = [Line((x + end, y - 3), (x + end, y + 3), Pen.THIN) for end in (0.0, length)]
    words = f"long check line, {said} from tick to tick, by a steel tape"
    return [Line((x, y), (x + length, y), Pen.THIN), *ticks, Text((x + 3, y + 1.2), words, small)]


def fitted(page: tuple[float, float], paper: tuple[float, float], edge: float = 0.0) -> float:
    """Return the scale, in per cent, at which a viewer fits `page` into `paper` less `edge` mm all round."""
    return 100 * min((paper[0] - 2 * edge) / page[0], (paper[1] - 2 * edge) / page[1])


def warnings(size: tuple[float, float], system: str) -> tuple[str, ...]:
    """Return sentences on what becomes of the 150 mm line when the page is fitted instead of printed as it is.

    `system` is "mm" or "inch": in what the white edge is told.
    """
    page = (min(size), max(size))
    here = next((n for n, p in PAPERS.items() if max(abs(p[0] - page[0]), abs(p[1] - page[1])) < 0.5), "")
    own = fitted(page, page, USUAL_EDGE)
    edge = "1/6 in" if system == "inch" else f"{USUAL_EDGE:.0f} mm"
    out = [
        f"“Fit to page” shrinks {here or 'this'} paper to about {own:.1f} % on a printer that leaves {edge} white at the "
        f"edges: the 150 mm line then measures {1.5 * own:.1f} mm."
    ]
    for name, paper in PAPERS.items():
        if name != here:
            other = fitted(page, paper)
            out.append(f"Fitted on {name} it comes out at {other:.1f} %: {1.5 * other:.1f} mm.")
    return tuple(out)
