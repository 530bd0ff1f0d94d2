import math

import pytest

from docgen.piece.records import BOTH, Authority, Face
from tests.piece.joints.making import problems, size_of, trial

# A box 300 × 200 × 110 of 12 mm boards; sides have tails, front and back pins.
# Four tails: (110 − 2 × 6 − 3 × 6) / 4 = 20, spacing 26.
BOX = """
parts:
  left: {of: board, grain: deep, box: {across: [0, 12], deep: [%s, 200], up: [0, 110]}}
  right: {of: board, grain: deep, box: {across: [288, 300], deep: [%s, 200], up: [0, 110]}}
  front: {of: board, grain: across, box: {across: [0, 300], deep: [0, 12], up: [0, 110]}}
  back: {of: board, grain: across, box: {across: [0, 300], deep: [188, 200], up: [%s, 110]}}
joints:
  - dovetail: {tails: [left, right], pins: %s, %s}
"""
THROUGH = BOX % (0, 0, 0, "[front, back]", "count: 4, slope: 1:8")
BLIND = BOX % (3, 3, 0, "front", "count: 4, slope: 1:6, pin: 8, half pin: 5")


def test_four_corners_of_a_box_are_cut_at_one_go_and_nothing_is_left_over():
    box = trial(THROUGH, thick="12")
    assert [j.parts for j in box.piece.joints] == [
        ("left", "front"), ("left", "back"), ("right", "front"), ("right", "back"),
    ]  # fmt: skip
    # Pins are 6 at the outside and 9 at the baseline, half pins 6 and 7.5.
    sockets = 12 * 12 * (3 * 7.5 + 2 * 6.75)
    assert box.volume("left") == pytest.approx(200 * 110 * 12 - 2 * sockets, abs=1e-3)
    # Tails are 20 at the end and 17 at the baseline.
    assert box.volume("front") == pytest.approx(300 * 110 * 12 - 2 * 4 * 12 * 12 * 18.5, abs=1e-3)
    assert box.clashes() == []
    # The corner's whole wood is there: both corners of a side together fill their boxes.
    corner = 12 * 12 * 110
    whole = 2 * (200 * 110 * 12) + 2 * (300 * 110 * 12) - 4 * corner
    assert sum(box.volume(p) for p in ("left", "right", "front", "back")) == pytest.approx(whole, abs=1e-2)


def test_layout_marks_and_who_rules():
    box = trial(THROUGH, thick="12")
    tails, pins = box.sizes("left", "corner joint"), box.sizes("front", "pins")
    assert size_of(tails, "low") == 6 and size_of(tails, "step") == 26
    assert size_of(pins, "first") == 6 and size_of(pins, "socket") == 20
    assert all(s.authority is Authority.CUT for s in tails)
    assert {s.label for s in pins if s.authority is Authority.MATE} >= {"half pin", "4× socket", "3× spacing"}
    assert box.marks("left") == [(12, BOTH), (188, BOTH)]
    assert box.marks("front") == [(12, BOTH), (288, BOTH)]
    assert box.figure("dovetail", "slope") == pytest.approx(math.degrees(math.atan(1 / 8)))
    assert "mark the pins from their tails" in box.features("front", "pins")[0].made.settings[0].note


def test_tails_that_stop_inside_the_front_are_half_blind():
    box = trial(BLIND, thick="12")
    assert box.figure("dovetail", "lap") == 3 and box.figure("dovetail", "length of the tails") == 9
    (pins, _) = box.features("front", "pins")
    assert dict(pins.parameters)["into"] == 9 and dict(pins.parameters)["deep"] == 12
    # Tails of (110 − 2 × 5 − 3 × 8) / 4 = 19, at the root 19 − 2 × 9 / 6 = 16.
    assert box.volume("front") == pytest.approx(300 * 110 * 12 - 2 * 4 * 9 * 12 * 17.5, abs=1e-3)
    assert box.clashes() == [("left", "back"), ("right", "back")]  # no joint is said there
    # The lap covers the tails from outside, where wood stands before them.
    assert box.inside("front", (6, 1, 55)) and box.inside("left", (6, 4, 14)) and not box.inside("front", (6, 4, 14))


