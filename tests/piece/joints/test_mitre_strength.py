from math import sqrt

import pytest

from docgen.piece.records import Authority, Stage
from tests.piece.joints.making import problems, size_of, trial

# The top corner of a case: a side of 200 mm depth and a top, 20 thick; outer arris at (0, 300), heel at (20, 280).
CORNER = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [280, 300]}}
joints:
  - mitre: {parts: [side, top], %s}
"""
KEYS = "keys: {count: 3, thickness: 2, depth: 15}"
WHOLE = {"side": 300 * 20 * 200 - 200 * 200, "top": 400 * 20 * 200 - 200 * 200}


def test_keys_are_sawn_through_both_parts_after_glue_up():
    case = trial(CORNER % KEYS)
    for path in ("side", "top"):
        (slots,) = case.features(path, "key slots")
        assert slots.stage is Stage.GLUED
        # The slot is a triangle of legs 15·√2; each part has half of it beside its mitre: 15² / 2.
        assert case.volume(path) == pytest.approx(WHOLE[path] - 3 * 2 * 15 * 15 / 2, rel=1e-6)
        assert case.volume(path, Stage.PART) == pytest.approx(WHOLE[path], rel=1e-9)
    # Equal wood: (200 − 6) / 4 = 48.5; middles at 49.5, 100, 150.5.
    told = dict(case.features("side", "key slots")[0].parameters)
    assert (float(told["first"]), float(told["step"])) == (49.5, 50.5)
    d = 14.9 / sqrt(2)
    assert not case.inside("side", (d - 0.05, 100.0, 300 - d - 0.1))
    assert case.inside("side", (d + 0.2, 100.0, 300 - d - 0.5))
    assert case.inside("side", (1, 98.0, 295))
    assert case.clashes() == []
    assert case.figure("mitre", "keys") == 3


def test_keys_are_listed_and_their_set_up_is_a_cradle():
    case = trial(CORNER % KEYS)
    (item,) = case.piece.items
    assert (item.what, item.size, item.count) == ("key for a mitred corner", "2 × 15 × 30 mm", 3)
    assert item.authority is Authority.CUT
    (setting,) = case.features("top", "key slots")[0].made.settings
    assert "cradle" in setting.what and {n: v for n, v, _ in setting.values}["kerf"] == 2
    sizes = case.sizes("top", "key slots")
    assert (size_of(sizes, "depth"), size_of(sizes, "thickness"), size_of(sizes, "step")) == (15, 2, 50.5)


def test_a_spline_lies_where_most_wood_stays():
    case = trial(CORNER % "spline: {thickness: 4, depth: 6}")
    (groove,) = case.features("side", "groove in a cut")
    told = {k: float(v) for k, v in groove.parameters}
    # Along the cut of 20·√2: 3 to the inside u/√2 ≥ 3, to the outside (28.284 − u − 6)/√2 ≥ 3.
    low, high = 3 * sqrt(2), 20 * sqrt(2) - 6 - 3 * sqrt(2)
    assert (low + high - 4) / 2 == pytest.approx(9.14, abs=0.01) and told["out"] == 9
    for path in ("side", "top"):
        assert case.volume(path) == pytest.approx(WHOLE[path] - 4 * 6 * 200, rel=1e-6)
    (item,) = case.piece.items
    assert (item.what, item.size) == ("spline", "4 × 11.5 × 200 mm")
    # Both halves of the groove lie opposite each other.
    u = told["out"] + 2
    x, z = 20 - u / sqrt(2), 280 + u / sqrt(2)
    k = 5 / sqrt(2)
    assert not case.inside("side", (x - k, 100, z - k)) and not case.inside("top", (x + k, 100, z + k))
    assert case.clashes() == []


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("keys: {count: 3, thickness: 2, depth: 30}", "keys-break-through"),
        ("keys: {count: 70, thickness: 3, depth: 10}", "keys-crowded"),
        ("spline: {thickness: 4, depth: 16}", "spline-no-room"),
        ("spline: {thickness: 4, depth: 6, from heel: 1}", "spline-no-room"),
    ],
)
def test_what_leaves_no_wood_is_told(said, code):
    assert {p.code for p in problems(CORNER % said)} == {code}


def test_keys_of_an_open_frame_run_across_its_thickness():
    frame = """
    parts:
      left: {of: board, grain: deep, box: {across: [0, 60], deep: [0, 300], up: [0, 20]}}
      back: {of: board, grain: across, box: {across: [0, 400], deep: [240, 300], up: [0, 20]}}
    joints:
      - mitre: {parts: [left, back], keys: {count: 1, thickness: 3, depth: 30}}
    """
    frame = trial(frame)
    assert not frame.inside("left", (5, 290, 10)) and frame.inside("left", (5, 290, 5))
    assert frame.volume("left") == pytest.approx(300 * 60 * 20 - 60 * 60 / 2 * 20 - 3 * 30 * 30 / 2, rel=1e-6)
