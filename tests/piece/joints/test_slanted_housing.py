"""Housings in parts that lean to the shelf: figures by hand, solids, sums of wood against an independent CAD kernel."""

from __future__ import annotations

from math import cos, radians, tan

import pytest
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.TopoDS import TopoDS_Shape

from docgen.piece.records import SizeKind, Stage
from docgen.schedules.terms import finished
from tests.piece.joints.making import Trial, one_problem, size_of, trial
from tests.support.by_hand import between_leaning, floor_further_on, housed_side, mouth_of_dado
from tests.support.kernel import kernel_blank, kernel_cut, placed, volume

# Two sides 20 thick whose inner faces are 460 apart at the floor and lean 10° toward each other; a tread 20 thick at 260.
STOOL = """
sizes: {lean: 10 deg, up: 260}
parts:
  left: {of: board, grain: up, show: left, box: {across: [0, 20], deep: [0, 200], up: [0, 400]},
    turn: {about: deep, at: {across: 20, up: 0}, by: lean}}
  right: {of: board, grain: up, show: right, box: {across: [480, 500], deep: [0, 200], up: [0, 400]},
    turn: {about: deep, at: {across: 480, up: 0}, by: -lean}}
  tread: {of: board, grain: across, show: top, box: {across: [20 + up * tan(lean), 480 - up * tan(lean)], deep: [0, 200],
    up: [up, up + 20]}}
joints:
  - housing: {shelf: tread, into: [left, right], depth: 6%s}
"""
WIDE, FALL = mouth_of_dado(20, 10), floor_further_on(6, 10)

# A rail on edge between the same sides: its ends slant across its width, and the dados are plain ones.
RAIL = STOOL.replace("deep: [0, 200],\n    up: [up, up + 20]", "deep: [90, 110], up: [up, up + 60]")

# Boards that stand upright, turned about the plumb line: they stand 460 apart in front and come nearer to the back.
PLAN = """
sizes: {lean: 8 deg}
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 400]},
    turn: {about: up, at: {across: 20, deep: 0}, by: -lean}}
  right: {of: board, grain: up, box: {across: [480, 500], deep: [0, 200], up: [0, 400]},
    turn: {about: up, at: {across: 480, deep: 0}, by: lean}}
  shelf: {of: board, grain: across, box: {across: [20, 480], deep: [0, 190], up: [100, 120]}}
joints:
  - housing: {shelf: shelf, into: [left, right], depth: 6%s}
"""


def own(case: Trial, path: str) -> TopoDS_Shape:
    """A finished part in its own axes, made of its cutters by the independent kernel."""
    part = case.part(path)
    spans = [part.span(i) for i in range(3)]
    low, high = [float(s[0]) for s in spans], [float(s[1]) for s in spans]
    shapes = [c.shape for f in part.features for c in f.made.cuts]
    return kernel_cut(kernel_blank((low[0], low[1], low[2]), (high[0], high[1], high[2])), shapes)


def air(case: Trial, low: tuple[float, float, float], high: tuple[float, float, float]) -> float:
    """What no part fills of a box in the piece, mm³."""
    left = kernel_blank(low, high)
    for part in case.piece.parts:
        left = BRepAlgoAPI_Cut(left, placed(own(case, part.path), part.frame)).Shape()
    return volume(left)


def test_the_figures_of_dado_and_tread_are_those_worked_by_hand():
    case = trial(STOOL % "")
    (dado,) = case.features("left")
    assert dado.title == "dado (housing) for tread"
    # Along the side from its foot: the tread's lower face meets the inner face 260 / cos 10° up.
    first = 260 / cos(radians(10))
    assert case.marks("left") == [(pytest.approx(first), -1), (pytest.approx(first + WIDE), 1)]
    (angle,) = [s for s in dado.made.sizes if s.kind is SizeKind.ANGLE]
    assert angle.value == 10
    assert size_of(dado.made.sizes, "depth") == 6
    told = {s.label: float(s.value) for s in case.sizes("tread", "tongue on a cut") if s.kind is SizeKind.LENGTH}
    assert float(finished(case.part("tread"))[0]) == pytest.approx(housed_side(between_leaning(460, 260, 10), 6, 10))
    assert told["short side"] == pytest.approx(housed_side(between_leaning(460, 280, 10), 6, 10))
    assert case.figure("housing", "lean") == 10
    assert case.joint("housing").closes in [(1, 0, 0), (-1, 0, 0)]


