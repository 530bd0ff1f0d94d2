import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.trade import arcs, beams, cutters, scales, stability
from docgen.trade.names import INCH


def test_sag_against_summing_the_curvature() -> None:
    """The closed formula against a numerical integral of M(x) · m(x) / (E · I) (unit load at mid-span)."""
    load, span, modulus = 267.0, 914.4, 12548.0
    inertia = beams.second_moment(285.75, 19.05)
    q, n = load / span, 20000
    total = 0.0
    for i in range(n):
        x = (i + 0.5) * span / n
        moment = q * x * (span - x) / 2
        unit = min(x, span - x) / 2
        total += moment * unit * span / n
    assert beams.sag_uniform(load, span, modulus, inertia) == pytest.approx(total / (modulus * inertia), rel=1e-6)


SQUARE = [(0.0, 0.0), (400.0, 0.0), (400.0, 600.0), (0.0, 600.0)]


def test_tipping_over_the_nearest_side() -> None:
    t = stability.tipping_over((100, 300, 500), SQUARE)
    assert (t.distance, t.outward) == (100, (-1, 0))
    assert t.angle == pytest.approx(math.degrees(math.atan(0.2)))


def test_a_body_whose_centre_is_outside_its_feet_tips_by_itself() -> None:
    t = stability.tipping_over((-10, 300, 500), SQUARE)
    assert t.distance == -10 and t.angle < 0
    assert stability.push_to_tip(20, t.distance, 800) == 0
    assert stability.push_to_tip(20, 100, 800) == pytest.approx(20 * beams.GRAVITY / 8)


def test_statics_refuses_what_cannot_stand() -> None:
    with pytest.raises(ValueError):
        stability.tipping_over((0, 0, 100), [(0, 0), (1, 1), (2, 2)])
    with pytest.raises(ValueError):
        stability.tipping_over((100, 100, 0), SQUARE)
    with pytest.raises(ValueError):
        stability.centre_of_gravity([])


def test_centre_of_gravity_weighs() -> None:
    assert stability.centre_of_gravity([(1, (0, 0, 0)), (3, (4, 8, 12))]) == (4, (3, 6, 9))


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=3, max_size=12))
def test_no_point_lies_outside_the_hull(points: list[tuple[int, int]]) -> None:
    corners = stability.hull([(float(x), float(y)) for x, y in points])
    if len(corners) < 3:
        return
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        for x, y in points:
            assert (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= 0


@settings(max_examples=50, deadline=None)
@given(st.floats(10, 1000), st.floats(0.01, 1))
def test_chord_rise_and_radius_agree(radius: float, share: float) -> None:
    rise = radius * share
    chord = arcs.chord(radius, rise)
    assert arcs.radius(chord, rise) == pytest.approx(radius)
    assert arcs.rise(radius, chord) == pytest.approx(rise, rel=1e-6, abs=1e-6)


def test_an_arc_needs_a_rise() -> None:
    with pytest.raises(ValueError):
        arcs.radius(10, 0)


def test_the_largest_scale_that_fits() -> None:
    assert scales.largest(scales.ISO, (1000, 500), (200, 100)) == (1, 5)
    assert scales.largest(scales.ISO, (1000.1, 500), (200, 100)) == (1, 10)
    assert scales.largest(scales.INCH, (1000, 500), (100, 100)) == (1, 12)
    assert scales.largest(scales.ISO, (50000, 10), (100, 100)) is None
    assert scales.largest(scales.ISO, (10, 10), (100, 100)) == (10, 1)


def test_cutter_speeds() -> None:
    assert cutters.rim_speed(25.4, 24000) == pytest.approx(31.9, abs=0.05)
    assert cutters.rim_speed(88.9, 12000) == pytest.approx(55.9, abs=0.05)
    assert [cutters.most_rpm(d) for d in (25.4, 25.5, 63.5, 88.9, 89.1)] == [24000, 18000, 16000, 12000, None]


def test_bits_beside_a_width_that_none_is_sold_in() -> None:
    sold = cutters.BITS["mm"]
    assert cutters.bits_beside(16.5, sold) == (16, 18)
    assert cutters.bits_beside(16.04, sold) is None and cutters.bits_beside(16.06, sold) == (16, 18)
    assert cutters.bits_beside(2, sold) == (None, 3) and cutters.bits_beside(30, sold) == (25, None)
    assert cutters.bits_beside(12.7, cutters.BITS["inch"]) is None
    # 17/32 in stands between 1/2 and 9/16.
    assert cutters.bits_beside(INCH * 17 / 32, cutters.BITS["inch"]) == (INCH / 2, INCH * 9 / 16)
