from math import cos, pi, radians, sin

import pytest

from tests.piece.joints.making import one_problem, trial

# A rail between two posts, square; 30 thick, 60 wide.
SQUARE = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 400], deep: [0, 30], up: [200, 260]}}
joints:
  - loose tenon: {end: rail, into: post, thickness: 10, width: 40, depth: 18, wall: 5%s}
"""


def slot(width: float, thickness: float, depth: float) -> float:
    return ((width - thickness) * thickness + pi * thickness**2 / 4) * depth


def test_square_joint_takes_mortises_opposite_each_other():
    frame = trial(SQUARE % "", thick="30")
    # The rail's end stands at deep 0 to 30, up 200 to 260: the mortise's middle at deep 15, up 230.
    (post,), (rail,) = frame.features("post", "mortise"), frame.features("rail", "mortise")
    assert dict(post.parameters)["centre.0"] == 230 and dict(post.parameters)["centre.1"] == 15
    assert dict(rail.parameters)["centre.0"] == 30
    assert frame.marks("post") == [(210.0, -1), (250.0, 1)]
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - slot(40, 10, 18), rel=1e-5)
    assert frame.volume("rail") == pytest.approx(370 * 60 * 30 - slot(40, 10, 18), rel=1e-5)
    assert frame.figure("loose tenon", "length") == 34
    assert frame.figure("loose tenon", "angle between length and face") == 90
    # The wall that is asked for is a least: 10 and 20 stand beside the mortises, and no figure may tell 5.
    assert all(name != "wall" for j in frame.piece.joints for name, _, _ in j.figures)
    assert frame.figure("loose tenon", "wood to the faces, at least") == 10  # half of 30 less 10
    assert frame.clashes() == []


def test_several_tenons_stand_with_equal_wood_between_them():
    frame = trial((SQUARE % ", count: 2").replace("width: 40", "width: 18"), thick="30")
    # Room 205 to 255; 2 × 18; three gaps of 14 / 3.
    centres = sorted(float(dict(f.parameters)["centre.0"]) for f in frame.features("post", "mortise"))
    assert centres == pytest.approx([205 + 14 / 3 + 9, 255 - 14 / 3 - 9])
    assert float(frame.figure("loose tenon", "wood between tenons")) == pytest.approx(14 / 3)


# A brace that leans 30 degrees from plumb, its middle line meeting the post's back face at 500.
ACUTE = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 700]}}
  brace: {of: board, grain: up, box: {across: [0, 30], deep: [30, 90], up: [200, 700]},
    turn: {about: across, at: {deep: 60, up: 500}, by: 30 deg}}
joints:
  - loose tenon: {end: brace, into: post, thickness: 10, width: 40, depth: 20, wall: 6}
"""


def test_acute_end_is_cut_to_the_face():
    frame = trial(ACUTE, thick="30")
    # The cut crosses the middle line 300 from the lower end: half of it gains what the other half loses.
    assert frame.volume("brace") == pytest.approx(300 * 60 * 30 - slot(40, 10, 20), rel=1e-5)
    (cut,) = frame.features("brace", "end cut")
    # 30 degrees between length and face is 60 degrees from square.
    assert abs(float(dict(cut.parameters)["slopes.0"])) == pytest.approx(60)
    assert frame.figure("loose tenon", "angle between length and face") == pytest.approx(30)
    assert frame.clashes() == []


def test_tenon_keeps_its_wall_to_the_acute_tip():
    frame = trial(ACUTE, thick="30")
    # The joint is 60 / sin 30° = 120 long, its acute tip on top at 560. With u from the tip, wall = u·sin φ − d·cos φ
    # = 6 gives u = 46.641; from the heel wall / sin φ = 12 gives u = 108. The middle: 77.321, at a height of 482.679.
    u = ((6 + 20 * cos(radians(30))) / sin(radians(30)) + 108) / 2
    (mortise,) = frame.features("post", "mortise")
    assert float(dict(mortise.parameters)["centre.0"]) == pytest.approx(560 - u, abs=1e-6)
    (end,) = frame.features("brace", "mortise in a cut")
    # From the heel, 120 − u.
    assert float(dict(end.parameters)["out"]) == pytest.approx(120 - u, abs=1e-6)
    assert float(dict(end.parameters)["over"]) == pytest.approx(15)
    # The far corner of the slot, 20 deep, lies more than the wall inside the brace's back face.
    assert u - 20 > 46.641


@pytest.mark.parametrize("deep", [12, 25])
def test_deeper_mortises_move_away_from_the_tip(deep):
    frame = trial(ACUTE.replace("depth: 20", f"depth: {deep}"), thick="30")
    u = ((6 + deep * cos(radians(30))) / sin(radians(30)) + 108) / 2
    (mortise,) = frame.features("post", "mortise")
    assert float(dict(mortise.parameters)["centre.0"]) == pytest.approx(560 - u, abs=1e-6)


def test_tenons_too_wide_for_the_joint_are_told():
    found = one_problem(ACUTE.replace("width: 40", "width: 70"), thick="30")
    assert found.code == "tenons-no-room" and "≈61.4 mm" in found.message


def test_end_that_does_not_reach_is_told():
    found = one_problem((SQUARE % "").replace("across: [30, 400]", "across: [42, 400]"), thick="30")
    assert found.code == "parts-do-not-meet" and "12 mm before post" in found.message


def test_end_that_passes_by_is_told():
    found = one_problem((SQUARE % "").replace("up: [200, 260]", "up: [420, 480]"), thick="30")
    assert found.code == "parts-do-not-meet" and "passes post by" in found.message
