from fractions import Fraction

import pytest

from docgen.piece.joints.panel_in_frame import called, chain
from docgen.piece.model import Material
from docgen.piece.records import Face
from tests.piece.joints.making import one_problem, problems, size_of, trial
from tests.support.pieces import part

# Two sides and a shelf; a 6 mm back from 8 inside the sides' outer faces, its rear flush with theirs.
BACK = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [480, 500], deep: [0, 200], up: [0, 300]}}
  back: {of: thin, grain: up, authority: measure first,
    box: {across: [11, 489], deep: [194, 200], up: [%s]}}
joints:
  - panel in rabbet: {panel: back, into: [left, right], gap: 1%s}
"""


def test_rabbets_are_cut_where_the_back_stands():
    case = trial(BACK % ("0, 300", ""))
    (rabbet,) = case.features("left", "rabbet")
    # The back reaches 9 into the 20 of the side; with a gap of 1 the rabbet goes 10 into the thickness, 6 along.
    assert size_of(list(rabbet.made.sizes), "into") == 10
    assert size_of(list(rabbet.made.sizes), "on") == 6
    for side in ("left", "right"):
        assert case.volume(side) == pytest.approx(1_200_000 - 10 * 6 * 300, abs=0.1)
    assert case.clashes() == []
    assert case.joint("panel in rabbet").parts == ("back", "left", "right")


def test_rabbets_run_through_unless_they_are_to_stop():
    through = trial(BACK % ("50, 300", ""))
    assert through.volume("left") == pytest.approx(1_200_000 - 10 * 6 * 300, abs=0.1)
    stopped = trial(BACK % ("50, 300", ", stopped: yes"))
    # From 49, a gap below the back, to the top: 251 long.
    assert stopped.volume("left") == pytest.approx(1_200_000 - 10 * 6 * 251, abs=0.1)


@pytest.mark.parametrize(("low", "into"), [("13", 8), ("15", 6)])
def test_moving_the_back_moves_the_rabbet(low, into):
    case = trial((BACK % ("0, 300", "")).replace("[11,", f"[{low},"))
    assert case.volume("left") == pytest.approx(1_200_000 - into * 6 * 300, abs=0.1)


def test_back_that_misses_a_side_is_told():
    found = one_problem((BACK % ("0, 300", "")).replace("[11,", "[30,"))
    assert found.code == "panel-misses" and "does not reach into left" in found.message


def test_panel_inside_the_part_is_no_rabbet():
    found = one_problem((BACK % ("0, 300", "")).replace("[194, 200]", "[150, 156]").replace("[left, right]", "left"))
    assert found.code == "panel-misses" and "groove" in found.message


# A box: two sides and a front 20 thick, a 6 mm bottom that enters each by 8.
BOX = """
parts:
  left: {of: board, grain: deep, box: {across: [0, 20], deep: [0, 300], up: [0, 100]}}
  right: {of: board, grain: deep, box: {across: [380, 400], deep: [0, 300], up: [0, 100]}}
  front: {of: board, grain: across, box: {across: [20, 380], deep: [0, 20], up: [0, 100]}}
  bottom: {of: thin, grain: across, box: {across: [12, 388], deep: [12, 300], up: [%s]}}
joints:
  - panel in groove: {panel: bottom, into: [left, right, front], clearance: 1}
"""


def test_grooves_are_cut_where_the_bottom_stands():
    box = trial(BOX % "10, 16")
    (groove,) = box.features("left", "dado")
    # 8 reached in, 1 deeper; 6 wide, from 10 above the lower edge.
    assert dict(groove.parameters)["depth"] == 9
    assert size_of(list(groove.made.sizes), "low") == 10
    assert groove.title == "groove for bottom"
    assert box.volume("left") == pytest.approx(300 * 100 * 20 - 300 * 6 * 9, abs=0.1)
    assert box.volume("front") == pytest.approx(360 * 100 * 20 - 360 * 6 * 9, abs=0.1)
    assert box.clashes() == []


def test_groove_at_the_edge_is_told_to_be_a_rabbet():
    found = one_problem((BOX % "0, 6").replace("[left, right, front]", "left"))
    assert found.code == "panel-misses" and "rabbet" in found.message


# A frame of rails 40 wide and 20 thick round a 6 mm panel; outside 400 × 300.
FRAME = """
parts:
  left: {of: board, grain: up, box: {across: [0, 40], deep: [0, 20], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [360, 400], deep: [0, 20], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 20], up: [260, 300]}}
  bottom: {of: board, grain: across, box: {across: [0, 400], deep: [0, 20], up: [0, 40]}}
  pane: {of: thin, grain: across, box: {across: [32, 368], deep: [14, 20], up: [32, 268]}}
