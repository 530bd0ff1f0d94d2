"""Pages for a roll: nothing to join, as long as needed, never longer than a page may be, true in another reader."""

import io
import math

import pdfplumber
import pytest

from docgen.geometry.shapes import Outline
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