@pytest.mark.parametrize(
    "more",
    ["", ", stop: {front: 15}", ", tongue: 12", ", tongue: 12, flush: bottom, fat: 0.5, stop: {front: 15, back: 25}"],
)
@pytest.mark.parametrize("body", [STOOL, RAIL, PLAN])
def test_all_is_wood_in_the_joint_and_nothing_is_wood_twice(body: str, more: str):
    case = trial(body % (more if "stop" not in more or body != RAIL else ", tongue: 12, stop: {top: 10}"))
    assert case.clashes() == []
    for part in case.piece.parts:
        theirs = volume(own(case, part.path))
        assert case.volume(part.path) == pytest.approx(theirs, rel=1e-6)


@pytest.mark.parametrize("more", ["", ", tongue: 12", ", tongue: 12, flush: bottom, stop: {front: 15}"])
def test_the_tread_seats_whole_in_its_dado(more: str):
    """A window about the left joint, from 20 behind the front: no air in it."""
    case = trial(STOOL % more)
    x, z = 20 + 270 * tan(radians(10)), 270.0
    # Within the tread's thickness the joint is all wood from the side's outer face to 20 inside its inner one.
    assert air(case, (x - 12, 20, z - 9), (x + 12, 190, z + 9)) == pytest.approx(0, abs=1e-3)
    # The whole of the wood: sides and tread less what lies in the dados, counted once.
    dados = sum(1_600_000 - case.volume(p) for p in ("left", "right"))
    tread = case.volume("tread") - dados
    shoulders = (between_leaning(460, 260, 10) + between_leaning(460, 280, 10)) / 2 * 200 * 20
    assert tread == pytest.approx(shoulders, rel=1e-6)


def test_the_dado_takes_the_tread_and_no_more():
    for more, long in (("", 200), (", stop: {front: 15}", 185), (", stop: {front: 15, back: 20}", 165)):
        case = trial(STOOL % more)
        assert 1_600_000 - case.volume("left") == pytest.approx(WIDE * 6 * long, abs=0.1)
    thin = trial(STOOL % ", tongue: 12, flush: bottom")
    assert 1_600_000 - thin.volume("left") == pytest.approx(mouth_of_dado(12, 10) * 6 * 200, abs=0.1)


def test_a_stop_is_square_and_the_tongue_is_notched_to_it():
    case = trial(STOOL % ", stop: {front: 15}")
    assert size_of(case.sizes("left", "dado"), "start") == 15
    assert size_of(case.sizes("tread", "tongue on a cut"), "notch_low") == 15
    # What the notches take: 15 wide, 20 thick, 6 / cos 10° long, at both ends.
    whole = trial(STOOL % "")
    assert whole.volume("tread") - case.volume("tread") == pytest.approx(2 * 15 * 20 * 6 / cos(radians(10)), abs=0.1)


def test_fat_is_left_until_the_fitting():
    case = trial(STOOL % ", tongue: 12, flush: bottom, fat: 0.5")
    by = case.volume("tread", Stage.PART) - case.volume("tread")
    assert by == pytest.approx(2 * 0.5 * 200 * 6 / cos(radians(10)), abs=0.1)


def test_a_rail_on_edge_has_slanting_ends_in_plain_dados():
    case = trial(RAIL % "")
    (dado,) = case.features("left")
    assert dado.word == "dado"
    # Its box ends at the faces at its lower edge; at the floor of the dado the lower corner reaches 6 · sin 10° further down.
    low = 260 / cos(radians(10)) - FALL
    high = 320 / cos(radians(10))
    told = dict(dado.parameters)
    assert (told["low"], told["high"]) == (90, 110)
    assert sorted((float(told["start"]), float(told["stop"]))) == pytest.approx([low, high])
    assert case.clashes() == []
    long = housed_side(between_leaning(460, 260, 10), 6, 10)
    assert float(finished(case.part("tread"))[0]) == pytest.approx(long)


