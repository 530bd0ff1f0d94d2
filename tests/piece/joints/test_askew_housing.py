"""Housings that run askew: a sloping shelf between upright sides, by hand and against an independent CAD kernel."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from docgen.piece.records import SizeKind
from tests.piece.joints.making import Trial, one_problem, size_of, trial
from tests.support.kernel import kernel_blank, kernel_cut, volume

# Two upright sides 20 thick, 460 apart; a shelf 160 by 20 between them, turned by 15° about the line through its middle.
LECTERN = """
parts:
  left: {of: board, grain: up, show: left, box: {across: [0, 20], deep: [0, 300], up: [0, 700]}}
  right: {of: board, grain: up, show: right, box: {across: [480, 500], deep: [0, 300], up: [0, 700]}}
  shelf: {of: board, grain: across, show: top, box: {across: [20, 480], deep: [70, 230], up: [500, 520]},
    turn: {about: across, at: {deep: 150, up: 510}, by: 15 deg}}
joints:
  - housing: {shelf: shelf, into: [left, right], depth: 6%s}
"""
C, S = cos(radians(15)), sin(radians(15))


def corner(deep: float, up: float) -> tuple[float, float]:
    """Where a corner of the shelf's end lies once it is turned: +90° takes deep into up. (A turn in the plane.)"""
    return 150 + (deep - 150) * C - (up - 510) * S, 510 + (deep - 150) * S + (up - 510) * C


def told(case: Trial, path: str) -> dict[str, float]:
    sizes = case.sizes(path, "askew dado")
    return {name: size_of(sizes, name) for name in ("near", "start", "long", "wide", "depth", "angle")}


def test_the_figures_lay_out_the_dado_from_the_corner_of_the_shelf():
    case = trial(LECTERN % "")
    deep, up = corner(70, 500)  # the lower wall begins at the front
    for side in ("left", "right"):
        found = told(case, side)
        assert found["start"] == pytest.approx(deep)
        assert found["near"] == pytest.approx(up)
        assert (found["long"], found["wide"], found["depth"], found["angle"]) == (160, 20, 6, 15)
    assert case.features("shelf")[0].word == "tongue"


def test_the_sum_of_the_wood_in_an_independent_kernel():
    case = trial(LECTERN % "")
    left = case.part("left")
    shapes = [c.shape for f in left.features for c in f.made.cuts]
    solid = kernel_cut(kernel_blank((0, 0, 0), tuple(float(s) for s in left.size)), shapes)
    assert volume(solid) == pytest.approx(700 * 300 * 20 - 160 * 20 * 6)
    assert case.volume("shelf") == pytest.approx((460 + 12) * 160 * 20)
    assert case.clashes() == []
    for across in (14.1, 19.9, 480.1, 485.9):  # the tongue fills the dado to its floor
        for at in ((71, 501), (229, 501), (71, 519), (229, 519)):
            assert case.inside("shelf", (across, *corner(*at)))
        for beside in ((69, 501), (231, 519), (150, 499), (150, 521)):
            assert case.inside("left" if across < 240 else "right", (across, *corner(*beside)))
    assert case.inside("left", (13.9, *corner(71, 501))) and not case.inside("left", (14.1, *corner(71, 501)))


@pytest.mark.parametrize("by", [15, -15, 40, -60, 75, 105, 170])
def test_any_turn_closes_without_a_clash_or_air(by: int):
    case = trial(LECTERN.replace("15 deg", f"{by} deg") % "")
    assert case.clashes() == []
    for side in ("left", "right"):
        assert case.volume(side) == pytest.approx(700 * 300 * 20 - 160 * 20 * 6)
        (angle,) = [s for s in case.sizes(side, "askew dado") if s.kind is SizeKind.ANGLE]
        turn = abs(by) % 90
        assert float(angle.value) == pytest.approx(min(turn, 90 - turn))


def test_a_tongue_and_stops():
    case = trial(LECTERN % ", tongue: 10, flush: bottom, stop: {front: 12}")
    deep, up = corner(82, 500)
    found = told(case, "left")
    assert found["start"] == pytest.approx(deep) and found["near"] == pytest.approx(up)
    assert (found["long"], found["wide"]) == (148, 10)
    assert case.volume("left") == pytest.approx(700 * 300 * 20 - 148 * 10 * 6)
    assert case.clashes() == []
    assert case.volume("shelf") == pytest.approx(460 * 160 * 20 + 2 * 148 * 10 * 6)


def test_it_runs_out_where_it_is_said_and_where_the_shelf_does():
    through = trial(LECTERN % ", through: back")
    sizes = through.sizes("left", "askew dado")
    assert not [s for s in sizes if s.parameters == ("long",)]
    deep, _ = corner(70, 500)
    run = ((300 - deep) / C + (300 - (deep - 20 * S)) / C) / 2  # the middle of its two walls, each to the back edge
    assert through.volume("left") == pytest.approx(700 * 300 * 20 - run * 20 * 6)
    wide = trial(LECTERN.replace("deep: [70, 230]", "deep: [-10, 310]") % "")
    assert wide.volume("left") == pytest.approx(700 * 300 * 20 - 300 / C * 20 * 6)
    assert not [s for s in wide.sizes("left", "askew dado") if s.parameters in (("long",), ("start",))]


def test_an_edge_is_housed_askew_too():
    """A board on edge between the sides, its grain upright as theirs, turned about the line across."""
    case = trial(LECTERN.replace("of: board, grain: across, show: top", "of: board, grain: deep, show: top") % "")
    assert case.clashes() == []
    assert case.volume("left") == pytest.approx(700 * 300 * 20 - 160 * 20 * 6)


def test_a_shelf_that_is_turned_about_two_axes_is_told():
    body = LECTERN.replace(
        "turn: {about: across, at: {deep: 150, up: 510}, by: 15 deg}",
        "turn: [{about: across, at: {deep: 150, up: 510}, by: 15 deg}, {about: up, at: {across: 250, deep: 150}, by: 5 deg}]",
    )
    assert one_problem((body % "").replace("into: [left, right]", "into: left")).code == "housing-skew"


def test_a_shelf_that_is_too_short_is_told():
    found = one_problem((LECTERN % "").replace("across: [20, 480]", "across: [20, 478]"))
    assert found.code == "parts-do-not-meet" and "2 mm away" in found.message
