import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.trade import corners, mitres, splay, tenons

R2 = math.sqrt(2)


def test_both_readings_of_a_mitre() -> None:
    assert mitres.readings(45.1) == pytest.approx((45.1, 44.9))


def test_a_corner_breaks_through_exactly_at_its_breakthrough_radius() -> None:
    radius = mitres.breakthrough_radius(20, 8)
    assert radius == pytest.approx(3.41421 * 12, abs=1e-3)
    assert mitres.wood_left(20, radius, rabbet=8) == pytest.approx(0, abs=1e-9)
    assert mitres.wood_left(20, radius, rabbet=8, inner=5) == pytest.approx(5 * (R2 - 1))


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
    assert corners.lip(20, 8, 28, 16) == pytest.approx(mitres.wood_left(20, 28, rabbet=8, inner=16))


def test_compound_lean_worked_figure() -> None:
    lean, sight = splay.true_lean(10, 15)
    assert (round(lean, 2), round(sight, 1)) == (17.78, 56.7)
    assert splay.true_lean(0, 0) == (0, 0)
    assert splay.true_lean(12, 0)[0] == pytest.approx(12)


def test_wood_round_a_mortise_in_a_mitre() -> None:
    thick = 20.0
    # a mortise that reaches exactly to the outside face
    assert tenons.to_outside(thick, 10, thick * R2 - 10) == pytest.approx(0)
    assert tenons.acute_wall(20, 0, 90) == pytest.approx(20)
    assert tenons.acute_wall(20, 5, 45) == pytest.approx(15 / R2)


def test_the_arc_governs_only_points_inside_its_radius() -> None:
    far_away = tenons.to_rounded(20, 3, 8, 10)
    assert far_away == pytest.approx(tenons.to_outside(20, 8, 10))
    near = tenons.to_rounded(20, 25, 16, 2)
    assert near < tenons.to_outside(20, 16, 2)
    assert tenons.to_rounded(20, 0, 16, 2) == pytest.approx(tenons.to_outside(20, 16, 2))
