from math import cos, pi, radians, sin, tan

import pytest

from docgen.piece.records import Authority, Purpose
from docgen.schedules.glueups import held
from tests.piece.joints.making import one_problem, trial

# A cleat 20 thick on the inside of a side, No. 8 screws (shank 4.1656, clearance 11/64 in, so 4.4 mm, pilot for hardwood).
CLEAT = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  cleat: {of: board, grain: deep, box: {across: [20, 40], deep: [10, 190], up: [100, 130]}}
joints:
  - screwed: {through: cleat, into: side, at: [{deep: 40, up: 115}, {deep: 160, up: 115}], gauge: 8, length: %s}
"""


def test_screws_go_through_one_part_into_the_other():
    case = trial(CLEAT % "32")
    (clear,), (pilot,) = case.holes("cleat"), case.holes("side")
    assert (clear.purpose, pilot.purpose, pilot.authority) == (Purpose.CLEARANCE, Purpose.PILOT, Authority.MATE)
    assert clear.drill == "4.4 mm" and clear.depth is None
    # 32 less the 20 of the cleat.
    assert float(pilot.depth) == 12
    # From the cleat's front end at 10 and lower edge at 100; from the side's lower end and front edge.
    assert [[float(c) for c in p[:2]] for p in clear.points] == [[30, 15], [150, 15]]
    assert [[float(c) for c in p[:2]] for p in pilot.points] == [[115, 40], [115, 160]]
    (screw,) = case.piece.fasteners
    assert (screw.count, float(screw.grip), float(screw.engagement), screw.thread) == (2, 20, 12, "No. 8")
    assert screw.points[0] == pytest.approx((40, 40, 115)) and screw.direction == pytest.approx((-1, 0, 0))
    assert clear.name == pilot.name == screw.key


def test_heads_are_countersunk_flush():
    case = trial(CLEAT % "32")
    # Cone of 82° from the head's 2 × 4.1656 down to the clearance hole of 4.4.
    r, wide = 2.2, 4.1656
    cone = (wide - r) / tan(radians(41))
    sunk = pi * cone / 3 * (wide * wide + wide * r + r * r) - pi * r * r * cone
    assert case.volume("cleat") == pytest.approx(180 * 30 * 20 - 2 * (pi * r * r * 20 + sunk), rel=5e-5)


def test_plugs_let_a_shorter_screw_reach():
    case = trial(CLEAT % "25, plug: {diameter: 10, depth: 8}")
    (screw,) = case.piece.fasteners
    # 12 of wood under the head; 25 − 12 = 13 in the side; the head lies 8 below the face.
    assert (float(screw.grip), float(screw.engagement)) == (12, 13)
    assert screw.points[0] == pytest.approx((32, 40, 115))
    r = 2.2
    bore = pi * 25 * 8 + pi * r * r * 12
    assert case.volume("cleat") == pytest.approx(180 * 30 * 20 - 2 * bore, rel=5e-5)


def test_short_screw_and_unknown_gauge_are_told():
    assert one_problem(CLEAT % "18").code == "screw-too-short"
    assert one_problem((CLEAT % "32").replace("gauge: 8", "gauge: 99")).code == "unknown-hardware"


# A cleat under a top whose grain runs across, so that it moves from front to back.
TOP = """
parts:
  top: {of: board, grain: across, box: {across: [0, 300], deep: [0, 200], up: [80, 100]}}
  cleat: {of: board, grain: deep, box: {across: [20, 50], deep: [10, 190], up: [60, 80]}}
joints:
  - screwed: {through: cleat, into: top, at: [{across: 35, deep: 40}, {across: 35, deep: 160}], gauge: 8, length: 32,
      slot: {run: deep, length: 12}%s}
"""


def test_slots_let_the_top_move():
    table = trial(TOP % "")
    slots = table.features("cleat", "slotted hole")
    assert [float(dict(f.parameters)["length"]) for f in slots] == [12, 12]
    # From the cleat's front end at 10: 30 and 150, each slot 12 long and 4.4 wide along the cleat.
    assert table.marks("cleat") == [(30, 0), (150, 0)]
    wide = 4.4
    area = (12 - wide) * wide + pi * wide**2 / 4
    assert table.volume("cleat") == pytest.approx(180 * 30 * 20 - 2 * area * 20, rel=5e-5)
    # 5.9 from the middle of a slot is air, 6.1 is wood: 46.1 deep.
    assert not table.inside("cleat", (35, 45.9, 70)) and table.inside("cleat", (35, 46.1, 70))
    (pilot,) = table.holes("top")
    # 32 less the 20 of the cleat and 1 of washer.
    assert (pilot.authority, pilot.depth, table.holes("cleat")) == (Authority.MATE, 11, [])
    (screw,) = table.piece.fasteners
    assert screw.what == "wood screw, round head" and screw.key == pilot.name
    # The heads lie on the cleat's lower face.
    assert screw.points[0] == pytest.approx((35, 40, 60)) and (float(screw.grip), screw.washer) == (20, 1)
    assert len(table.joint("screwed").features) == 3
    # It can travel half of 12 less its clearance, to either side, from front to back.
    assert tuple(map(abs, screw.slot)) == pytest.approx((0, (12 - wide) / 2, 0))


def test_plug_over_a_slot_is_told():
    assert one_problem(TOP % ", plug: {diameter: 10, depth: 8}").code == "plug-over-slot"


def test_plugs_are_listed():
    (item,) = trial(CLEAT % "25, plug: {diameter: 10, depth: 8}").piece.items
    assert (item.what, item.count, item.size) == ("plug", 2, "10 × 8 mm")
    assert trial(CLEAT % "32").piece.items == ()


# A board 20 thick that leans 10° about its lower inner arris, on an end whose front edge a taper has brought to that slope.
SLOPE = """
parts:
  end: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  side: {of: board, grain: across, box: {across: [0, 300], deep: [-20, 0], up: [0, 200]},
    turn: {about: across, at: {deep: 0, up: 0}, by: -10 deg}}
joints:
  - screwed: {through: side, into: end, at: [{across: 10, up: %s}], gauge: 8, length: 45}
operations:
  - taper: {part: end, face: front, end: top, run: 300, amount: 300 * tan(10 deg)}
"""


def test_a_leaning_board_is_screwed_to_the_slope_that_a_cut_left():
    case = trial(SLOPE % "100 * cos(10 deg)")
    (clear,) = case.holes("side")
    # 100 along the board from its lower edge; nothing is drilled in the end, whose pilots are drilled through these.
    assert [float(c) for c in clear.points[0][:2]] == pytest.approx([10, 100]) and clear.mate == "end"
    assert case.holes("end") == []
    (screw,) = case.piece.fasteners
    assert (float(screw.grip), float(screw.engagement), screw.parts) == (20, 25, ("side", "end"))
    assert any("drilled through these" in note for note in screw.notes)
    lean = radians(10)
    assert screw.direction == pytest.approx((0, cos(lean), -sin(lean)), abs=1e-9)
    # Its head lies 20 square off the slope.
    foot = (100 * sin(lean), 100 * cos(lean))
    assert screw.points[0] == pytest.approx((10, foot[0] - 20 * cos(lean), foot[1] + 20 * sin(lean)))
    assert held(case.piece, case.joint("screwed")) == "fastened" and case.clashes() == []


def test_a_screw_beside_the_slope_is_told():
    found = one_problem(SLOPE.replace("across: 10,", "across: 30,") % "100")
    assert found.code == "parts-do-not-meet"
