from tests.piece.joints.making import trial

CASE = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [280, 300]}}
  right: {of: board, grain: up, box: {across: [380, 400], deep: [0, 200], up: [0, 300]}}
  bottom: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [0, 20]}}
joints:
  - grain around: {parts: [%s], name: case, radius: 12}
"""


def test_run_knows_its_order_and_inner_faces():
    (run,) = trial(CASE % "left, top, right").piece.runs
    assert run.parts == ("left", "top", "right")
    assert run.inner == ("right", "bottom", "left")
    assert not run.closed and run.radius == 12


def test_four_boards_close_the_case():
    (run,) = trial(CASE % "left, top, right, bottom").piece.runs
    assert run.closed and run.inner == ("right", "bottom", "left", "top")
