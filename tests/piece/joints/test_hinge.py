import pytest

from docgen.geometry.shapes import turned
from docgen.piece.records import Authority, Purpose
from tests.piece.joints.making import problems, trial

# A lid 12 thick on the back of a box, 1 above it; barrels behind.
LID = """
parts:
  back: {of: board, grain: across, box: {across: [0, 300], deep: [188, 200], up: [0, 100]}}
  lid: {of: board, grain: across, box: {across: [0, 300], deep: [0, %s], up: [%s, %s + 12]}}
joints:
  - hinge: {turns: lid, on: back, barrel at: %s, at: %s, opens: 100,
      hinge: {length: 40, leaf: 12, thickness: 1.5, barrel: 5, out: 3, screw: 10, gauge: %s}}
"""
SAID = LID % (200, 101, 101, "back", "[{across: 60}, {across: 240}]", 4)

# An inset door beside a case's side, hung at its left; barrels in front.
DOOR = """
parts:
  side: {of: board, grain: up, box: {across: [0, 12], deep: [0, 200], up: [0, 500]}}
  door: {of: board, grain: up, box: {across: [14, 300], deep: [0, 12], up: [2, 498]}}
joints:
  - hinge: {turns: door, on: side, barrel at: front, at: [{up: 80}, {up: 420}], opens: 95,
      hinge: {length: 50, leaf: 12, thickness: 2, barrel: 6, out: 4, screw: 9}}
"""


def test_both_leaves_are_let_in_by_half_of_barrel_less_gap():
    box = trial(SAID, thick="12")
    for path in ("lid", "back"):
        (one, two) = box.features(path, "leaf recess")
        told = {k: float(v) for k, v in one.parameters}
        # (5 − 1) / 2 deep, 12 − 3 in from the edge; the middle at 60.
        assert told == {"start": 40, "length": 40, "width": 9, "depth": 2}
        assert dict(two.parameters)["start"] == 220
    assert not box.inside("back", (52, 195, 99)) and box.inside("back", (52, 195, 97.9))
    assert box.inside("back", (52, 190, 99)) and not box.inside("lid", (52, 195, 102))
    assert box.clashes() == []
    assert box.marks("back", "leaf recess") == [(40, -1), (80, 1), (220, -1), (260, 1)]


def test_screws_are_marked_through_the_hinge_and_listed():
    box = trial(SAID, thick="12")
    (row,) = box.holes("lid")
    assert (row.purpose, row.authority, len(row.points)) == (Purpose.PILOT, Authority.HARDWARE, 6)
    # Recess 2 and screw 10 less the leaf's 1.5; in the middle of the bed, 4.5 from the edge.
    assert float(row.depth) == 10.5
    assert sorted(round(float(p[0]), 2) for p in row.points)[:3] == pytest.approx([46.67, 60, 73.33])
    hinge, screws = box.piece.items
    assert (hinge.what, hinge.count) == ("butt hinge", 2) and hinge.where == "lid to back"
    assert hinge.size == "40 long, leaf 12 from the pin, 1.5 thick, barrel 5 mm"
    assert (screws.count, screws.size) == (12, "No. 4 × 10 mm")
    assert "a steel screw of the same size" in screws.note and "waxed" in screws.note


def test_the_lid_turns_up_about_the_pins():
    (group,) = trial(SAID, thick="12").piece.groups
    # 3 behind the back at 200, in the middle of the gap of 1 above 100.
    assert group.point == pytest.approx((60, 203, 100.5)) and group.axis == 0
    assert group.range == (-100, 0) and group.parts == ("lid",) and group.name == "lid"
    assert turned(0, -90.0, group.point).point((150, 0, 101))[2] > 290


def test_a_door_turns_out_of_its_case():
    case = trial(DOOR, thick="12")
    (group,) = case.piece.groups
    # In front of the case by 4, in the middle of the gap of 2.
    assert group.point == pytest.approx((13, -4, 80)) and group.axis == 2
    front = turned(2, float(max(group.range, key=abs)), group.point).point((300, 0, 250))
    assert front[1] < -250
    assert case.figure("hinge", "recess deep") == 2 and case.figure("hinge", "gap") == 2
    assert case.part("door").word(case.features("door", "leaf recess")[0].made.sizes[1].face) == "left"


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ((200, 108, 108, "back", "[{across: 60}]", 4), "hinge-apart"),
        ((200, 105, 105, "back", "[{across: 60}]", 4), "hinge-gap"),
        ((205, 101, 101, "back", "[{across: 60}]", 4), "hinge-not-level"),
        ((200, 101, 101, "back", "[{deep: 60}]", 4), "hinge-place"),
        ((200, 101, 101, "back", "[{across: 10}]", 4), "outside-part"),
        ((200, 101, 101, "back", "[{across: 60}]", 99), "unknown-hardware"),
    ],
)
def test_what_does_not_hang_is_told(said, code):
    assert code in {p.code for p in problems(LID % said, thick="12")}
