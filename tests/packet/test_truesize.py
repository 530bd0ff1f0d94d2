"""True size as others see it: in the file's geometry by pdfplumber, and in a picture that PDFium makes of it."""

import io

import numpy as np
import pdfplumber
import pypdfium2
import pytest

from tests.packet.sample import CHECK, packet

MM = 72 / 25.4  # points


@pytest.mark.parametrize("name", ["letter", "a4", "letter-landscape", "a4-landscape", "a3"])
def test_check_lines_in_the_geometry_of_the_file(name: str) -> None:
    with pdfplumber.open(io.BytesIO(packet(name))) as book:
        lines = [(ln["x0"] / MM, ln["y0"] / MM, ln["x1"] / MM, ln["y1"] / MM) for ln in book.pages[0].lines]
    (lx, ly), (ux, uy) = CHECK
    level = sorted(x0 for x0, y0, x1, y1 in lines if abs(x1 - x0) < 1e-6 and min(abs(y0 - ly), abs(y1 - ly)) < 1e-3)
    upright = sorted(y0 for x0, y0, x1, y1 in lines if abs(y1 - y0) < 1e-6 and min(abs(x0 - ux), abs(x1 - ux)) < 1e-3)
    for ticks, start in ((level, lx), (upright, uy)):
        assert any(abs(t - start - 150.0) < 0.01 for t in ticks)
        assert any(abs(t - start - 152.4) < 0.01 for t in ticks)
        assert max(ticks) - min(ticks) == pytest.approx(152.4, abs=0.01)


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_check_lines_in_a_picture(name: str) -> None:
    per_inch = 600
    page = pypdfium2.PdfDocument(packet(name))[0]
    ink = np.asarray(page.render(scale=per_inch / 72, grayscale=True, optimize_mode="print").to_numpy()) < 128
    ink = ink.reshape(ink.shape[0], -1)[:, : ink.shape[1]]
    pixels = per_inch / 25.4
    (lx, ly), (ux, uy) = CHECK
    tall = ink.shape[0]
    for mm, across in ((150.0, 2.6), (152.4, -2.6)):
        # Long ticks at both ends reach 3 mm across the line; at 2.6 mm no other tick is met.
        row = ink[round(tall - (ly + across) * pixels)]
        assert _span(row, (lx - 2) * pixels, (lx + mm + 2) * pixels, across) == pytest.approx(mm * pixels, abs=1.5)
        column = ink[:, round((ux - across) * pixels)][::-1]
        assert _span(column, (uy - 2) * pixels, (uy + mm + 2) * pixels, across) == pytest.approx(mm * pixels, abs=1.5)


def _span(line: np.ndarray, low: float, high: float, across: float) -> float:  # type: ignore[type-arg]
    """Return how far the middles of the first and of the last tick lie apart, in pixels."""
    places = np.flatnonzero(line[round(low) : round(high)])
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    return float(runs[-1].mean() - runs[0].mean())
