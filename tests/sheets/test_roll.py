"""Pages for a roll: nothing to join, as long as needed, never longer than a page may be, true in another reader."""

import io
import math
from dataclasses import replace

import pdfplumber
import pytest

from docgen.geometry.shapes import Outline
from docgen.layout.printers import Measured, Printer
from docgen.packet.write import write
from docgen.piece.model import Kind
from docgen.piece.records import Face, Made, Template
from docgen.reading.problems import Problems
from docgen.sheets import roll
from tests.sheets.truesize import INCH, MM, apron, context, part, pdf, side, strokes

KINDS = (Kind(("apron",)), Kind(("left side",)))


def made(width: float = 610.0, layout: str = "a4"):
    c = context((apron(), side("left side", 2, Face(2, 1))), KINDS, layout, INCH if layout == "letter" else None)
    return c, roll.make(c, width)


@pytest.mark.parametrize(("text", "mm"), [("610", 610.0), ("24 in", 609.6), ("0.914 m", 914.0)])
def test_a_width_is_read_as_other_lengths_are(text: str, mm: float) -> None:
    assert roll.roll_width(text) == pytest.approx(mm)


@pytest.mark.parametrize("text", ["wide", "100", "2 m", "30 kg"])
def test_a_width_that_no_roll_has_is_told(text: str) -> None:
    with pytest.raises(Problems) as caught:
        roll.roll_width(text)
    assert caught.value.items[0].code == "roll-width"
    assert "610" in caught.value.items[0].hint


@pytest.mark.parametrize("width", [500.0, 610.0, 914.0])
def test_one_page_each_no_wider_than_the_roll_and_no_longer_than_it_needs(width: float) -> None:
    _, pages = made(width)
    assert [p.title.split()[0] for p in pages] == ["T1", "Strips"]
    for page in pages:
        assert width in page.size
        assert max(page.size) <= roll.LONGEST
    assert pages[0].size[0] < 900 + 2 * roll.BESIDE + 50


def test_the_curve_and_the_long_check_line_measure_true_in_another_reader() -> None:
    c, pages = made()
    (lines, curves), (stick, _) = strokes(pdf(pages, c))
    # The apron's lower edge is 900 mm, its end 100 mm; the longest round length on a page of 1000 is 500.
    assert any(math.dist(a, b) == pytest.approx(900.0, abs=0.01) and a[1] == pytest.approx(b[1]) for a, b in lines)
    for found in (lines, stick):
        assert any(math.dist(a, b) == pytest.approx(500.0, abs=0.01) for a, b in found)
    # All its marks on one strip, 900 mm from end to end.
    xs = sorted({round(a[0], 3) for a, b in stick if abs(a[0] - b[0]) < 1e-6})
    for start in xs:
        if all(any(abs(x - start - p) < 0.01 for x in xs) for p in (80, 98, 420, 438, 760, 778, 900)):
            break
    else:
        pytest.fail("no strip carries all marks")
    assert curves


def test_a_drawing_longer_than_a_page_may_be_is_split_evenly() -> None:
    beam = Outline.polygon([(0.0, 0.0), (8000.0, 0.0), (8000.0, 150.0), (4000.0, 220.0), (0.0, 150.0)])
    long = part("beam", 1, (8000, 300, 20), Made(templates=(Template("camber", Face(2, 1), beam),)))
    c = context((long,), (Kind(("beam",)),), "a4")
    pages = roll.make(c, 610.0)
    assert [p.title.rpartition(" ")[2] for p in pages] == ["A1", "B1"]
    assert all(4000 < p.size[0] < 4200 and p.size[1] == 610.0 for p in pages)


def test_a_page_is_never_so_long_that_it_needs_units_of_its_own() -> None:
    data = pdf(made()[1], made()[0])
    with pdfplumber.open(io.BytesIO(data)) as book:
        assert all(max(page.width, page.height) <= 14400 for page in book.pages)
        assert float(book.pages[0].height) / MM == pytest.approx(610.0, abs=0.01)
    assert b"UserUnit" not in data


