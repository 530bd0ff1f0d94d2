"""A hidden circle looks hidden however small it is, a short hidden edge too."""

import math

import pytest

from docgen.drawing.records import Arc, Line, Path, Pen
from docgen.layout.model import PenStyle
from docgen.packet.dashes import Dash, fitted
from docgen.packet.strokes import number, stroked

STYLE = PenStyle(0.25, (12.0, 3.0))
USUAL = 3.75  # mm, of one dash and one gap


def around(diameter: float) -> Dash | None:
    return fitted(Arc((0.0, 0.0), diameter / 2, 0.0, 360.0, Pen.HIDDEN), STYLE)


@pytest.mark.parametrize("diameter", [0.5, 1.3, 2.0, 3.0, 3.3, 5.0, 9.0, 19.0])
def test_a_hidden_circle_closes_on_its_dashes_with_one_across_each_centre_line(diameter: float) -> None:
    found = around(diameter)
    assert found is not None
    dash, gap, begin = found
    count = math.pi * diameter / (dash + gap)
    assert count == pytest.approx(round(count))
    assert round(count) % 4 == 0
    assert begin == pytest.approx(dash / 2)
    assert count >= (8 if diameter >= 3.2 else 4) - 1e-9
    if diameter >= 1.3:
        assert dash >= 2 * STYLE.width - 1e-9
        assert gap >= 2 * STYLE.width - 1e-9
    assert dash <= 12 * STYLE.width * 1.3  # at the most a little more than the usual dash


def test_a_large_circle_and_a_long_edge_keep_the_usual_pattern() -> None:
    assert around(25.0) is None
    assert fitted(Line((0.0, 0.0), (3.1 * USUAL, 0.0), Pen.HIDDEN), STYLE) is None


@pytest.mark.parametrize("long", [1.5, 2.0, 3.0, 4.0, 6.0, 9.0, 11.0])
def test_a_short_edge_begins_and_ends_with_a_dash(long: float) -> None:
    found = fitted(Line((0.0, 0.0), (0.0, long), Pen.HIDDEN), STYLE)
    assert found is not None
    dash, gap, begin = found
    count = (long + gap) / (dash + gap)
    assert begin == 0
    assert count == pytest.approx(round(count))
    assert count >= 2 - 1e-9
    assert min(dash, gap) >= 2 * STYLE.width - 1e-9


def test_what_has_no_room_for_two_dashes_is_left() -> None:
    assert fitted(Line((0.0, 0.0), (1.4, 0.0), Pen.HIDDEN), STYLE) is None


def test_chords_of_a_closed_curve_count_as_a_circle() -> None:
    ring = tuple((2 * math.cos(math.radians(d)), math.sin(math.radians(d))) for d in range(0, 361, 10))
    found = fitted(Path(ring, Pen.HIDDEN), STYLE)
    assert found is not None
    assert found[2] > 0


def test_broken_lines_are_fitted_and_equal_ones_are_stroked_together() -> None:
    pens = {"hidden": STYLE, "visible": PenStyle(0.5)}
    small = [Arc((float(x), 0.0), 2.0, 0.0, 360.0, Pen.HIDDEN) for x in (0, 10)]
    written = list(stroked([*small, Line((0.0, 0.0), (90.0, 0.0), Pen.HIDDEN), Arc((0.0, 0.0), 2.0, 0, 360)], pens))
    heads = [line for line in written if " w " in line]
    assert len(heads) == 3
    assert "[8.5039 2.126] 0 d" in heads[1]
    assert "[]" in heads[2]


CHAIN, DOUBLE = PenStyle(0.25, (24.0, 3.0, 2.0, 3.0)), PenStyle(0.25, (24.0, 3.0, 2.0, 3.0, 2.0, 3.0))


@pytest.mark.parametrize("style", [CHAIN, DOUBLE])
@pytest.mark.parametrize("long", [3.6, 4.5, 6.0, 9.0, 14.0, 22.0])
def test_a_short_chain_line_shows_its_dots_between_dashes(style: PenStyle, long: float) -> None:
    found = fitted(Line((0.0, 0.0), (long, 0.0), Pen.PHANTOM), style)
    assert found is not None
    *pattern, begin = found
    assert begin == 0 and len(pattern) == len(style.dash)
    assert min(pattern) >= style.width - 1e-9 and pattern[0] >= 3 * style.width - 1e-9
    count = (long - pattern[0]) / sum(pattern)  # patterns before the last dash
    assert count == pytest.approx(round(count)) and round(count) >= 1


def test_a_long_chain_line_keeps_the_usual_pattern_and_a_tiny_one_has_none() -> None:
    for long in (40.0, 2.0):
        assert fitted(Line((0.0, 0.0), (long, 0.0), Pen.PHANTOM), DOUBLE) is None


def test_a_short_phantom_ring_closes_on_its_pattern() -> None:
    ring = Path(((0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (0.0, 2.0)), Pen.PHANTOM, closed=True)
    found = fitted(ring, DOUBLE)
    assert found is not None
    assert 10.0 / sum(found[:-1]) == pytest.approx(round(10.0 / sum(found[:-1])))
    assert any(number(found[0] * 72 / 25.4) in line for line in stroked([ring], {"phantom": DOUBLE}))
