from math import pi

import pytest

from docgen.piece.records import Authority, Face
from tests.piece.joints.making import INCH, one_problem, size_of, trial

# A case of two sides 20 thick with a shelf between them, 100 above the floor; sides 300 high and 200 deep.
CASE = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [480, 500], deep: [0, 200], up: [0, 300]}}
  shelf: {of: board, grain: across, box: {across: [left.right, right.left], deep: [0, 200], up: [100, 120]}}
joints:
  - housing: {shelf: shelf, into: [left, right], depth: 7%s}
"""


def test_dado_stands_where_the_shelf_stands():
    case = trial(CASE % "")
    for side, face in (("left", "right"), ("right", "left")):
        (dado,) = case.features(side, "dado")
        # Marks from the side's lower end: the shelf's two faces.
        assert case.marks(side) == [(100.0, -1), (120.0, 1)]
        assert dict(dado.parameters)["depth"] == 7
        assert {s.face for s in dado.made.sizes if s.parameters == ("low",)} == {case.part(side).face(face)}
        # 300 × 200 × 20 less a trench of 20 × 200 × 7.
        assert case.volume(side) == pytest.approx(1_200_000 - 28_000, abs=0.1)
    # The shelf grows by 7 at both ends: 474 × 200 × 20.
    assert case.volume("shelf") == pytest.approx(474 * 200 * 20, abs=0.1)
    assert case.clashes() == []


def test_stopped_dado_leaves_its_arc_and_the_tongue_is_notched():
    case = trial(CASE % ", stop: {front: 15}")
    # Trench from 15 behind the front to the back, 185 long, and half a disc of radius 10 before it, 7 deep.
    trench = 185 * 20 * 7 + pi * 100 / 2 * 7
    assert case.volume("left") == pytest.approx(1_200_000 - trench, rel=1e-5)
    # The tongues lose their first 15: 2 × 15 × 7 × 20.
    assert case.volume("shelf") == pytest.approx(474 * 4000 - 4200, abs=0.1)
    assert size_of(case.sizes("shelf", "tongue"), "notch_low") == 15
    # The arc reaches 10 further to the front: 5 behind it.
    assert size_of(case.sizes("left", "dado"), "start") == 5
    assert case.clashes() == []


# A rail 60 high in the middle of the sides' height, 20 before their rear edges.
RAIL = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  rail: {of: board, grain: across, box: {across: [20, 400], deep: [160, 180], up: [100, 160]}}
joints:
  - housing: {shelf: rail, into: left, depth: 7%s}
"""


def test_dado_ends_with_a_part_that_does_not_reach_the_edge():
    case = trial(RAIL % "")
    assert case.volume("left") == pytest.approx(1_200_000 - 60 * 20 * 7, abs=0.1)
    assert case.marks("left") == [(100.0, -1), (160.0, 1)]


def test_dado_runs_out_where_it_is_said():
    case = trial(RAIL % ", through: top")
    assert case.volume("left") == pytest.approx(1_200_000 - 200 * 20 * 7, abs=0.1)
    case = trial(RAIL % ", through: [top, bottom]")
    assert case.volume("left") == pytest.approx(1_200_000 - 300 * 20 * 7, abs=0.1)


def test_stop_beside_an_end_with_the_part_is_squared():
    case = trial(RAIL % ", stop: {top: 10}")
    assert case.volume("left") == pytest.approx(1_200_000 - 50 * 20 * 7, abs=0.1)


def test_squared_stop_has_no_arc():
    case = trial(CASE % ", stop: {front: 15}, end: square")
    assert case.volume("left") == pytest.approx(1_200_000 - 185 * 20 * 7, abs=0.1)


def test_tongue_is_bare_faced_flush_with_the_named_face():
    case = trial(CASE % ", tongue: 12, flush: bottom, fat: 0.4")
    # Tongue of 12 from the shelf's lower face: the dado lies from 100 to 112.
    assert case.marks("left") == [(100.0, -1), (112.0, 1)]
    assert case.volume("shelf") == pytest.approx(460 * 4000 + 2 * 7 * 200 * 12, abs=0.1)
    thickness = next(s for s in case.sizes("shelf", "tongue") if s.authority is Authority.FIT)
    assert float(thickness.value) == 12 and float(thickness.over) == 0.4
    assert case.inside("shelf", (15.0, 100.0, 106.0)) and not case.inside("shelf", (15.0, 100.0, 116.0))
    assert case.clashes() == []


def test_tongue_is_centred_without_a_flush_face():
    case = trial(CASE % ", tongue: 12")
    assert case.marks("left") == [(104.0, -1), (116.0, 1)]


