import io

import numpy as np
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from docgen.packet.fonts import PacketMetrics, characters, figure_height, font, points, printable, unknown


def test_the_size_of_the_letters_follows_from_the_height_of_the_figures() -> None:
    # Source Sans: figures are 0.638 of the em, so 2.5 mm is 11.1 pt and 1.8 mm is 8.0 pt.
    assert figure_height() == pytest.approx(0.638)
    assert points(2.5) == pytest.approx(11.11, abs=0.01)
    assert points(1.8) == pytest.approx(8.0, abs=0.01)


@pytest.mark.parametrize("bold", [False, True])
def test_no_figure_is_printed_lower_than_it_is_said(bold: bool) -> None:
    """Each figure alone, rendered by PDFium at 1200 dpi: at least 2.5 mm of ink from foot to top, and capitals 3 % more."""
    data = io.BytesIO()
    canvas = Canvas(data, pagesize=(60, 30))
    pdfmetrics.registerFont(font(bold))
    for text in "0123456789H":
        canvas.setFont(font(bold).fontName, points(2.5, bold))
        canvas.drawString(20, 10, text)
        canvas.showPage()
    canvas.save()
    heights = []
    for page in pypdfium2.PdfDocument(data.getvalue()):
        ink = page.render(scale=1200 / 72, grayscale=True).to_numpy() < 128
        rows = np.flatnonzero(ink.any(axis=1))
        heights.append((rows[-1] - rows[0] + 1) * 25.4 / 1200)
    assert min(heights) > 2.5 - 25.4 / 1200
    assert max(heights[:10]) < 2.5 * 1.06
    assert heights[10] == pytest.approx(2.5 * 1.03, abs=0.03)


def test_the_font_has_the_scripts_and_the_signs_of_the_trade() -> None:
    needed = "ABCxyz0123456789 ÄÖÜßçéñøłőžΑΩαωЖжЯя×÷−±°≈≤≥½⁄′″–—“”·√²³₂Δ→☐▲"
    assert unknown(needed) == ""
    assert set(map(ord, needed)) <= characters()


def test_figures_are_all_of_one_width() -> None:
    metrics = PacketMetrics()
    for bold in (False, True):
        assert len({metrics.width(d, 2.5, bold) for d in "0123456789"}) == 1


@given(st.text(max_size=40))
def test_what_is_set_can_be_set(text: str) -> None:
    assert set(map(ord, printable(text))) <= characters()
    assert PacketMetrics().width(text, 2.5) >= 0


@given(st.text(max_size=20), st.text(max_size=20))
def test_widths_add_up(a: str, b: str) -> None:
    metrics = PacketMetrics()
    a, b = printable(a), printable(b)
    assert metrics.width(a + b, 3.5) == pytest.approx(metrics.width(a, 3.5) + metrics.width(b, 3.5))
