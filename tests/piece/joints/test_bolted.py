from math import pi, radians, tan

import pytest

from docgen.piece.records import Authority, Purpose
from docgen.reading.problems import Problems
from tests.piece.joints.making import INCH, built, one_problem, trial

# A side 13/16 thick with a leg 1 1/4 thick on its outside (left), inches.
LEG = """
parts:
  side: {of: side stock, grain: up, box: {across: [0, 13/16], deep: [0, 16], up: [22, 28 1/2]}}
  leg: {of: leg stock, grain: up, box: {across: [-1 1/4, 0], deep: [6, 8 1/2], up: [0, 27]}}
joints:
  - bolted: {through: side, into: leg, at: [{deep: 7, up: 26}, {deep: 7 1/2, up: 23}], thread: 1/4-20 UNC%s}
"""


def bolted(more: str = "", body: str = LEG):
    stock = """
materials:
  side stock: {species: black cherry, thickness: 13/16}
  leg stock: {species: sugar maple, thickness: 1 1/4}
"""
    return "docgen: 1\npiece: Trial\nunits: inch\n" + stock + body % more


def made(more: str = "", body: str = LEG):
    return built(bolted(more, body))


def test_lengths_are_worked_out():
    (screw,) = made(", washer: 1/16").piece.fasteners
    # Washer 1/16 + side 13/16 + 2 diameters 1/2 = 1 3/8; next in stock 1 1/2: 5/8 of thread in the leg.
    assert screw.grip == pytest.approx(13 / 16 * INCH)
    assert screw.length == pytest.approx(1.5 * INCH)
    assert screw.engagement == pytest.approx(0.625 * INCH)
    # One pitch more of full thread, then 4 pitches of the plug tap's lead: 5/8 + 1/20 + 4/20 = 7/8.
    assert screw.tapped_depth == pytest.approx(0.675 * INCH)
    assert screw.drill_depth == pytest.approx(0.875 * INCH)
    # The point of the #7 drill reaches 0.3 × 0.201 further: 1 1/4 − 7/8 − 0.0603.
    assert screw.wood_behind == pytest.approx((1.25 - 0.875 - 0.0603) * INCH)
    assert screw.thread == "1/4-20 UNC" and screw.count == 2


def test_holes_stand_where_they_were_said_on_both_parts():
    case = made()
    (clear,), (tap,) = case.holes("side"), case.holes("leg")
    # From the side's lower front corner: up 26 − 22 and 23 − 22, deep 7 and 7 1/2.
    assert [(p[0] / INCH, p[1] / INCH) for p in clear.points] == [
        pytest.approx((4, 7)), pytest.approx((1, 7.5))]  # fmt: skip
    assert [(p[0] / INCH, p[1] / INCH) for p in tap.points] == [
        pytest.approx((26, 1)), pytest.approx((23, 1.5))]  # fmt: skip
    assert clear.name == tap.name == "A" and (clear.mate, tap.mate) == ("leg", "side")
    assert (clear.purpose, tap.purpose) == (Purpose.CLEARANCE, Purpose.TAPPED)
    # One authority a hole: the side is drilled by its template, the leg is marked through the side.
    assert (clear.authority, tap.authority) == (Authority.CUT, Authority.MATE)
    assert (clear.drill, tap.drill) == ("17/64", "#7")
    assert clear.depth is None and tap.depth == pytest.approx(0.8725 * INCH)
    # Heads on the inside of the case, at 13/16 across.
    (screw,) = case.piece.fasteners
    assert screw.points[0] == pytest.approx((0.8125 * INCH, 7 * INCH, 26 * INCH))
    assert screw.direction == pytest.approx((-1, 0, 0))
    assert case.part("side").word(clear.face) == "right" and case.part("leg").word(tap.face) == "right"


def test_solids_have_the_holes():
    case = made(", washer: 1/16")
    r = 17 / 128
    assert case.volume("side") / INCH**3 == pytest.approx(13 / 16 * 16 * 6.5 - 2 * pi * r * r * 13 / 16, rel=1e-5)
    r = 0.2010 / 2
    blind = pi * r * r * 0.875 + pi * r * r * (r / tan(radians(59))) / 3
    assert case.volume("leg") / INCH**3 == pytest.approx(1.25 * 2.5 * 27 - 2 * blind, rel=1e-5)


