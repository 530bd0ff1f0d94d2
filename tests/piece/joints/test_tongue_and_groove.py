import pytest

from docgen.piece.records import Authority, Stage
from tests.piece.joints.making import problems, size_of, trial

# Three boards of a cabinet's back, upright, 100 wide each, 2 apart so that they can swell.
BACK = """
parts:
  one: {of: board, grain: up, box: {across: [0, 100], deep: [0, 18], up: [0, 500]}}
  two: {of: board, grain: up, box: {across: [%s, 202], deep: [0, 18], up: [0, 500]}}
  three: {of: board, grain: up, box: {across: [204, 304], deep: [0, 18], up: [0, 500]}}
joints:
  - %s
"""
SAID = "tongue and groove: {boards: [one, two, three], thickness: 6, length: 8%s}"


def test_each_board_has_its_tongue_toward_the_next_and_room_to_swell():
    back = trial(BACK % (102, SAID % ""), thick="18")
    assert back.volume("one") == pytest.approx(500 * (100 * 18 + 8 * 6))
    assert back.volume("two") == pytest.approx(500 * (100 * 18 + 8 * 6 - 9.5 * 6))
    assert back.volume("three") == pytest.approx(500 * (100 * 18 - 9.5 * 6))
    assert back.volume("one", Stage.PART) == pytest.approx(500 * (100 * 18 + 8 * 6.5))
    assert back.clashes() == []
    # 6 of 8 enter the groove of 9.5: swelling by 2 closes the gap before the tongue bottoms.
    assert back.inside("one", (107.9, 9, 250)) and not back.inside("two", (107.9, 9, 250))
    assert not back.inside("two", (111.4, 9, 250)) and back.inside("two", (111.6, 9, 250))
    assert back.figure("tongue and groove", "gap") == 2
    (fit, _) = [s for p in ("one", "two") for s in back.sizes(p, "tongue") if s.authority is Authority.FIT]
    assert fit.value == 6
    (setting,) = back.features("one", "tongue")[0].made.settings
    assert setting.note.endswith("; fit each tongue to its groove")


def test_touching_boards_and_a_bare_faced_tongue():
    back = trial(BACK % (100, (SAID % ", flush: front, deeper: 1").replace(", three", "")), thick="18")
    assert back.inside("one", (105, 1, 250)) and not back.inside("one", (105, 7, 250))
    assert back.clashes() == []


@pytest.mark.parametrize(
    ("start", "said", "code"),
    [
        (120, SAID % "", "edges-do-not-meet"),
        (102, "tongue and groove: {boards: [one, three], thickness: 6, length: 8}", "edges-do-not-meet"),
        (102, SAID % ", flush: left", "flush-face"),
        (102, "tongue and groove: {boards: [one, two], thickness: 18, length: 8}", "tenon-too-thick"),
        (102, "spline: {boards: [one, three], thickness: 6, depth: 8}", "edges-do-not-meet"),
    ],
)
def test_boards_that_do_not_lie_side_by_side_are_told(start, said, code):
    assert {p.code for p in problems(BACK % (start, said), thick="18")} == {code}


def test_a_spline_lies_in_two_grooves_and_is_listed():
    top = trial(BACK % (100, "spline: {boards: [one, two], thickness: 6, depth: 10}"), thick="18")
    for path, wide in (("one", 100), ("two", 102)):
        assert top.volume(path) == pytest.approx(500 * (wide * 18 - 10 * 6))
        assert size_of(top.sizes(path, "dado"), "depth") == 10
    (item,) = top.piece.items
    assert (item.what, item.size, item.count) == ("spline", "6 × 19 × 500 mm", 1)
    assert not top.inside("one", (95, 9, 250)) and not top.inside("two", (105, 9, 250))


def test_a_spline_may_stop_before_the_ends_and_lie_off_the_middle():
    said = "spline: {boards: [one, two], thickness: 6, depth: 10, stopped: 30, flush: front, below: 4}"
    top = trial(BACK % (100, said), thick="18")
    assert top.inside("one", (95, 7, 10)) and not top.inside("one", (95, 7, 40))
    assert top.inside("one", (95, 3, 40)) and top.inside("one", (95, 11, 40))
    assert top.piece.items[0].size == "6 × 19 × 434 mm"  # the strip ends where the grooves' round ends begin
