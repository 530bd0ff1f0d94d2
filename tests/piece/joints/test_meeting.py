from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.shapes import turned
from docgen.piece.joints.meeting import distance, facing, in_plane, pierced, seen, touching
from docgen.piece.records import Face
from tests.piece.joints.making import trial

PARTS = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  shelf: {of: board, grain: across, box: {across: [20, 420], deep: [10, 190], up: [100, 120]}}
  far: {of: board, grain: across, box: {across: [23, 423], deep: [204, 304], up: [100, 120]}}
"""


@pytest.fixture(scope="module")
def parts():
    return {p.path: p for p in trial(PARTS).piece.parts}


def test_a_guest_is_seen_in_the_axes_of_its_host(parts):
    side, shelf = parts["side"], parts["shelf"]
    at = seen(shelf, side)
    # The side's axes are up, deep and across; its thickness axis runs along + or −, as its frame says.
    assert (at.low[0], at.high[0]) == (100, 120) and (at.low[1], at.high[1]) == (10, 190)
    assert at.axis == (2, 1, 0)
    assert touching(at, side) == side.face("right")
    assert at.host_face(shelf.face("top")) == Face(0, 1)
    assert all(isinstance(v, (int, Fraction)) for v in (*at.low, *at.high))


def test_distance_between_boxes(parts):
    # 3 across and 4 deep apart.
    assert distance(seen(parts["far"], parts["side"]), parts["side"]) == pytest.approx(5)
    assert touching(seen(parts["far"], parts["side"]), parts["side"]) is None


def test_faces_that_look_at_each_other(parts):
    side, shelf, far = parts["side"], parts["shelf"], parts["far"]
    assert (side.face("right"), shelf.face("left")) in facing(side, shelf)
    assert (side.face("right"), far.face("left")) in facing(side, far, 3.0)


def test_line_of_a_part_meets_the_other(parts):
    side, shelf = parts["side"], parts["shelf"]
    assert pierced(shelf, side) == (shelf.face("left"), side.face("right"))
    assert pierced(side, parts["far"]) is None


def test_point_of_a_plane_by_two_coordinates(parts):
    assert in_plane(parts["side"], parts["side"].face("right"), {1: 50, 2: 70}) == pytest.approx((20, 50, 70))
    assert in_plane(parts["side"], parts["side"].face("right"), {0: 20, 2: 70}) is None


@settings(max_examples=25, deadline=None)
@given(st.floats(-180, 180), st.sampled_from([0, 1, 2]), st.tuples(*[st.floats(-500, 500)] * 3))
def test_turning_both_parts_changes_nothing_between_them(degrees, axis, about):
    parts = {p.path: p for p in _PARTS}
    turn = turned(axis, degrees, about)
    side, shelf = (replace(parts[n], frame=turn.after(parts[n].frame)) for n in ("side", "shelf"))
    before, after = seen(parts["shelf"], parts["side"]), seen(shelf, side)
    assert after.axis == before.axis and after.sign == before.sign
    assert [float(v) for v in (*after.low, *after.high)] == pytest.approx(
        [float(v) for v in (*before.low, *before.high)], abs=1e-6
    )
    assert touching(after, side) == touching(before, parts["side"])


_PARTS = trial(PARTS).piece.parts