def test_same_pages_twice_and_none_without_anything_to_draw() -> None:
    assert made()[1] == made()[1]
    plain = part("back", 1, (900, 400, 6), Made())
    assert roll.make(context((plain,), (Kind(("back",)),), "a4"), 610.0) == ()


PLOTTER = Printer("plotter", (Measured(600.0, 592.2),), (Measured(2000.0, 1988.0),), roll=610.0)
ACROSS, ALONG = 0.987, 0.994  # what it makes of 1


def for_plotter(printer: Printer = PLOTTER):
    plain = context((apron(), side("left side", 2, Face(2, 1))), KINDS, "a4")
    layout = roll.for_printer(plain.layout, printer, plain.metrics)
    c = replace(plain, layout=layout, printer=printer)
    pages = roll.make(c, 610.0)
    return pages, write(pages, layout=layout, piece=c.piece, fingerprint="0123456789", printer=printer)


def test_drawn_for_a_printer_lengths_come_out_true_along_and_across_the_roll() -> None:
    pages, data = for_plotter()
    assert all(page.size[1] == 610.0 for page in pages)
    (lines, _), _ = strokes(data)
    out = [((a[0] * ALONG, a[1] * ACROSS), (b[0] * ALONG, b[1] * ACROSS)) for a, b in lines]
    for long, axis in ((900.0, 0), (500.0, 0), (100.0, 1), (152.4, 1)):
        of_axis = [abs(a[axis] - b[axis]) for a, b in out if abs(a[1 - axis] - b[1 - axis]) < 1e-6]
        assert any(one == pytest.approx(long, abs=0.01) for one in of_axis), (long, axis)


@pytest.mark.parametrize("along", [0.975, 0.994, 1.02])
def test_what_is_drawn_larger_stays_on_its_paper(along: float) -> None:
    printer = replace(PLOTTER, down=(Measured(2000.0, 2000.0 * along),))
    _, data = for_plotter(printer)
    edge = 4.9  # mm: what the layout leaves white
    with pdfplumber.open(io.BytesIO(data)) as book:
        for page in book.pages:
            things = [*page.lines, *page.curves, *page.rects, *page.chars]
            assert min(t["x0"] for t in things) / MM > edge and max(t["x1"] for t in things) < page.width - edge * MM
            assert (
                min(t["top"] for t in things) / MM > edge and max(t["bottom"] for t in things) < page.height - edge * MM
            )
            assert max(page.width, page.height) <= 14400


def test_each_page_for_a_printer_says_so_in_the_roll_s_words() -> None:
    with pdfplumber.open(io.BytesIO(for_plotter()[1])) as book:
        for page in book.pages:
            text = " ".join((page.extract_text() or "").split())
            for said in (
                "“plotter”",
                "101.32 % across the roll",
                "100.60 % along it",
                "2000 as 1988 mm along",
                "the longer one",
            ):
                assert said in text


def test_a_page_shorter_than_the_roll_is_wide_still_lies_across_it() -> None:
    assert PLOTTER.factors((260.0, 610.0)) == pytest.approx((1 / ALONG, 1 / ACROSS))
    assert PLOTTER.factors((610.0, 260.0)) == pytest.approx((1 / ACROSS, 1 / ALONG))


def test_a_long_page_for_a_printer_is_split_so_that_it_still_is_none_too_long() -> None:
    beam = Outline.polygon([(0.0, 0.0), (5000.0, 0.0), (5000.0, 150.0), (2500.0, 220.0), (0.0, 150.0)])
    long = part("beam", 1, (5000, 300, 20), Made(templates=(Template("camber", Face(2, 1), beam),)))
    plain = context((long,), (Kind(("beam",)),), "a4")
    printer = replace(PLOTTER, down=(Measured(2000.0, 1945.0),))
    pages = roll.make(
        replace(plain, layout=roll.for_printer(plain.layout, printer, plain.metrics), printer=printer), 610.0
    )
    assert len(pages) == 2 and all(max(page.size) <= roll.LONGEST for page in pages)
