"""Check lines measure what they say; figures for pages that were fitted against worked ones."""

import pytest

from docgen.drawing.records import Line
from docgen.drawing.tiling.rulers import check_line, fitted, warnings

LETTER, A4 = (215.9, 279.4), (210.0, 297.0)


@pytest.mark.parametrize("up", [False, True])
def test_both_scales_begin_at_the_same_end_and_are_true(up) -> None:
    axis = 1 if up else 0
    lines = [r for r in check_line((10, 20), up=up, small=1.8) if isinstance(r, Line)]
    start = (10, 20)[axis]
    at = sorted({round(line.a[axis] - start, 6) for line in lines})
    for k in range(16):
        assert 10.0 * k in at
    for k in range(7):
        assert round(25.4 * k, 6) in at
    assert max(at) == pytest.approx(152.4)


def test_worked_figures_of_fitted_pages() -> None:
    # Letter less 1/6 in all round: (8.5 - 2/6) / 8.5 = 0.96078; (11 - 2/6) / 11 = 0.96970.
    assert fitted(LETTER, LETTER, 25.4 / 6) == pytest.approx(96.078, abs=0.001)
    assert fitted(A4, LETTER) == pytest.approx(100 * 279.4 / 297)  # 94.1 %, the height decides
    assert fitted(LETTER, A4) == pytest.approx(100 * 210 / 215.9)  # 97.3 %, the width decides


def test_warnings_name_the_per_cent_and_what_the_line_then_measures() -> None:
    told = " ".join(warnings(LETTER, "inch"))
    assert "96.1 %" in told
    assert "144.1 mm" in told
    assert "97.3 %" in told
    assert "1/6 in white" in told
    metric = " ".join(warnings((297.0, 210.0), "mm"))
    assert "94.1 %" in metric and "4 mm white" in metric and " in white" not in metric
