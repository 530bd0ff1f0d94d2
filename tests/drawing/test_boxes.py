import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.boxes import Box, crossing, inside_length, overlap, readable, together

coordinate = st.floats(-50, 50)
half = st.floats(0.5, 20)
boxes = st.builds(Box, coordinate, coordinate, half, half, st.sampled_from([0.0, 90.0, 30.0, -45.0]))


def test_bounds_of_a_turned_box_hold_its_corners() -> None:
    box = Box(10, 20, 4, 1, 90)
    assert box.bounds() == (9, 16, 11, 24)
    assert box.corners()[0] == pytest.approx((11, 16))


@given(boxes, boxes)
@settings(max_examples=60, deadline=None)
def test_overlap_does_not_depend_on_the_order(a: Box, b: Box) -> None:
    assert overlap(a, b) == overlap(b, a)


@given(boxes, st.floats(-0.9, 0.9), st.floats(-0.9, 0.9))
@settings(max_examples=60, deadline=None)
def test_a_box_about_an_inner_point_overlaps(a: Box, u: float, v: float) -> None:
    x, y = a.point(u * a.half_w, v * a.half_h)
    assert overlap(a, Box(x, y, 0.2, 0.2))
    assert inside_length(a, (x - 200, y), (x + 200, y)) > 0


def test_boxes_that_touch_do_not_overlap() -> None:
    assert not overlap(Box(0, 0, 1, 1), Box(2, 0, 1, 1))
    assert overlap(Box(0, 0, 1, 1), Box(1.99, 0, 1, 1))


def test_length_inside() -> None:
    assert inside_length(Box(0, 0, 2, 1), (-5, 0), (5, 0)) == pytest.approx(4)
    assert inside_length(Box(0, 0, 2, 1), (-5, 1), (5, 1)) == 0  # along the rim is not inside
    assert inside_length(Box(0, 0, 1, 1, 45), (-5, 0), (5, 0)) == pytest.approx(2 * math.sqrt(2))


def test_crossing_and_running_together() -> None:
    assert crossing((0, 0), (2, 2), (0, 2), (2, 0))
    assert not crossing((0, 0), (2, 2), (2, 2), (4, 0))  # they only touch
    assert together((0, 0), (10, 0), (5, 0.3), (20, 0.3), 0.8)
    assert not together((0, 0), (10, 0), (5, 2), (20, 2), 0.8)
    assert not together((0, 0), (10, 0), (5, -5), (5, 5), 0.8)


@pytest.mark.parametrize(("given_", "read"), [(0, 0), (180, 0), (90, 90), (-90, 90), (270, 90), (135, -45), (30, 30)])
def test_text_reads_from_below_or_from_the_right(given_: float, read: float) -> None:
    assert readable(given_) == pytest.approx(read)
