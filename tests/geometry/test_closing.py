import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.geometry.closing import closed
from docgen.geometry.lines import ArcOf, Drawn, Stroke

REACH = 2.0
POST = Stroke((10.0, -5.0), (10.0, 5.0), 0)


def shown(*strokes: Stroke) -> tuple[Stroke, ...]:
    return closed(Drawn(strokes, ()), REACH).visible


@pytest.mark.parametrize("gap", [0.5, 1.0, 1.9])
def test_a_line_runs_on_to_the_one_that_it_stops_short_of(gap: float) -> None:
    short = Stroke((0.0, 0.0), (10.0 - gap, 0.0), 0)
    post, line = shown(POST, short)
    assert post == POST and line.a == short.a and line.b == pytest.approx((10.0, 0.0))
    _, back = shown(POST, Stroke(short.b, short.a, 0))
    assert back.b == short.a and back.a == pytest.approx((10.0, 0.0))


@given(st.floats(0.0, 360.0), st.floats(0.4, 1.9))
def test_it_does_so_whichever_way_it_runs(degrees: float, gap: float) -> None:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def turned(p: tuple[float, float]) -> tuple[float, float]:
        return (p[0] * c - p[1] * s, p[0] * s + p[1] * c)

    made = [Stroke(turned(a), turned(b), 0) for a, b in (((10.0, -5.0), (10.0, 5.0)), ((0.0, 1.0), (10.0 - gap, 1.0)))]
    assert shown(*made)[1].b == pytest.approx(turned((10.0, 1.0)), abs=1e-6)


def test_the_mouth_of_a_groove_is_bridged_to_the_rest_of_the_edge() -> None:
    left, right = Stroke((0.0, 0.0), (20.0, 0.0), 0), Stroke((21.4, 0.0), (30.0, 0.0), 0)
    lines = shown(left, right)
    assert max(s.b[0] for s in lines) == 30.0 and lines[0].b == pytest.approx((21.4, 0.0))


def test_what_ends_far_from_all_others_stays() -> None:
    far = Stroke((0.0, 0.0), (7.5, 0.0), 0)
    aside = Stroke((0.0, 8.0), (9.0, 8.0), 0)  # its way leads past the post
    assert shown(POST, far, aside) == (POST, far, aside)


def test_curves_are_met_but_not_lengthened() -> None:
    curve = [Stroke((0.0, 3.0), (4.0, 2.0), 0, chain=0), Stroke((4.0, 2.0), (9.0, 2.0), 0, chain=0)]
    arc = Stroke((0.0, -3.0), (9.0, -3.0), 0, arc=ArcOf((4.5, 0.0), 5.4, 200.0, 340.0))
    assert shown(POST, *curve, arc) == (POST, *curve, arc)


def test_a_tick_in_the_air_goes_and_a_step_stays() -> None:
    tick = Stroke((20.0, 0.0), (20.4, 0.2), 0)
    step = [
        Stroke((0.0, 20.0), (5.0, 20.0), 0),
        Stroke((5.0, 20.0), (5.0, 20.4), 0),
        Stroke((5.0, 20.4), (9.0, 20.4), 0),
    ]
    assert shown(POST, tick, *step) == (POST, *step)


def test_nothing_comes_of_nothing() -> None:
    assert closed(Drawn((), ()), REACH) == Drawn((), ())
