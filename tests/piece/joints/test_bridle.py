import pytest

from docgen.piece.records import BOTH, Authority, Stage
from tests.piece.joints.making import one_problem, trial

FRAME = """
parts:
  stile: {of: board, grain: up, box: {across: [0, 50], deep: [0, 21], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: %s, deep: [%s, %s], up: [%s, %s]}}
joints:
  - bridle: {tenon: rail, slot: stile%s}
"""
CORNER = FRAME % ("[0, 300]", 0, 21, 340, 400, "")


def test_corner_bridle_cuts_a_third_and_loses_nothing():
    frame = trial(CORNER, thick="21")
    assert frame.figure("bridle", "tenon thickness") == 7 and frame.figure("bridle", "slot deep") == 60
    assert frame.volume("stile") == pytest.approx(400 * 50 * 21 - 60 * 50 * 7)
    assert frame.volume("rail") == pytest.approx(300 * 60 * 21 - 50 * 60 * 14)
    assert frame.volume("rail", Stage.PART) == pytest.approx(300 * 60 * 21 - 50 * 60 * 13.5)
    assert frame.clashes() == []
    assert frame.marks("rail") == [(50, BOTH)] and frame.marks("stile") == [(340, -1)]
    (fit,) = (s for s in frame.sizes("rail", "cheeks") if s.authority is Authority.FIT)
    assert (fit.value, fit.over) == (7, 0.5)
    assert all(s.authority is Authority.CUT for s in frame.sizes("stile", "notch"))


def test_tee_bridle_straddles_the_rail():
    frame = trial(FRAME % ("[-100, 300]", 0, 21, 340, 400, ", thickness: 9"), thick="21")
    assert frame.volume("stile") == pytest.approx(400 * 50 * 21 - 60 * 50 * 9)
    assert frame.volume("rail") == pytest.approx(400 * 60 * 21 - 50 * 60 * 12)
    assert frame.marks("rail") == [(100, -1), (150, 1)]
    assert frame.clashes() == []
    assert frame.joint("bridle").title == "stile straddles rail"


def test_a_thinner_rail_in_a_lower_end_keeps_one_shoulder_where_its_tenon_is_flush():
    body = FRAME % ("[0, 300]", 3, 17, 0, 60, ", thickness: 8, flush: front")
    frame = trial(body.replace("rail: {of: board", "rail: {of: thin"), thick="21", thin="14")
    assert frame.volume("stile") == pytest.approx(400 * 50 * 21 - 60 * 50 * 8)
    assert frame.volume("rail") == pytest.approx(300 * 60 * 14 - 50 * 60 * 6)
    assert frame.inside("rail", (25, 4, 30)) and not frame.inside("rail", (25, 12, 30))
    assert frame.clashes() == []


@pytest.mark.parametrize(
    ("box", "code"),
    [
        (("[60, 300]", 0, 21, 340, 400, ""), "bridle-apart"),
        (("[50, 300]", 0, 21, 340, 400, ""), "bridle-apart"),
        (("[0, 300]", 0, 21, 320, 380, ""), "bridle-no-end"),
        (("[0, 300]", 0, 21, 380, 440, ""), "bridle-no-end"),
        (("[0, 300]", 0, 21, 340, 400, ", flush: top"), "flush-face"),
        (("[0, 300]", 0, 21, 340, 400, ", thickness: 21"), "tenon-too-thick"),
        (("[0, 300]", 0, 21, 340, 400, ", thickness: 14, flush: front"), "bridle-open"),
    ],
)
def test_what_does_not_go_together_is_told(box, code):
    assert one_problem(FRAME % box, thick="21").code == code


def test_parts_side_by_side_are_told():
    body = CORNER.replace("grain: across, box: {across: [0, 300]", "grain: up, box: {across: [40, 100]")
    assert one_problem(body, thick="21").code == "bridle-not-crossed"
