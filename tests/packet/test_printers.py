"""Pages drawn for a printer, put through a printer that errs by what was recorded."""

import io
from dataclasses import replace

import pdfplumber
import pytest

from docgen.drawing.records import Line, Link, Pen, Sheet, Text
from docgen.drawing.tiling.printer_note import fitted, stretched
from docgen.drawing.tiling.rulers import check_line
from docgen.layout.printers import Measured, Printer
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from tests.packet.sample import FINGERPRINT, packet, piece, sheets

MM = 72 / 25.4
SHORT_SIDE, LONG_SIDE = 0.987, 1.006  # what the printer makes of 1
LASER = Printer("shop laser", (Measured(200.0, 197.4),), (Measured(250.0, 251.5),))
FROM, TO = (8.0, 35.0), (198.0, 185.0)


def written(printer: Printer | None, *, lying: bool = False, framed: bool = False) -> bytes:
    layout = read_layout("a4")
    if printer:
        layout = fitted(layout, printer, PacketMetrics())
    size = layout.turned().size if lying else layout.size
    lines = (Line(FROM, (TO[0], FROM[1])), Line((FROM[0], FROM[1]), (FROM[0], TO[1])))
    page = Sheet("tile", "templates", "Foot", size, lines, "full size", framed=framed)
    return write([page], layout=layout, piece=piece(), fingerprint=FINGERPRINT, printer=printer)


def printed(data: bytes) -> tuple[float, float]:
    """Return how long the two lines come out of the printer, mm; it turns a page that lies on its side."""
    with pdfplumber.open(io.BytesIO(data)) as book:
        page = book.pages[0]
        scales = (SHORT_SIDE, LONG_SIDE) if page.width < page.height else (LONG_SIDE, SHORT_SIDE)
        level = max(ln["x1"] - ln["x0"] for ln in page.lines) / MM * scales[0]
        upright = max(ln["bottom"] - ln["top"] for ln in page.lines) / MM * scales[1]
    return level, upright


@pytest.mark.parametrize("lying", [False, True])
def test_lengths_come_out_true(lying: bool) -> None:
    level, upright = printed(written(LASER, lying=lying))
    assert level * 200 / 190 == pytest.approx(200.0, abs=0.02)
    assert upright * 200 / 150 == pytest.approx(200.0, abs=0.02)


@pytest.mark.parametrize("lying", [False, True])
def test_without_the_record_they_do_not(lying: bool) -> None:
    level, upright = printed(written(None, lying=lying))
    assert abs(level - 190.0) > 1 and abs(upright - 150.0) > 0.8


def test_framed_pages_stay_as_they_are() -> None:
    level, _ = printed(written(LASER, framed=True))
    assert level != pytest.approx(190.0, abs=0.5)


def test_the_page_is_drawn_about_its_middle() -> None:
    layout = read_layout("a4")
    middle = Line((layout.size[0] / 2 - 50, 148.5), (layout.size[0] / 2 + 50, 148.5))
    page = Sheet("t", "templates", "T", layout.size, (middle,), framed=False)
    data = write([page], layout=layout, piece=piece(), fingerprint="f", printer=LASER)
    with pdfplumber.open(io.BytesIO(data)) as book:
        (line,) = book.pages[0].lines
    assert (line["x0"] + line["x1"]) / 2 / MM == pytest.approx(105.0, abs=0.001)
    assert line["top"] / MM == pytest.approx(148.5, abs=0.01)


def test_each_true_size_page_says_so_with_its_figures() -> None:
    for lying in (False, True):
        with pdfplumber.open(io.BytesIO(written(LASER, lying=lying))) as book:
            text = " ".join((book.pages[0].extract_text() or "").split())
        for said in ("“shop laser”", "101.32 %", "99.40 %", "200 as 197.4 mm", "250 as 251.5 mm", "150 mm (or 6 in)"):
            assert said in text
        assert "101.32" not in pdf_text(written(None))


def pdf_text(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as book:
        return book.pages[0].extract_text() or ""


def test_the_note_stays_within_the_paper_and_off_the_drawing() -> None:
    long = Printer("a" * 40, (Measured(150.123, 149.123), Measured(199.123, 198.123)), LASER.down)
    for name in ("letter", "a4", "letter-landscape"):
        layout = fitted(read_layout(name), long, PacketMetrics())
        for size in {layout.size, layout.turned().size}:
            page = Sheet("t", "templates", "T", size, (), framed=False)
            data = write([page], layout=layout, piece=piece(), fingerprint="f", printer=long)
            with pdfplumber.open(io.BytesIO(data)) as book:
                chars = book.pages[0].chars
            edge = read_layout(name).unprintable
            assert min(c["x0"] for c in chars) / MM >= edge - 0.1
            assert max(c["x1"] for c in chars) / MM <= size[0] - edge + 0.1
            ceiling = size[1] - layout.for_size(size).open_area.y
            assert min(c["top"] for c in chars) / MM >= ceiling - 1.8  # the line's box reaches above its capitals


def test_same_bytes_twice_and_none_changed_without_a_printer() -> None:
    assert written(LASER) == written(LASER)
    assert written(LASER) != written(None)
    layout = read_layout("letter")
    assert write(sheets(layout), layout=layout, piece=piece(), fingerprint=FINGERPRINT, printer=None) == packet()


def test_links_on_true_size_pages_are_refused() -> None:
    layout = read_layout("a4")
    page = Sheet("t", "templates", "T", layout.size, (Link((0, 0, 9, 9), "t"),), framed=False)
    with pytest.raises(ValueError, match="links"):
        write([page], layout=layout, piece=piece(), fingerprint="f", printer=LASER)


def test_check_lines_on_a_framed_page_are_drawn_for_the_printer() -> None:
    start = (30.0, 60.0)
    factors = LASER.factors((210.0, 297.0))
    for up, scale in ((False, SHORT_SIDE), (True, LONG_SIDE)):
        lines = [r for r in stretched(check_line(start, up=up, small=1.8), factors, start) if isinstance(r, Line)]
        axis = 1 if up else 0
        ends = sorted({round((p[axis] - start[axis]) * scale, 3) for ln in lines for p in (ln.a, ln.b)})
        assert 150.0 in ends and ends[-1] == pytest.approx(152.4, abs=0.001)
    with pytest.raises(TypeError):
        stretched([replace(Link((0, 0, 1, 1), "a"))], factors, start)
    assert stretched([Text((30.0, 60.0), "a"), Line((30.0, 60.0), (30.0, 61.0), Pen.THIN)], (1.0, 1.0), start) == [
        Text((30.0, 60.0), "a"),
        Line((30.0, 60.0), (30.0, 61.0), Pen.THIN),
    ]
