import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.packet.fonts import PacketMetrics, capital_height, characters, points, printable, unknown


def test_capitals_have_the_height_that_is_asked_for() -> None:
    # Source Sans: capitals are 0.66 of the em, so 2.5 mm is 10.7 pt and 1.8 mm is 7.7 pt.
    assert capital_height() == pytest.approx(0.66)
    assert points(2.5) == pytest.approx(10.74, abs=0.01)
    assert points(1.8) == pytest.approx(7.73, abs=0.01)


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