@pytest.mark.parametrize(("depth", "tongue"), [(5, 9), (8, 14)])
def test_each_number_moves_the_solids(depth, tongue):
    case = trial((CASE % f", tongue: {tongue}").replace("depth: 7", f"depth: {depth}"))
    assert case.volume("left") == pytest.approx(1_200_000 - tongue * 200 * depth, abs=0.1)
    assert case.volume("shelf") == pytest.approx(460 * 4000 + 2 * depth * 200 * tongue, abs=0.1)


def test_upright_divider_enters_shelves_below_and_above():
    body = """
    parts:
      low: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [0, 20]}}
      high: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [200, 220]}}
      divider: {of: board, grain: up, box: {across: [150, 170], deep: [0, 200], up: [low.top, high.bottom]}}
    joints:
      - housing: {shelf: divider, into: [low, high], depth: 5, stop: {front: 20}}
    """
    case = trial(body)
    assert case.marks("low") == case.marks("high") == [(150.0, -1), (170.0, 1)]
    assert [f.made.allowances[0].face for f in case.features("divider", "tongue")] == [Face(0, 0), Face(0, 1)]
    assert case.clashes() == []


def test_housing_in_turned_parts_is_cut_from_their_placements():
    # The same case leaning back by 20 degrees as one: what is cut stays the same.
    turn = ", turn: {about: across, at: {deep: 0, up: 0}, by: 20 deg}}"
    body = (CASE % ", stop: {front: 15}").replace("}}\n", "}" + turn + "\n", 3)
    straight, leaning = trial(CASE % ", stop: {front: 15}"), trial(body)
    assert leaning.part("left").turned
    for path in ("left", "right", "shelf"):
        assert leaning.volume(path) == pytest.approx(straight.volume(path), abs=1e-3)
    assert leaning.marks("left") == straight.marks("left")
    assert leaning.clashes() == []


def test_inches_stay_exact():
    body = """
    parts:
      side: {of: board, grain: up, box: {across: [0, 13/16], deep: [0, 16], up: [22, 28 1/2]}}
      shelf: {of: board, grain: across, box: {across: [13/16, 20], deep: [3/4, 15 3/4], up: [22 3/8, 23 3/16]}}
    joints:
      - housing: {shelf: shelf, into: side, depth: 1/4, tongue: 1/2, flush: bottom, stop: {front: 3/4}, through: back, fat: 1/64}
    """
    case = trial(body, units="inch", thick="13/16")
    # From the side's lower end: 22 3/8 − 22 = 3/8 to 7/8; full width from 3/4 + 3/4 behind the front, arc to 1 1/4.
    assert case.marks("side") == [(9.525, -1), (22.225, 1)]  # mm
    assert size_of(case.sizes("side", "dado"), "start") == pytest.approx(1.25 * INCH)
    assert all(not isinstance(v, float) for _, v in case.features("side")[0].parameters)


def test_shelf_that_does_not_reach_is_told_with_the_gap():
    found = one_problem((CASE % "").replace("left.right, right.left", "left.right, right.left - 3"))
    assert found.code == "parts-do-not-meet" and "3 mm away from right" in found.message


def test_shelf_that_runs_into_the_side_is_told():
    found = one_problem((CASE % "").replace("left.right, right.left", "left.right, right.left + 2"))
    assert "2 mm into right" in found.message


def test_stop_that_is_no_end_of_the_housing_is_told():
    assert {p.code for p in [one_problem((CASE % ", stop: {top: 5}").replace("[left, right]", "left"))]} == {
        "stop-face"
    }


def test_part_that_lies_flat_is_told():
    body = """
    parts:
      low: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [0, 20]}}
      pad: {of: board, grain: across, box: {across: [50, 200], deep: [50, 150], up: [20, 40]}}
    joints:
      - housing: {shelf: pad, into: low, depth: 5}
    """
    assert one_problem(body).code == "housing-flat"


def test_a_shelf_at_the_end_of_a_side_lies_in_a_rabbet():
    case = trial(CASE.replace("up: [100, 120]", "up: [280, 300]") % "")
    for side in ("left", "right"):
        (cut,) = case.part(side).features
        assert (cut.word, cut.title) == ("rabbet", "rabbet for shelf")
        assert case.marks(side) == [(280.0, -1)]
        assert case.volume(side) == pytest.approx(1_200_000 - 28_000, abs=0.1)
    assert case.clashes() == []
    thinner = trial(CASE.replace("up: [100, 120]", "up: [280, 300]") % ", tongue: 12, flush: top, fat: 0.5")
    (tongue,) = {f.made.settings[0].mate for f in thinner.features("shelf", "tongue")}
    assert tongue == "rabbet"


def test_a_trench_that_the_file_sets_at_an_end_is_a_rabbet():
    board = trial(
        """
        parts:
          side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
        operations:
          - dado: {part: side, face: right, run: deep, span: [0, 20], depth: 7}
          - dado: {part: side, face: right, run: deep, span: [100, 120], depth: 7}
        """
    )
    assert [f.title for f in board.part("side").features] == ["rabbet", "dado (housing)"]
