import pytest

from docgen.piece.model import Sets
from tests.piece.joints.making import OPENING, one_problem, trial

# An opening 400 wide over a shelf 100 up; a drawer 1 away from both uprights that stands on it.
DRAWER = (
    OPENING
    + """\
  shelf: {of: board, grain: across, box: {across: [20, 420], deep: [0, 400], up: [80, 100]}}
  drawer left: {of: board, grain: deep, box: {across: [21, 41], deep: [20, 330], up: [100, 190]}}
  drawer right: {of: board, grain: deep, box: {across: [399, 419], deep: [20, 330], up: [100, 190]}}
joints:
  - drawer on wood: {drawer: paper, parts: [front, drawer left, drawer right], front: front, sides: [drawer left, drawer right],
      cases: [left, right], bed: shelf, opening: {across: [20, 420], deep: [20, 390], up: [100, 200]}, gap: 2}
"""
)
STOPPED = DRAWER.replace("gap: 2", "gap: 2, stops: {length: 40, height: 8}")


def test_the_drawer_is_noted_and_nothing_is_cut_or_bought():
    made = trial(DRAWER)
    (drawer,) = made.piece.drawers
    assert (drawer.bed, drawer.runners, float(drawer.slide_length), float(drawer.clearance)) == ("shelf", (), 310, 1)
    assert {n: float(v) for n, v, _ in drawer.figures}["room above"] == 10
    assert made.piece.joints == () and made.piece.items == () and made.piece.fasteners == ()
    assert all(not p.features for p in made.piece.parts)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("deep: [20, 330], up: [100, 190]", "deep: [20, 330], up: [101, 190]", "drawer-off-bed"),
        ("deep: [20, 330], up: [100, 190]", "deep: [20, 330], up: [100, 199]", "drawer-above"),
        ("[399, 419]", "[398, 418]", "drawer-room"),
        ("cases: [left, right]", "cases: [left, right, shelf]", "runners-two"),
    ],
)
def test_what_does_not_fit_is_told(old: str, new: str, code: str):
    assert one_problem(DRAWER.replace(old, new)).code == code


def test_room_above_may_be_asked_for():
    assert one_problem(DRAWER.replace("gap: 2", "gap: 2, above: 10.1")).code == "drawer-above"
    assert trial(DRAWER.replace("gap: 2", "gap: 2, above: 10")).piece.drawers
    # Two millimetres are usual.
    low = DRAWER.replace("deep: [20, 330], up: [100, 190]", "deep: [20, 330], up: [100, 198]")
    assert trial(low).piece.drawers


def test_blocks_behind_the_sides_fill_what_is_left_behind_the_box():
    made = trial(STOPPED)
    # The box ends at 330, the opening at 390.
    (blocks,) = made.piece.items
    assert (blocks.what, blocks.count, blocks.size, blocks.sets) == ("stop block", 2, "40 × 60 × 8 mm", Sets.LAST)
    assert blocks.where == "behind the sides of paper, on shelf"
    (drawer,) = made.piece.drawers
    assert {n: float(v) for n, v, _ in drawer.figures}["stop blocks"] == 60


def test_a_block_too_thin_to_hold_is_told():
    assert trial(STOPPED.replace("[20, 390]", "[20, 336]")).piece.items
    problem = one_problem(STOPPED.replace("[20, 390]", "[20, 335.9]"))
    assert problem.code == "drawer-stops" and problem.hint == "expected: at least 6 mm: a shorter box"
