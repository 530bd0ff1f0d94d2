import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.records import Arc, Area, Line, Path, Pen
from docgen.drawing.tiling.clip import clip, clip_arc
from docgen.drawing.tiling.ink import on_arc

WINDOW = (0.0, 0.0, 100.0, 60.0)


def test_line_through_the_window_ends_on_its_sides() -> None:
    assert clip([Line((-50, 30), (150, 30), Pen.DATUM)], WINDOW)[0] == Line(
        (pytest.approx(0, abs=1e-8), 30), (pytest.approx(100), 30), Pen.DATUM
    )


def test_line_within_comes_back_itself_and_one_outside_not_at_all() -> None:
    inside, outside = Line((1, 1), (99, 59)), Line((-5, 70), (200, 70))
    assert clip([inside, outside], WINDOW) == [inside]


def test_closed_path_falls_into_open_ones() -> None:
    square = Path(((-20, -20), (50, -20), (50, 30), (-20, 30)), closed=True)
    (kept,) = clip([square], WINDOW)
    assert not kept.closed
    assert kept.points[0] == (50, pytest.approx(0, abs=1e-8))
    assert kept.points[1] == (50, 30)
    assert kept.points[2] == (pytest.approx(0, abs=1e-8), 30)
    whole = Path(((1, 1), (9, 1), (9, 9)), closed=True)
    assert clip([whole], WINDOW) == [whole]


def test_circle_over_a_side_stays_one_arc_of_the_same_circle() -> None:
    (kept,) = clip_arc(Arc((100, 30), 20, 0, 360), WINDOW)
    assert (kept.centre, kept.radius) == ((100, 30), 20)
    assert kept.end - kept.start == pytest.approx(180)
    assert on_arc(kept, (kept.start + kept.end) / 2) == pytest.approx((80, 30))


def test_circle_around_a_corner_and_circle_wider_than_the_window() -> None:
    (corner,) = clip_arc(Arc((0, 0), 30, 0, 360), WINDOW)
    assert corner.end - corner.start == pytest.approx(90)
    parts = clip_arc(Arc((50, 30), 40, 0, 360), WINDOW)
    assert len(parts) == 2
    # 2 asin(30/40) to each side
    assert sum(p.end - p.start for p in parts) == pytest.approx(4 * math.degrees(math.asin(0.75)))


def test_area_is_cut_at_the_sides() -> None:
    (kept,) = clip([Area((((-10, -10), (10, -10), (10, 10), (-10, 10)),), 0.5)], WINDOW)
    assert sorted(set(kept.rings[0])) == [(0, 0), (0, 10), (10, 0), (10, 10)]


@settings(max_examples=80, deadline=None)
@given(
    st.tuples(st.floats(-50, 150), st.floats(-50, 110)),
    st.floats(1, 120),
    st.floats(0, 359),
    st.floats(1, 360),
)
def test_clipped_arcs_are_exactly_what_lies_within(centre, radius, start, sweep) -> None:
    arc = Arc(centre, radius, start, start + sweep)
    parts = clip_arc(arc, WINDOW)
    for k in range(73):
        angle = start + sweep * k / 72
        x, y = on_arc(arc, angle)
        margin = min(x - WINDOW[0], WINDOW[2] - x, y - WINDOW[1], WINDOW[3] - y)
        covered = any(p.start - 1e-6 <= angle + turn <= p.end + 1e-6 for p in parts for turn in (-360, 0, 360))
        if abs(margin) > 1e-3:
            assert covered == (margin > 0)
