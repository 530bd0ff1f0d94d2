import pytest

from docgen.geometry.shapes import turned
from docgen.piece.model import Sets
from docgen.piece.records import Authority, Purpose
from tests.piece.joints.making import one_problem, trial

# Cheeks 20 thick outside a frame 1.6 away from them; rails 60 wide.
PIVOT = """
parts:
  left cheek: {of: board, grain: up, box: {across: [-20, 0], deep: [350, 450], up: [600, 760]}}
  right cheek: {of: board, grain: up, box: {across: [500, 520], deep: [350, 450], up: [600, 760]}}
  left rail: {of: board, grain: deep, group: lid, box: {across: [1.6, 61.6], deep: [0, 480], up: [720, 740]}}
  right rail: {of: board, grain: deep, group: lid, box: {across: [438.4, 498.4], deep: [0, 480], up: [720, 740]}}
joints:
  - pivot:
      sleeve in: [left cheek, right cheek]
      bolt in: [left rail, right rail]
      at: {deep: 420, up: 730}
      thread: M6
      sleeve: {outside: 10, inside: 6}
      spacer: 1.6
      washer: 1.6
      swings: {name: lid, parts: [left rail, right rail], angle: 55 deg, lifts: %s}
"""


def test_sleeve_is_bored_in_one_part_and_the_bolt_locked_in_the_other():
    case = trial(PIVOT % "front")
    for hand in ("left", "right"):
        (bore,), (tap,) = case.holes(f"{hand} cheek"), case.holes(f"{hand} rail")
        assert (bore.purpose, float(bore.diameter), bore.depth) == (Purpose.BORE, 10, None)
        assert (tap.purpose, tap.authority, tap.mate) == (Purpose.TAPPED, Authority.MATE, f"{hand} cheek")
        # From the cheek's lower front corner 730 − 600 up and 420 − 350 deep; from the rail's front end 420.
        assert [float(c) for c in bore.points[0][:2]] == [130, 70]
        assert float(tap.points[0][0]) == 420
    # Washer 1.6 + cheek 20 + spacer 1.6 + 2 diameters 12 = 35.2: in stock 40, 16.8 in the rail.
    assert [(float(f.length), float(f.engagement)) for f in case.piece.fasteners] == [(40, pytest.approx(16.8))] * 2
    assert {(i.what, i.count) for i in case.piece.items} == {
        ("sleeve (plain bearing)", 2),
        ("washer, low friction", 2),
        ("thread lock", 1),
    }
    (lock,) = [i for i in case.piece.items if i.what == "thread lock"]
    assert lock.sets is Sets.BOLTED and lock.authority is Authority.CUT  # no sheet of its own rules a hole
    assert "none in the sleeve" in lock.note and "hard before anything hangs" in lock.note
    assert case.piece.fasteners[0].points[0] == pytest.approx((-20, 420, 730))


@pytest.mark.parametrize(("lifts", "swing"), [("front", (-55, 0)), ("back", (0, 55))])
def test_group_swings_to_the_side_that_is_lifted(lifts, swing):
    # Right-handed about across, + takes deep into up: the back rises.
    (group,) = trial(PIVOT % lifts).piece.groups
    assert group.range == swing
    assert group.axis == 0 and group.point == pytest.approx((1.6, 420, 730))
    # The lifted end of the rail goes up at that turn.
    tip = (30.0, 0.0 if lifts == "front" else 480.0, 730.0)
    assert turned(0, float(max(swing, key=abs)), group.point).point(tip)[2] > 730


def test_stays_are_bought_and_hold_the_group():
    case = trial(PIVOT % "front, stay: {kind: ratchet stay}")
    assert case.piece.groups[0].stays == (2, "ratchet stay")
    (item,) = [i for i in case.piece.items if i.what == "ratchet stay"]
    assert (item.count, item.authority, item.where) == (2, Authority.HARDWARE, "lid") and "what it holds" in item.note
    assert trial(PIVOT % "front").piece.groups[0].stays == (0, "")


@pytest.mark.parametrize(("lifts", "swing"), [("left", (0, 55)), ("right", (-55, 0))])
def test_group_may_swing_about_deep(lifts, swing):
    # The same pivots, their group said to turn about deep: + takes up into across, so the left rises.
    (group,) = trial(PIVOT % f"{lifts}, about: deep").piece.groups
    assert group.range == swing
    tip = (group.point[0] + (-100.0 if lifts == "left" else 100.0), 420.0, 730.0)
    assert turned(1, float(max(swing, key=abs)), group.point).point(tip)[2] > 730


def test_spacer_that_does_not_fill_the_gap_is_told():
    found = one_problem((PIVOT % "front").replace("left cheek, right cheek", "left cheek").replace("spacer: 1.6", "spacer: 2")
                        .replace("bolt in: [left rail, right rail]", "bolt in: left rail"))  # fmt: skip
    assert found.code == "pivot-misses" and "2 mm apart" in found.message


def test_sleeve_moves_the_bore():
    case = trial((PIVOT % "front").replace("outside: 10", "outside: 8"))
    assert {float(case.holes(f"{h} cheek")[0].diameter) for h in ("left", "right")} == {8}


def test_place_beside_a_part_is_told():
    found = one_problem((PIVOT % "front").replace("[left cheek, right cheek]", "left cheek")
                        .replace("bolt in: [left rail, right rail]", "bolt in: left rail").replace("deep: 420", "deep: 470"))  # fmt: skip
    assert found.code == "pivot-misses" and "does not lie on both" in found.message


def test_sleeves_and_washers_are_listed_with_their_sizes():
    sizes = {i.what: i.size for i in trial(PIVOT % "front").piece.items}
    # The standard M6 washer is 12 across (ISO 7089); the sleeve is as long as the cheek is thick.
    assert sizes["sleeve (plain bearing)"] == "6 inside × 10 outside × 20 mm long"
    assert sizes["washer, low friction"] == "for M6, 12 across × 1.6 mm thick"
    said = (PIVOT % "front").replace("inside: 6}", "inside: 6, length: 18, size: bronze}")
    assert next(i.size for i in trial(said).piece.items) == "6 inside × 10 outside × 18 mm long, bronze"


def test_bolts_are_bought_after_milling_told_by_material():
    assert {f.depends for f in trial(PIVOT % "front").piece.fasteners} == {("milling of board",)}
