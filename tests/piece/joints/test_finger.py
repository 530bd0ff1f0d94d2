import pytest

from docgen.trade.fingers import by_cutter
from tests.piece.joints.making import problems, size_of, trial

BOX = """
parts:
  left: {of: board, grain: deep, box: {across: [0, 12], deep: [0, 200], up: [0, %s]}}
  right: {of: board, grain: deep, box: {across: [288, 300], deep: [0, 200], up: [0, %s]}}
  front: {of: board, grain: across, box: {across: [0, 300], deep: [0, 12], up: [0, 99]}}
  back: {of: board, grain: across, box: {across: [0, 300], deep: [188, 200], up: [0, 99]}}
joints:
  - finger: {outer: [left, right], inner: [front, back], %s}
"""


def test_eleven_fingers_interlock_with_play_all_round():
    box = trial(BOX % (99, 99, "count: 11, play: 0.2"), thick="12")
    # A pitch of 9: sockets 9.1, fingers 8.9; the outer board has five sockets at each end.
    assert box.figure("finger", "socket, width of the cutter") == pytest.approx(9.1)
    assert box.volume("left") == pytest.approx(200 * 99 * 12 - 2 * 5 * 12 * 12 * 9.1)
    # The other board four inner sockets and two open ones, 9.1 and 9.
    assert box.volume("front") == pytest.approx(300 * 99 * 12 - 2 * 12 * 12 * (4 * 9.1 + 9.1 + 9))
    assert box.clashes() == []
    corner = 12 * 12 * 99
    # Each of the ten lines between the fingers is open by half the play, at all four corners.
    whole = 2 * (200 * 99 * 12) + 2 * (300 * 99 * 12) - 4 * corner
    left_over = whole - sum(box.volume(p) for p in ("left", "right", "front", "back"))
    assert left_over == pytest.approx(4 * 10 * 0.1 * 12 * 12, abs=0.1)


def test_a_cutter_gives_an_odd_count_and_the_last_finger_takes_the_rest():
    box = trial(BOX % (99, 99, "width: 8, play: 0"), thick="12")
    # 99 / 8 = 12.4: of thirteen the last would be 3 wide and break off; eleven leave it 99 − 10 × 8 = 19.
    assert (box.figure("finger", "fingers and sockets"), box.figure("finger", "last finger")) == (11, 19)
    assert box.clashes() == []
    # The other board's socket there is as wide, whichever way its width runs.
    low, high = (size_of(box.sizes("front", "corner joint"), name) for name in ("low", "high"))
    assert {low, high} == {8, 19}
    told = {s.label: s.value for s in box.sizes("front", "corner joint") if "open socket" in s.label}
    assert len(told) == 2 and set(told) <= {f"open socket, {side} edge" for side in ("bottom", "top")}


@pytest.mark.parametrize(("cutter", "count", "last"), [(9, 11, 9), (10, 9, 19), (12, 7, 27), (33, 3, 33)])
def test_count_by_the_cutter(cutter, count, last):
    plan = by_cutter(99, cutter, 0)
    assert (plan.count, plan.last) == (count, last)


def test_set_up_names_cutter_height_and_step():
    box = trial(BOX % (99, 99, "count: 11, cut with: dado set"), thick="12")
    (feature, _) = box.features("left", "corner joint")
    (setting,) = feature.made.settings
    told = {n: float(v) for n, v, _ in setting.values}
    assert setting.machine == "table saw" and told["height over the table"] == 12
    assert told["cutter"] == pytest.approx(9.05) and told["step from cut to cut"] == 18
    assert size_of(box.sizes("front", "corner joint"), "low") == pytest.approx(9.05)


@pytest.mark.parametrize(
    ("high", "said", "code"),
    [
        (99, "count: 10", "finger-odd"),
        (99, "count: 9, width: 11", "finger-layout"),
        (99, "play: 0.1", "finger-layout"),
        (80, "count: 9", "finger-uneven"),
        (99, "width: 60", "finger-few"),
    ],
)
def test_what_cannot_be_cut_is_told(high, said, code):
    assert {p.code for p in problems(BOX % (high, high, said), thick="12")} == {code}