def test_a_back_above_the_bottom_leaves_the_sides_whole_below_it():
    box = trial(BOX % (0, 0, 20, "back", "spacing: 24, slope: 8 deg"), thick="12")
    # (90 − 12 + 6) / 24 = 3.5: four tails of (90 − 12 − 18) / 4 = 15.
    assert box.figure("dovetail", "tails") == 4 and box.figure("dovetail", "tail at its end") == 15
    assert box.inside("left", (6, 195, 10)) and not box.inside("left", (6, 195, 23))
    assert ("left", "back") not in box.clashes()
    assert size_of(box.sizes("left", "corner joint"), "low_rest") == 20


def test_baseline_lies_on_the_outer_face_and_the_template_too():
    box = trial(THROUGH, thick="12")
    (feature, _) = box.features("left", "corner joint")
    left = box.part("left")
    assert {left.word(s.face) for s in feature.made.sizes if s.face} == {"left"}
    assert left.word(feature.made.templates[0].face) == "left"
    assert {s.face for s in box.sizes("front", "pins") if s.parameters == ("first",)} == {Face(0, 0), Face(0, 1)}


def test_hardwood_slope_and_a_chisel_between_the_tails_are_usual_in_inches():
    body = """
    parts:
      side: {of: board, grain: deep, box: {across: [0, 1/2], deep: [0, 8], up: [0, 4]}}
      front: {of: board, grain: across, box: {across: [0, 12], deep: [0, 1/2], up: [0, 4]}}
    joints:
      - dovetail: {tails: side, pins: front, count: 3}
    """
    box = trial(body, units="inch", thick="1/2", thin="1/4")
    assert box.figure("dovetail", "pin at its narrow side") == pytest.approx(25.4 / 4)
    assert box.figure("dovetail", "tail at its end") == pytest.approx(25.4)
    assert box.figure("dovetail", "slope") == pytest.approx(7.125, abs=1e-3)


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("count: 4, slope: 1:2", "dovetail-slope"),
        ("count: 4, slope: steep", "dovetail-slope"),
        ("slope: 1:8", "dovetail-layout"),
        ("count: 4, spacing: 20", "dovetail-layout"),
        ("count: 9, pin: 8", "comb-crowded"),
    ],
)
def test_what_cannot_be_laid_out_is_told(said, code):
    assert {p.code for p in problems(BOX % (0, 0, 0, "front", said), thick="12")} == {code}


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("deep: [0, 12], up: [0, 110]", "deep: [12, 24], up: [0, 110]", "stands out beyond the outer face"),
        ("across: [0, 300], deep: [0, 12]", "across: [12, 300], deep: [0, 12]", "do not overlap"),
        ("across: [0, 300], deep: [0, 12]", "across: [-5, 300], deep: [0, 12]", "not flush"),
    ],
)
def test_boards_that_stand_in_no_corner_are_told(old, new, why):
    body = BOX % (0, 0, 0, "front", "count: 4")
    (first, *_) = problems(body.replace(old, new), thick="12")
    assert first.code == "no-corner" and why in first.message


def test_a_box_that_leans_is_cut_alike():
    lean = ", turn: {about: across, at: {deep: 0, up: 0}, by: 12 deg}}"
    lines = [line.replace("}}", "}" + lean) if "grain" in line else line for line in THROUGH.splitlines()]
    straight, leaning = trial(THROUGH, thick="12"), trial("\n".join(lines), thick="12")
    for path in ("left", "back"):
        assert leaning.volume(path) == pytest.approx(straight.volume(path), abs=1e-3)
    assert leaning.clashes() == []
    assert leaning.figure("dovetail", "tail at its end") == 20


def test_the_corner_closes_along_the_pin_board():
    box = trial(THROUGH, thick="12")
    assert {tuple(map(abs, j.closes)) for j in box.piece.joints} == {(1.0, 0.0, 0.0)}