joints:
  - panel in frame: {panel: pane, frame: [left, top, right, bottom], clearance: 2}
"""


def test_frame_tells_the_chain_of_sizes():
    frame = trial(FRAME)
    (pane,) = frame.piece.panes
    told = {name: float(v) for name, v, _ in pane.figures}
    # Panel 336 × 236; opening + 2 × 2; the rabbet goes 10 into the 40 of the rail; sight − 2 × 10; outside + 2 × 40.
    assert [told[f"{n} long"] for n in ("panel", "opening", "sight", "outside")] == [336, 340, 320, 400]
    assert [told[f"{n} wide"] for n in ("panel", "opening", "sight", "outside")] == [236, 240, 220, 300]
    assert [float(r) for r in pane.rabbet] == [10, 6]
    (rabbet,) = frame.features("left", "rabbet")
    assert (rabbet.made.sizes[0].value, rabbet.made.sizes[1].value) == (6, 10)
    assert frame.volume("left") == pytest.approx(300 * 40 * 20 - 300 * 10 * 6, abs=0.1)


@pytest.mark.parametrize(
    ("sheet", "word"), [("float glass", "pane"), ("acrylic sheet (PMMA)", "pane"), ("MDF", "panel"), ("slate", "panel")]
)
def test_only_glass_and_the_like_is_called_a_pane(sheet: str, word: str):
    panel = part("in", ((0, 300), (0, 4), (0, 200)), material=Material("thin", Fraction(4), sheet=sheet))
    assert called(panel) == word
    assert chain((300, 200), clearance=1, rabbet_on=8, stock=(None, None), word=called(panel))[0][0] == f"{word} long"


def test_rabbet_of_a_frame_is_cut_into_the_thickness():
    frame = trial(FRAME)
    cut = frame.features("left", "rabbet")[0].made.cuts[0]
    assert cut is not None
    # In the left rail's axes the pane lies at the back face and at the edge that looks right.
    left = frame.part("left")
    assert left.face("back").axis == 2 and left.face("right") == Face(1, 1)
    assert not frame.inside("left", (35.0, 17.0, 150.0)) and frame.inside("left", (35.0, 10.0, 150.0))


LAYERED = """
parts:
  left: {of: board, grain: up, box: {across: [0, 40], deep: [0, 20], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [360, 400], deep: [0, 20], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [40, 360], deep: [0, 20], up: [250, 300]}}
  bottom: {of: board, grain: across, box: {across: [40, 360], deep: [0, 20], up: [0, 60]}}
  pane: {of: thin, grain: up, box: {across: [32, 368], deep: [8, 14], up: [52, 258]}}
joints:
  - panel in frame: {panel: pane, frame: [left, top, right, bottom], clearance: 2, depth: %s, from: back, stopped: yes}
"""


def test_a_deeper_rabbet_leaves_room_behind_the_pane() -> None:
    frame = trial(LAYERED % 12)
    # 10 from the inner edges, 12 deep; in the stiles from 50 to 260, in the rails right through.
    assert frame.volume("left") == pytest.approx(300 * 40 * 20 - 210 * 10 * 12, abs=0.1)
    assert frame.volume("bottom") == pytest.approx(320 * 60 * 20 - 320 * 10 * 12, abs=0.1)
    (pane,) = frame.piece.panes
    assert pane.rabbet == (10, 12)
    told = {name: float(value) for name, value, _ in pane.figures}
    # The pane is 206 long and 336 wide: rails of 50 and 60 beyond a sight of 190, stiles of 40 beyond 320.
    assert (told["sight long"], told["outside long"]) == (190, 300)
    assert (told["sight wide"], told["outside wide"]) == (320, 400)


def test_a_pane_off_the_rabbets_floor_is_told() -> None:
    (problem, *_) = problems(LAYERED % 11)
    assert problem.code == "panel-misses" and "floor of a rabbet" in problem.message


def test_no_outside_is_told_of_a_frame_that_goes_on() -> None:
    body = (LAYERED % 12).replace("up: [0, 300]", "up: [-200, 300]")
    told = {name for name, _, _ in trial(body).piece.panes[0].figures}
    assert "outside wide" in told and "outside long" not in told
