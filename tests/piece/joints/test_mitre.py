from math import hypot, sqrt

import pytest

from docgen.piece.records import SizeKind
from tests.piece.joints.making import INCH, one_problem, problems, trial

# A case corner: a side and a top, 20 thick and 200 deep, both reaching to the outer arris.
CORNER = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [280, 300]}}
joints:
  - mitre: {parts: [side, top]%s}
"""


def test_both_boards_lose_half_of_the_corner():
    case = trial(CORNER % "")
    # Half of the square of 20 × 20 in which the boxes overlap, 200 deep.
    assert case.volume("side") == pytest.approx(300 * 200 * 20 - 200 * 200, abs=0.1)
    assert case.volume("top") == pytest.approx(400 * 200 * 20 - 200 * 200, abs=0.1)
    assert case.clashes() == []
    angles = [float(s.value) for s in case.sizes("side", "end cut") if s.kind is SizeKind.ANGLE]
    assert angles == [45]
    assert case.figure("mitre", "mitre of top, from square") == 45


def test_wood_stays_on_the_outside():
    case = trial(CORNER % "")
    # The outer arris is at (0, 300); a point just beside it below the diagonal is the side's, above it the top's.
    assert case.inside("side", (1.0, 100.0, 298.0)) and not case.inside("top", (1.0, 100.0, 298.0))
    assert case.inside("top", (2.0, 100.0, 299.0)) and not case.inside("side", (2.0, 100.0, 299.0))


def test_boards_of_different_thickness_meet_on_the_diagonal():
    body = """
    parts:
      side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
      top: {of: thin, grain: across, box: {across: [0, 400], deep: [0, 200], up: [294, 300]}}
    joints:
      - mitre: {parts: [side, top]}
    """
    case = trial(body)
    # The corner is 20 × 6; each part loses half of it. The side is cut atan(6/20) = 16.699° from square.
    assert case.volume("side") == pytest.approx(300 * 200 * 20 - 60 * 200, abs=0.1)
    assert case.figure("mitre", "mitre of side, from square") == pytest.approx(16.69924, abs=1e-4)
    assert case.figure("mitre", "mitre of top, from square") == pytest.approx(73.30076, abs=1e-4)
    assert case.clashes() == []


# Rails of a flat frame, 60 wide and 20 thick.
RAILS = """
parts:
  left: {of: board, grain: deep, box: {across: [0, 60], deep: [0, 300], up: [0, 20]}}
  back: {of: board, grain: across, box: {across: [0, 400], deep: [240, 300], up: [0, 20]}}
joints:
  - mitre: {parts: [left, back], tenons: {thickness: 6, width: 24, depth: 18, wall: 6}}
"""


def test_loose_tenons_keep_the_wall_in_a_mitre():
    frame = trial(RAILS)
    # The mitre's face is 60·√2 = 84.853 long. From the heel u: wall to the inside u/√2 ≥ 6, to the outside
    # (84.853 − u − 18)/√2 ≥ 6, so u lies in 8.485 … 58.368; 24 wide in the middle: centre at 33.426.
    centre = (8.48528 + 58.36753) / 2
    for rail in ("left", "back"):
        (mortise,) = frame.features(rail, "mortise in a cut")
        told = dict(mortise.parameters)
        assert float(told["out"]) == pytest.approx(centre, abs=1e-3)
        assert float(told["over"]) == pytest.approx(10, abs=1e-6)
        assert (told["length"], told["width"], told["depth"]) == (24, 6, 18)
        slot = (18 * 6 + 3.14159265 * 9) * 18
        whole = (300 if rail == "left" else 400) * 60 * 20 - 60 * 60 / 2 * 20
        assert frame.volume(rail) == pytest.approx(whole - slot, rel=1e-5)


def test_mortises_of_a_mitre_lie_opposite_each_other():
    frame = trial(RAILS)
    # The heel is at (60, 240), the outer corner at (0, 300): u along (−1, 1)/√2. 5 to each side of the mitre's plane
    # the wood is gone at the tenon's middle; at its level but beside it the wood stands.
    u = (8.48528 + 58.36753) / 2 / sqrt(2)
    x, y = 60 - u, 240 + u
    for rail, way in (("left", -1), ("back", 1)):
        k = 5 / sqrt(2) * way
        assert not frame.inside(rail, (x + k, y + k, 10.0))
        assert frame.inside(rail, (x + k, y + k, 15.0))
    assert hypot(u, u) == pytest.approx(33.4264, abs=1e-3)


def test_tenon_that_does_not_fit_is_told_with_the_room():
    found = one_problem(RAILS.replace("width: 24", "width: 55"))
    assert found.code == "tenons-no-room" and "≈49.9 mm" in found.message


def test_long_mitre_of_a_case_spreads_tenons_along_it():
    case = trial(CORNER % ", tenons: {thickness: 5, width: 30, depth: 8, count: 3, wall: 4}")
    # Along the 200: wall 4 at both ends, 3 × 30, four equal gaps of (192 − 90) / 4 = 25.5.
    overs = sorted(float(dict(f.parameters)["over"]) for f in case.features("side", "mortise in a cut"))
    assert overs == pytest.approx([44.5, 100, 155.5])
    assert case.clashes() == []


def test_parts_that_do_not_overlap_are_told():
    assert one_problem((CORNER % "").replace("[0, 400]", "[20, 400]")).code == "no-corner"
    assert problems((CORNER % "").replace("[side, top]", "[side, top, side]"))[0].code == "mitre-two"


def test_inch_mitres_are_exact():
    body = """
    parts:
      side: {of: board, grain: up, box: {across: [0, 13/16], deep: [0, 16], up: [22, 28 1/2]}}
      top: {of: board, grain: across, box: {across: [0, 34], deep: [0, 16], up: [28 1/2 - 13/16, 28 1/2]}}
    joints:
      - mitre: {parts: [side, top]}
    """
    case = trial(body, units="inch", thick="13/16")
    t = 0.8125 * INCH
    assert case.volume("top") == pytest.approx((34 * INCH * t - t * t / 2) * 16 * INCH, rel=1e-9)
    assert case.clashes() == []
