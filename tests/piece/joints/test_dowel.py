from math import pi

import pytest

from docgen.piece.operations.cut_frame import heel_frame
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.slanted_tenon import CutHoles
from docgen.piece.records import Authority, Face, Purpose
from tests.piece.joints.making import one_problem, trial
from tests.piece.operations.trial import board, proven

# A rail 80 wide and 30 thick whose left end touches the right face of a post 60 × 30, deep 10 to 40 and up 300 to 380.
BODY = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 400], deep: [10, 40], up: [300, 380]}}
joints:
  - dowel: {part: rail, into: post, diameter: 8, %s}
"""
TWO = BODY % "count: 2, depth: 24, depth into: 20, spacing: 50"


def places(frame, path):
    """Return the middles of the mouths in the piece."""
    (row,) = frame.holes(path)
    to = frame.part(path).frame
    return sorted(tuple(round(c, 6) for c in to.point(tuple(float(c) for c in p))) for p in row.points)


def test_rows_stand_in_the_middle_of_the_shared_faces_and_match():
    frame = trial(TWO, thick="30")
    # Middle of the shared rectangle: deep 25, up 340; 25 to each side of it.
    assert places(frame, "post") == places(frame, "rail") == [(30, 25, 315), (30, 25, 365)]
    hole = pi * 8**2 / 4
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 - 2 * 24 * hole, rel=1e-5)
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 2 * 20 * hole, rel=1e-5)
    assert not frame.inside("post", (11, 25, 315)) and frame.inside("post", (9, 25, 315))
    assert not frame.inside("rail", (53, 25, 365)) and frame.inside("rail", (55, 25, 365))
    assert frame.clashes() == []


def test_one_name_and_one_authority_to_mark_from():
    frame = trial(TWO, thick="30")
    (rail,), (post,) = frame.holes("rail"), frame.holes("post")
    assert rail.name == post.name == "A"
    assert (rail.purpose, post.purpose) == (Purpose.DOWEL, Purpose.DOWEL)
    assert (rail.authority, post.authority) == (Authority.CUT, Authority.MATE)
    assert (rail.mate, post.mate) == ("post", "rail")
    assert (rail.drill, rail.depth, post.depth) == ("8 mm", 24, 20)
    assert "rail" in post.note and rail.note == ""


def test_dowels_are_listed_shorter_than_their_holes():
    frame = trial(TWO, thick="30")
    # 24 + 20 − 2 × 1.5
    assert [(i.what, i.count, i.size) for i in frame.piece.items] == [("dowel, fluted", 2, "8 × 41 mm")]
    assert frame.figure("dowel", "dowel length") == 41


def test_without_a_spacing_each_dowel_has_an_equal_share():
    frame = trial(BODY % "count: 4, depth: 20", thick="30")
    # Shares of 20 from 300: 310, 330, 350, 370.
    assert [p[2] for p in places(frame, "rail")] == [310, 330, 350, 370]
    assert places(frame, "rail") == places(frame, "post")


def test_edges_of_boards_and_single_dowels():
    body = """
    parts:
      left: {of: board, grain: up, box: {across: [0, 60], deep: [0, 20], up: [0, 400]}}
      right: {of: board, grain: up, box: {across: [60, 150], deep: [0, 20], up: [100, 500]}}
    joints:
      - dowel: {part: left, into: right, diameter: 1/4 in, count: 1, depth: 20}
    """
    frame = trial(body)
    # They share up 100 to 400 and deep 0 to 20.
    assert places(frame, "left") == places(frame, "right") == [(60, 10, 250)]


def test_inch_file_keeps_sixteenths():
    body = """
    parts:
      post: {of: board, grain: up, box: {across: [0, 1], deep: [0, 2], up: [0, 16]}}
      rail: {of: board, grain: across, box: {across: [1, 16], deep: [1/2, 1 1/2], up: [12, 15]}}
    joints:
      - dowel: {part: rail, into: post, diameter: 3/8, count: 2, depth: 13/16, spacing: 1 1/2}
    """
    frame = trial(body, units="inch", thick="1", thin="1/4")
    # 2 × 13/16 − 2 × 1/16 = 1 1/2; at 13 1/2 ± 3/4 up: 12 3/4 and 14 1/4
    assert [i.size for i in frame.piece.items] == ["3/8 × 1 1/2 in"]
    assert places(frame, "rail") == [(25.4, 25.4, 323.85), (25.4, 25.4, 361.95)]


@pytest.mark.parametrize(
    ("said", "code", "text"),
    [
        ("count: 3, depth: 20, spacing: 40", "dowels-no-room", "3 dowels reach over 88 mm"),
        ("count: 3, depth: 20, spacing: 8", "dowels-no-room", "run into each other"),
        ("count: 12, depth: 20", "dowels-no-room", "run into each other"),
        ("count: 2, depth: 1", "dowel-too-short", "holds no dowel"),
        ("count: 2, depth: 30", "hole-too-deep", "30 mm deep"),
    ],
)
def test_what_does_not_fit_is_told(said, code, text):
    found = one_problem(BODY % said, thick="30")
    assert found.code == code and text in found.message


def test_dowel_thicker_than_the_faces_share_is_told():
    # Only deep 55 to 60 of the post lies under the rail's end.
    found = one_problem(TWO.replace("deep: [10, 40]", "deep: [55, 85]"), thick="30")
    assert found.code == "dowels-no-room" and "share 5 mm" in found.message


def test_parts_that_do_not_touch_are_told():
    found = one_problem(TWO.replace("across: [30, 400]", "across: [42, 400]"), thick="30")
    assert found.code == "parts-do-not-meet" and "12 mm away from post" in found.message


LEANS = "up: [300, 380]}, turn: {about: deep, at: {across: 30, up: 340}, by: %s deg}"


def leaning(by: int, low: int = 20) -> str:
    return TWO.replace("across: [30, 400]", f"across: [{low}, 400]").replace("up: [300, 380]}", LEANS % by)


def test_an_end_that_leans_is_cut_and_drilled_square_to_its_cut():
    frame = trial(leaning(5), thick="30")
    # The middle line meets the post's face where the part is turned about: 370 of it is left. The row stands about it.
    hole = pi * 8**2 / 4
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 - 2 * 24 * hole, rel=1e-5)
    assert places(frame, "post") == places(frame, "rail") == [(30, 25, 315), (30, 25, 365)]
    (rail,), (post,) = frame.holes("rail"), frame.holes("post")
    assert frame.part("rail").frame.direction(rail.direction) == pytest.approx((1, 0, 0))
    assert (rail.authority, post.authority) == (Authority.MATE, Authority.CUT)
    assert "square to the cut end; mark from the holes in post" in rail.note
    assert not frame.inside("rail", (53, 25, 365)) and frame.inside("rail", (55, 25, 365))
    assert len(frame.joint("dowel").loose) == 2 and frame.clashes() == []


def test_an_end_that_leans_away_from_the_other_part_is_told():
    found = one_problem(leaning(5, 30), thick="30")
    # Half of 80 times sin 5° = 3.49 is missing at one corner.
    assert found.code == "parts-do-not-meet" and "stays ≈3.5 mm short of post" in found.message


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1)])
def test_each_number_of_holes_in_a_cut_shapes_them_and_is_told(end):
    frame = heel_frame(board(), EndCut(end, 350 if end.side else 50, (-10.0, 0)), (0.0, 1.0, 0.0))
    proven(CutHoles(end, frame, ((20, 10), (60, 12)), 8, 24), board())


def test_a_row_of_slats_between_two_repeated_rails() -> None:
    """Each of four slats stands on one rail and under the other: eight joints, two dowels in each."""
    body = """
    parts:
      rail: {of: board, grain: across, box: {across: [0, 400], deep: [0, 20], up: [0, 40]}, repeat: {along: up, at: [0, 300]}}
      slat: {of: board, grain: up, box: {across: [0, 40], deep: [0, 20], up: [40, 300]},
        repeat: {along: across, count: 4, between: [0, 400]}}
    joints:
      - dowel: {part: slat, into: rail, diameter: 6, count: 2, depth: 20, copies: each with each}
    """
    fence = trial(body)
    assert len(fence.piece.joints) == 8
    assert [sum(len(h.points) for h in fence.holes(f"rail.{n}")) for n in (1, 2)] == [8, 8]
    assert [sum(len(h.points) for h in fence.holes(f"slat.{n}")) for n in (1, 4)] == [4, 4]
    assert fence.clashes() == []
