import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.trade import corners, mitres, splay
from tests.support.by_hand import wood_left

R2 = math.sqrt(2)


def test_both_readings_of_a_mitre() -> None:
    assert mitres.readings(45.1) == pytest.approx((45.1, 44.9))


def test_heel_gap_figure() -> None:
    assert mitres.heel_gap(13 / 16, 0.1) == pytest.approx(0.004, abs=5e-4)  # the worked figure, inches
    assert mitres.heel_gap(20, -0.1) == mitres.heel_gap(20, 0.1)
    assert mitres.corner_angle(0.1) == pytest.approx(89.8)
    assert mitres.frame_error(0.1) == pytest.approx(0.8)


def test_a_frame_round_a_pane() -> None:
    f = mitres.frame(500, clearance=2, rabbet=8, stock=60)
    assert (f.opening, f.sight, f.outside) == (504, 488, 608)


@settings(max_examples=50, deadline=None)
@given(st.floats(15, 40), st.floats(2, 12), st.floats(5, 12))
def test_the_lip_is_even_only_at_its_radius(thickness: float, rabbet: float, bearing: float) -> None:
    inner = corners.rabbet_radius(bearing, rabbet)
    even = corners.even_lip_radius(thickness, bearing)
    assert corners.lip(thickness, rabbet, even, inner) == pytest.approx(thickness - rabbet)
    assert corners.lip(thickness, rabbet, even + 1, inner) < thickness - rabbet


def test_the_lip_is_the_wood_left_beside_a_round_rabbet_corner() -> None:
    assert corners.lip(20, 8, 28, 16) == pytest.approx(wood_left(20, 28, rabbet=8, inner=16))


def test_compound_lean_worked_figure() -> None:
    lean, sight = splay.true_lean(10, 15)
    assert (round(lean, 2), round(sight, 1)) == (17.78, 56.7)
    assert splay.true_lean(0, 0) == (0, 0)
    assert splay.true_lean(12, 0)[0] == pytest.approx(12)