def test_boards_that_stand_askew_in_plan_take_a_shelf_in_plain_dados():
    case = trial(PLAN % "")
    for side in ("left", "right"):
        assert case.marks(side) == [(100.0, -1), (120.0, 1)]
    assert case.clashes() == []
    stopped = trial(PLAN % ", stop: {front: 15}, end: square")
    # 15 behind the shelf's front, measured across it; along the side that is 15 / cos 8°.
    assert size_of(stopped.sizes("left", "dado"), "start") == pytest.approx(15 / cos(radians(8)))
    assert stopped.clashes() == []


def test_a_tread_at_the_upper_end_of_leaning_sides_lies_in_a_rabbet():
    """The sides are cut level at the tread's upper face first."""
    body = STOOL.replace("up: 260", "up: 380").replace(
        "joints:\n", "joints:\n  - level ends: {part: [left], top: 400}\n"
    )
    body = body.replace("{part: [left], top: 400}", "{part: left, top: 400}\n  - level ends: {part: right, top: 400}")
    body = body.replace("up: [0, 400]", "up: [0, 420]")
    case = trial(body % "")
    for side in ("left", "right"):
        (cut,) = case.features(side, "rabbet")
        assert cut.title == "rabbet for tread"
        assert case.marks(side, "rabbet") == [(pytest.approx(380 / cos(radians(10))), -1)]
    assert case.clashes() == []
    x, z = 20 + 390 * tan(radians(10)), 390.0
    assert air(case, (x - 12, 1, z - 9), (x + 12, 199, z + 9)) == pytest.approx(0, abs=1e-3)


def test_an_upright_divider_between_boards_that_lean():
    body = """
    parts:
      low: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [0, 20]}}
      high: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [220, 240]},
        turn: {about: deep, at: {across: 0, up: 220}, by: 6 deg}}
      divider: {of: board, grain: up, box: {across: [150, 170], deep: [0, 200], up: [20, 220]}}
    joints:
      - housing: {shelf: divider, into: [low, high], depth: 5, stop: {front: 20}}
    """
    case = trial(body)
    assert [f.word for f in case.features("divider")] == ["tongue", "tongue on a cut"]
    assert [f.word for p in ("low", "high") for f in case.features(p)] == ["dado", "dado"]
    assert [s.kind for s in case.sizes("high", "dado")].count(SizeKind.ANGLE) == 1
    assert case.clashes() == []


def test_a_box_that_goes_too_far_is_cut_and_one_that_is_short_is_told():
    longer = (STOOL % "").replace("[20 + up * tan(lean), 480 - up * tan(lean)]", "[40, 460]")
    case, same = trial(longer), trial(STOOL % "")
    assert case.volume("tread") == pytest.approx(same.volume("tread"), rel=1e-9)
    assert case.marks("left") == [pytest.approx(m) for m in same.marks("left")]
    short = (STOOL % "").replace("480 - up * tan(lean)]", "478 - up * tan(lean)]")
    found = one_problem(short)
    assert found.code == "parts-do-not-meet" and "2 mm short" in found.message


def test_leaning_about_two_axes_is_told_with_what_to_do_instead():
    body = (STOOL % "").replace("by: lean}}", "by: lean}, {about: across, at: {deep: 0, up: 0}, by: 5 deg}]}")
    body = body.replace("turn: {about: deep, at: {across: 20,", "turn: [{about: deep, at: {across: 20,")
    found = one_problem(body)
    assert found.code == "housing-skew" and "more than one axis" in found.message


def test_mirrored_sides_have_the_same_dados():
    body = STOOL.replace(
        """  right: {of: board, grain: up, show: right, box: {across: [480, 500], deep: [0, 200], up: [0, 400]},
    turn: {about: deep, at: {across: 480, up: 0}, by: -lean}}
""",
        "",
    ).replace("joints:", "mirrors:\n  right: {of: left, about: {across: 250}}\njoints:")
    case, drawn = trial(body % ", stop: {front: 15}"), trial(STOOL % ", stop: {front: 15}")
    assert case.clashes() == []
    assert case.volume("right") == pytest.approx(drawn.volume("right"))
    assert case.marks("right") == [pytest.approx(m) for m in drawn.marks("right")]
