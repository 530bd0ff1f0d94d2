import pytest

from docgen.piece.records import Authority
from tests.piece.joints.making import one_problem, trial
from tests.support.steps import example

# An opening 400 wide between two uprights; a drawer 12.5 away from both; its front is 20 thick.
DRAWER = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 400], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [420, 440], deep: [0, 400], up: [0, 300]}}
  front: {of: board, grain: across, box: {across: [22, 418], deep: [0, 20], up: [102, 198]}}
  drawer left: {of: board, grain: deep, box: {across: [32.5, 52.5], deep: [20, 330], up: [110, 190]}}
  drawer right: {of: board, grain: deep, box: {across: [387.5, 407.5], deep: [20, 330], up: [110, 190]}}
joints:
  - side slides: {drawer: paper, parts: [front, drawer left, drawer right], front: front, sides: [drawer left, drawer right],
      cases: [left, right], opening: {across: [20, 420], deep: [20, 390], up: [100, 200]}, gap: 2,
      clearance: 12.5, length: 300, height: 45, up: %s, setback: 3, screws: [35, 163], least side: 12, most side: 16}
"""


def test_screw_rows_lie_on_the_slide_line():
    case = trial(DRAWER % "150")
    for part, face in (("left", "right"), ("right", "left"), ("drawer left", "left"), ("drawer right", "right")):
        (row,) = case.holes(part)
        assert row.authority is Authority.HARDWARE
        assert case.part(part).word(row.face) == face
    # On the uprights: 150 up, 20 + 3 + 35 and 20 + 3 + 163 deep.
    assert [(float(p[0]), float(p[1])) for p in case.holes("left")[0].points] == [(150, 58), (150, 186)]
    # On the drawer's side, from its front end at 20 and lower edge at 110.
    assert [(float(p[0]), float(p[1])) for p in case.holes("drawer left")[0].points] == [(38, 40), (166, 40)]
    assert case.marks("left") == [(150.0, 0)]
    assert case.marks("drawer left") == [(38.0, 0), (166.0, 0)]


def test_drawer_is_noted_with_what_the_sheet_asks():
    (drawer,) = trial(DRAWER % "150").piece.drawers
    told = {name: float(v) for name, v, _ in drawer.figures}
    assert (told["slide low"], told["slide high"]) == (127.5, 172.5)
    assert (told["slide front"], told["slide back"]) == (23, 323)
    # 400 less twice 12.5.
    assert told["box width"] == 375
    assert (told["side thickness"], told["least side"], told["most side"]) == (20, 12, 16)
    assert (float(drawer.clearance), float(drawer.slide_length), float(drawer.gap)) == (12.5, 300, 2)


@pytest.mark.parametrize("up", [140, 155])
def test_slide_line_moves_marks_and_rows(up):
    case = trial(DRAWER % up)
    assert case.marks("left") == [(float(up), 0)]
    assert {float(p[1]) for p in case.holes("drawer left")[0].points} == {up - 110}


def test_box_of_the_wrong_width_is_told():
    found = one_problem((DRAWER % "150").replace("[387.5, 407.5]", "[388.5, 408.5]"))
    assert found.code == "slide-room" and "11.5 mm from right" in found.message


@pytest.mark.parametrize("name", ["sides: [drawer left, drawer right", "cases: [left, right"])
def test_slides_come_in_pairs(name: str):
    found = one_problem((DRAWER % "150").replace(name, f"{name}, front"))
    assert found.code == "slides-two" and found.message == f"3 {name[:5]} are named"


def test_the_drill_for_a_slides_screws_is_one_of_the_shops_own_system():
    (row,) = trial(DRAWER % "150").holes("left")
    assert (row.drill, row.diameter, row.depth) == ("2 mm", 2, 8)
    for chart in (r for r in example("sketching-desk")[1].chart if r.hole.note.startswith("slide line")):
        assert chart.hole.drill == "5/64" and float(chart.hole.depth) == pytest.approx(25.4 * 5 / 16)
    (row,) = trial((DRAWER % "150").replace("setback: 3", "setback: 3, pilot: 3/32 in, pilot depth: 5")).holes("left")
    assert (row.drill, row.depth) == ("3/32", 5)