@pytest.mark.parametrize(
    ("more", "length", "engagement"),
    [
        (", washer: 0", 1.5, 0.6875),  # 13/16 + 1/2 = 1 5/16
        (", washer: 1/16, engagement: 3/4", 1.75, 0.875),  # 1 5/8
        (", washer: 1/16, length: 1 3/4", 1.75, 0.875),
    ],
)
def test_each_figure_moves_the_length(more, length, engagement):
    (screw,) = made(more).piece.fasteners
    assert (screw.length / INCH, screw.engagement / INCH) == pytest.approx((length, engagement))


def test_through_holes_are_tapped_all_the_way():
    case = made(", blind: no")
    (tap,) = case.holes("leg")
    (screw,) = case.piece.fasteners
    assert tap.depth is None and screw.wood_behind is None
    assert screw.tapped_depth == screw.drill_depth == pytest.approx(1.25 * INCH)


def test_pairs_share_a_name():
    body = """
parts:
  left: {of: side stock, grain: up, box: {across: [0, 13/16], deep: [0, 16], up: [22, 28 1/2]}}
  right: {of: side stock, grain: up, box: {across: [30, 30 13/16], deep: [0, 16], up: [22, 28 1/2]}}
  left leg: {of: leg stock, grain: up, box: {across: [-1 1/4, 0], deep: [6, 8 1/2], up: [0, 27]}}
  right leg: {of: leg stock, grain: up, box: {across: [right.right, right.right + 1 1/4], deep: [6, 8 1/2], up: [0, 27]}}
joints:
  - bolted: {through: [left, right], into: [left leg, right leg], at: {deep: 7, up: 26}, thread: 1/4-20 UNC%s}
"""
    case = made("", body)
    assert [f.key for f in case.piece.fasteners] == ["A", "A"]
    assert {case.holes(p)[0].name for p in ("left", "right", "left leg", "right leg")} == {"A"}
    assert [f.direction[0] for f in case.piece.fasteners] == [-1, 1]


def test_turned_legs_are_met_on_their_face():
    # A leg that leans by 14 degrees in the plane of the side still lies flat on it.
    body = LEG.replace("up: [0, 27]}}", "up: [0, 27]}, turn: {about: across, at: {deep: 7 1/4, up: 26}, by: -14 deg}}")
    case = made("", body.replace("{deep: 7, up: 26}, {deep: 7 1/2, up: 23}", "{deep: 7 1/4, up: 26}"))
    (tap,) = case.holes("leg")
    # On the leg's middle line, 26 from its lower end.
    assert (tap.points[0][0] / INCH, tap.points[0][1] / INCH) == pytest.approx((26, 1.25))


def test_faults_are_told():
    assert one_problem_of(", fit: close", LEG.replace("1/4-20 UNC", "1/4-21 UNC")).code == "unknown-hardware"
    beside = one_problem_of("", LEG.replace("deep: 7, up: 26", "deep: 12, up: 26"))
    assert beside.code == "screw-beside-part"
    assert "as they stand, deep 6 in to 8 1/2 in, up 22 in to 27 in" in beside.hint
    apart = one_problem_of("", LEG.replace("[-1 1/4, 0]", "[-1 1/2, -1/4]"))
    assert apart.code == "parts-do-not-meet"
    assert one_problem_of("", LEG.replace("into: leg", "into: [leg, leg]")).code == "pairs-differ"
    assert one_problem_of("", LEG.replace("{deep: 7, up: 26}, ", "{up: 26}, ")).code == "place-needs-two"


def one_problem_of(more: str, body: str):
    with pytest.raises(Problems) as found:
        built(bolted(more, body))
    assert len(found.value.items) == 1
    return found.value.items[0]


def test_metric_screws_work_alike():
    body = """
    parts:
      side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 400]}}
      leg: {of: board, grain: up, box: {across: [-20, 0], deep: [50, 110], up: [0, 380]}}
    joints:
      - bolted: {through: side, into: leg, at: {deep: 80, up: 350}, thread: M6, washer: 0, engagement: 9}
    """
    (screw,) = trial(body).piece.fasteners
    # 20 + 9 = 29; in stock 30: 10 in the leg, 11 of full thread, drilled 15, point 0.3 × 5 more.
    assert (screw.length, screw.engagement, screw.drill_depth) == (30, 10, 15)
    assert screw.wood_behind == pytest.approx(20 - 15 - 1.5)
    assert one_problem(body.replace("M6", "M6.5")).code == "unknown-hardware"
