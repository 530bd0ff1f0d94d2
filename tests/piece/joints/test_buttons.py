import pytest

from docgen.piece.records import Authority, Purpose
from tests.piece.joints.making import problems, size_of, trial

# A top of maple (0.00353 a per cent, flat-sawn) 400 wide, grain across, on a front apron and a left one.
TABLE = """
parts:
  top: {of: board, grain: across, box: {across: [0, 600], deep: [0, 400], up: [500, 520]}}
  front: {of: board, grain: across, box: {across: [50, 550], deep: [30, 50], up: [410, 500]}}
  left: {of: board, grain: deep, box: {across: [30, 50], deep: [50, 350], up: [410, 500]}}
joints:
  - buttons: {top: top, aprons: %s, button: {length: 40, width: 25, thickness: 18, tongue: %s},
      slot: {width: 8, depth: %s}, spacing: 250, ends: 50, screw: %s%s}
"""
SAID = TABLE % ("[front, left]", 12, 12, 32, "")


def test_buttons_of_an_apron_along_the_grain_move_in_and_out():
    table = trial(SAID)
    # The front apron's middle, 40 deep, is 160 from the top's: 160 × 0.00353 × 4 = 2.26, rounded up to 2.5.
    (front, left) = [j for j in table.piece.joints if j.word == "buttons"]
    told = {n: float(v) for n, v, _ in front.figures}
    assert told["room to move, either way"] == pytest.approx(2.259, abs=1e-3)
    assert (told["between button and apron"], told["tongue in the slot"]) == (2.5, 9.5)
    # Three slots, 25 wide and a cutter's width more, their middle 18 − 7.5 + 1 + 4 = 15.5 under the top.
    slots = table.features("front", "mortise")
    assert len(slots) == 3
    assert size_of(slots[0].made.sizes, "length") == 33 and size_of(slots[0].made.sizes, "depth") == 12
    assert not table.inside("front", (100, 49, 484.5)) and table.inside("front", (100, 37, 484.5))
    assert table.inside("front", (100, 49, 489)) and table.inside("front", (100, 31, 484.5))
    assert left.parts == ("left", "top")


def test_buttons_of_an_apron_across_the_grain_slide_along_it():
    table = trial(SAID)
    # Its buttons stand 100 from the top's middle: 1.41 either way, 1.5 on a rule; 25 + 2 × 1.5 and the cutter's 8.
    lengths = [size_of(f.made.sizes, "length") for f in table.features("left", "mortise")]
    assert lengths == [36, 36]
    (left,) = [j for j in table.piece.joints if j.parts[0] == "left"]
    assert {n: v for n, v, _ in left.figures}["between button and apron"] == 0


def test_screws_are_marked_through_the_buttons_and_listed():
    table = trial(SAID)
    (row,) = table.holes("top")
    assert (row.purpose, row.authority, float(row.depth)) == (Purpose.PILOT, Authority.MATE, 14)
    # Front: 2.5 of gap and half of the block's 28 behind the apron's inner face at 50.
    assert {round(float(p[1]), 2) for p in row.points} >= {66.5}
    screws = table.piece.fasteners
    assert sum(f.count for f in screws) == len(row.points)
    assert {float(f.engagement) for f in screws} == {14} and {float(f.wood_behind) for f in screws} == {6}
    assert screws[0].direction == pytest.approx((0, 0, 1)) and screws[0].points[0][2] == 482
    # They travel with the top, from front to back.
    assert [abs(round(f.slot[1], 2)) for f in screws] == [2.26, 1.41]
    (item,) = table.piece.items
    assert (item.what, item.size) == ("button", "40 × 25 × 18, tongue 7.5 × 12 mm")
    assert item.count == len(row.points)


def test_one_groove_may_serve_all_buttons():
    table = trial(TABLE % ("front", 12, 12, 32, ", slots: groove"))
    (groove,) = table.features("front", "dado")
    told = {k: float(v) for k, v in groove.parameters}
    assert (told["start"], told["stop"]) == (25, 475)
    assert not table.inside("front", (300, 49, 484.5))


def test_a_top_of_sheet_goods_does_not_move():
    body = (TABLE % ("front", 12, 12, 32, "")).replace("top: {of: board", "top: {of: thin")
    table = trial(body, thick="20", thin="20")
    assert table.figure("buttons", "room to move, either way") == 0


@pytest.mark.parametrize(
    ("said", "code"),
    [
        (("front", 7, 12, 32, ""), "button-leaves-slot"),
        (("front", 14, 12, 32, ""), "button-bottoms"),
        (("front", 12, 12, 16, ""), "button-screw"),
        (("front", 12, 12, 45, ""), "button-screw"),
        (("front", 12, 12, 32, ", gauge: 99"), "unknown-hardware"),
        (("top", 12, 12, 32, ""), "parts-do-not-meet"),
    ],
)
def test_what_does_not_hold_is_told(said, code):
    assert {p.code for p in problems(TABLE % said)} == {code}


def test_more_swing_needs_longer_tongues():
    assert {p.code for p in problems(TABLE % ("front", 12, 12, 32, ", swing: 9"))} == {"button-leaves-slot"}


def test_a_buttons_side_is_printed_true_size():
    table = trial(SAID)
    patterns = {t for p in ("front", "left") for f in table.features(p, "mortise") for t in f.made.templates}
    (one,) = patterns
    corners = [e.end for e in one.outline.edges]
    assert corners == [(0, 0), (130, 0), (130, 18), (12, 18), (12, 7.5), (0, 7.5)]
    assert [(a[0], text) for a, _, text in one.lines] == [
        (26, "screw, 26 mm from the end"),
        (40, "saw off here, 40 mm from the end"),
    ]
    assert one.loose and "25 mm wide" in one.notes[0]
