from math import pi

import pytest

from docgen.piece.records import Stage
from tests.piece.joints.making import trial

CASE = """
sizes:
  t: 20
assemblies:
  case:
    mitred case:
      box: {across: [0, 400], deep: [0, 200], up: [100, 400]}
      material: board
      thickness: t
      %s
"""


def test_three_boards_are_an_upside_down_u():
    case = trial(CASE % "")
    assert [p.path for p in case.piece.parts] == ["case.left", "case.top", "case.right"]
    assert [p.show is not None and p.word(p.show) for p in case.piece.parts] == ["left", "top", "right"]
    # 300 and 400 long, each losing half of 20 × 20 at every mitre.
    assert case.volume("case.left") == pytest.approx(300 * 200 * 20 - 200 * 200, abs=0.1)
    assert case.volume("case.top") == pytest.approx(400 * 200 * 20 - 2 * 200 * 200, abs=0.1)
    assert case.clashes() == []
    (run,) = case.piece.runs
    assert (run.parts, run.closed, run.radius) == (("case.left", "case.top", "case.right"), False, 0)


def test_four_boards_close_it():
    case = trial(CASE % "boards: [left, top, right, bottom]")
    assert len(case.features("case.bottom", "end cut")) == 2
    assert case.piece.runs[0].closed
    assert len([j for j in case.piece.joints if j.word == "mitre"]) == 4
    assert case.clashes() == []


def test_front_rabbet_and_corner_are_cut_after_glue_up():
    case = trial(CASE % "corner: 28\n      front rabbet: {into: 8, depth: 15, bearing: 16}")
    assert {f.stage for f in case.features("case.top") if "glue" in f.title} == {Stage.GLUED}
    flat = 400 * 200 * 20 - 2 * 200 * 200
    assert case.volume("case.top", Stage.PART) == pytest.approx(flat, abs=0.1)
    # Rabbet: 8 × 15 between the mitres, 360 + 8 on average; corner radius 8 + 8 = 16 leaves its share; outside
    # corners of 28: half of each lies in this board.
    corner = 1 - pi / 4
    glued = flat - 15 * (8 * 368 - corner * 256) - 200 * corner * 784
    assert case.volume("case.top") == pytest.approx(glued, rel=2e-4)
    # The rabbet runs out at the lower ends: nothing of it is left below.
    assert not case.inside("case.left", (15.0, 5.0, 101.0)) and case.inside("case.left", (5.0, 5.0, 101.0))
    assert case.piece.runs[0].radius == 28


def test_rabbet_of_a_closed_case_goes_all_round():
    case = trial(CASE % "boards: [left, top, right, bottom]\n      front rabbet: {into: 8, depth: 15, bearing: 16}")
    # The rabbet's walls meet at (12, 112); its arc of 8 + 8 about (28, 128) leaves the wood in the corner standing.
    assert case.inside("case.left", (13.0, 5.0, 114.0))
    assert not case.inside("case.left", (13.0, 5.0, 200.0))
    assert not case.inside("case.left", (17.5, 5.0, 119.0))


def test_grain_may_be_left_alone():
    assert trial(CASE % "grain around: no").piece.runs == ()


@pytest.mark.parametrize("t", ["18", "22"])
def test_thickness_moves_every_board(t):
    case = trial((CASE % "").replace("t: 20", f"t: {t}"), thick=t)
    n = int(t)
    assert case.volume("case.left") == pytest.approx(300 * 200 * n - n * n / 2 * 200, abs=0.1)


@pytest.mark.parametrize(
    ("how", "word", "count"),
    [
        ("spline: {thickness: 4, depth: 6}", "spline", 4),
        ("keys: {count: 3, thickness: 3, depth: 16}", "key", 4),
        ("tenons: {thickness: 5, width: 30, depth: 8, count: 2, wall: 3}", "loose tenon", 16),
    ],
)
def test_mitres_are_strengthened_as_said(how, word, count):
    case = trial(CASE % f"boards: [left, top, right, bottom]\n      {how}")
    found = [f for p in case.piece.parts for f in p.features if word in f.title]
    assert len(found) >= count and case.clashes() == []
