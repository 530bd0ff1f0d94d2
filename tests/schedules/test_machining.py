"""What a setting means at the machine, and how it is proved."""

from dataclasses import replace
from fractions import Fraction
from math import radians, tan

import numpy as np
import pytest

from docgen.piece.model import Part, Run
from docgen.piece.operations.glued_corner import GluedCorner
from docgen.piece.operations.mitre_slots import KeySlots
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.records import Allowance, Face, Made, Setting, Travel
from docgen.schedules.feeds import feed, leaving, on_table
from docgen.schedules.machining import notes, passes, steep, values
from docgen.schedules.proofs import proof
from docgen.schedules.risks import risk
from docgen.schedules.rows import SetupRow
from docgen.trade.cutters import WOOD_LEFT
from tests.support.pieces import INCH, feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
INCHES = Fraction(254, 10)


def bevel(tilt: float | Fraction) -> Setting:
    return Setting("table saw", "bevel", (("blade, from upright", tilt, "angle"),))


def gauge(swung: float) -> Setting:
    return Setting(
        "table saw", "mitre", (("gauge, from square", swung, "angle"), ("gauge, from the blade", 90 - swung, "angle"))
    )


def routed(*told: tuple[str, object, str], travel: Travel | None = None) -> Setting:
    return Setting("router", "cut", told, travel=travel)  # type: ignore[arg-type]


def test_the_blade_stands_a_little_above_the_wood() -> None:
    # 1/8 in above the work: a saw maker's manual; 3 mm is the same in millimetre shops
    assert values(piece(part("a", SIDE)), part("a", SIDE), bevel(45))[-1] == ("blade height", 23, "length")
    thick = part("a", ((0, INCHES), (0, 300), (0, 700)))
    assert values(piece(thick, units=INCH), thick, bevel(45))[-1][1] == INCHES * 9 / 8


def test_passes_by_half_the_bit_and_by_what_a_rabbet_takes() -> None:
    # common practice: dado 1/2 wide and 1/4 deep with one straight bit; a front rabbet 3/4 deep in two passes, the rear in one
    dado = (("straight bit", INCHES / 2, "length"), ("depth", INCHES / 4, "length"))
    assert passes(routed(*dado)) == 1
    assert passes(routed(dado[0], ("depth", INCHES / 4 + Fraction(1, 100), "length"))) == 2
    narrow = ("straight bit", INCHES / 4, "length")  # half its diameter, 1/8, is less than the most of any bit
    assert passes(routed(narrow, ("depth", INCHES / 8, "length"))) == 1
    assert passes(routed(narrow, ("depth", INCHES / 8 + Fraction(1, 100), "length"))) == 2
    assert passes(routed(narrow, ("depth", INCHES / 4, "length"))) == 2
    rabbet = ("rabbeting bit, into the thickness", INCHES * 3 / 8, "length")
    assert passes(routed(rabbet, ("depth", INCHES * 3 / 4, "length"))) == 2
    assert passes(routed(rabbet, ("depth", INCHES / 4, "length"))) == 1
    step = Travel(Face(2, 1), 0, (0, 0, 0), edge=Face(1, 1), deep=INCHES * 3 / 4)
    assert passes(routed(travel=step)) == 2
    assert passes(routed(("round-over bit, radius", INCHES / 4, "length"))) == 1
    assert passes(routed(("round-over bit, radius", INCHES / 4 + 1, "length"))) == 2
    assert passes(Setting("drill press", "hole", dado)) == 0


def test_an_angle_beyond_the_gauge_asks_for_a_sled() -> None:
    of = piece(part("a", SIDE))
    assert not steep(of, gauge(59.9))
    assert steep(of, gauge(60))
    names = [name for name, _, _ in values(of, part("a", SIDE), gauge(60))]
    assert names[:2] == ["sled's fence, from square", "sled's fence, from the blade"]
    (said,) = notes(of, part("a", SIDE), gauge(60))
    assert "60° from square, 30° from the blade" in said and "clamped" in said
    assert "clamp the part" in notes(of, part("a", SIDE), gauge(52))[0]
    assert notes(of, part("a", SIDE), gauge(45)) == ()
    stated = piece(part("a", SIDE), shop=(("gauge", 50),))
    assert steep(stated, gauge(50.1)) and not steep(stated, gauge(50))


def test_a_tilt_off_45_says_which_side_closes_and_by_how_much_the_other_opens() -> None:
    # 13/16 in at 0.1° over 45°: the inside opens by ≈0.004 in (geometry: 2 · T · √2 · sin e)
    board = part("a", ((0, INCHES * 13 / 16), (0, 300), (0, 700)))
    of = piece(board, units=INCH)
    over = notes(of, board, bevel(45.1))[-1]
    assert "0.1° over 45°: the outside closes, the inside opens by ≈0.004" in over
    assert "89.8°" in over
    under = notes(of, board, bevel(44.9))[-1]
    assert "under 45°: the inside closes, the outside opens by ≈0.004" in under
    assert "44.9° read from the table closes the outside" in notes(of, board, bevel(45))[-1]
    assert not any("45" in n for n in notes(of, board, bevel(30)))


def test_a_corner_that_is_rounded_later_is_cut_at_exactly_45() -> None:
    of = piece(part("a", SIDE), runs=(Run("case", ("a", "b"), ("right", "left"), radius=28),))
    assert notes(of, part("a", SIDE), bevel(45))[-1].startswith("exactly 45°")


def test_nobody_is_told_to_tilt_a_stack() -> None:
    across = Travel(Face(2, 1), 1, (100, 0, 0))
    dado = routed(("straight bit", 12, "length"), ("depth", 6, "length"), travel=across)
    (said,) = notes(piece(part("a", SIDE)), part("a", SIDE), dado)
    assert "arbor upright" in said and "12 mm wide and 6 mm high" in said
    assert notes(piece(part("a", SIDE)), part("a", SIDE), replace(dado, travel=replace(across, start=10))) == ()


def test_no_stack_is_told_wider_than_20_mm() -> None:
    across = Travel(Face(2, 1), 1, (100, 0, 0))
    for wide, told in ((20, 1), (Fraction("20.1"), 0)):
        dado = routed(("straight bit", wide, "length"), ("depth", 6, "length"), travel=across)
        said = notes(piece(part("a", SIDE)), part("a", SIDE), dado)
        assert sum("with a stack" in n for n in said) == told


def test_large_cutters_get_the_usual_upper_speed_and_the_marking_rules() -> None:
    # makers' charts: to 1 in 24 000, to 2 in 18 000, to 2 1/2 in 16 000, to 3 1/2 in 12 000 (common practice)
    of, board = piece(part("a", SIDE)), part("a", SIDE)
    for wide, said in ((INCHES, None), (INCHES * 11 / 8, "18000"), (INCHES * 11 / 4, "12000"), (INCHES * 4, "by hand")):
        told = notes(of, board, routed(("cutter, diameter", wide, "length")))
        assert told == () if said is None else said in told[0]
    (told_radius,) = notes(of, board, routed(("radius", INCHES * 9 / 8, "length")))  # 2 · 1 1/8 + bearing 1/2
    assert "12000" in told_radius and "marked on the cutter rules" in told_radius and "against its turn" in told_radius


def test_a_cutter_too_large_for_the_hand_runs_in_a_table_in_passes() -> None:
    # common practice: over 1 1/2 in across no bit is held by hand; 1/4 in of a radius in a pass
    board, radius = part("a", SIDE), INCHES * 9 / 8
    made = GluedCorner(1, (0, 700), (0, 1), (0, 300), radius).made(board)
    (setting,) = made.settings
    assert setting.machine == "router table" and passes(setting) == 5
    assert "from right to left past the front of the cutter" in setting.feed
    (told,) = (n for n in notes(piece(board), board, setting) if "across" in n)
    assert "in a router table" in told and "the manuals" in told
    assert {c.key for c in made.cautions} == {"router table", "round over"}
    (small,) = GluedCorner(1, (0, 700), (0, 1), (0, 300), INCHES / 2).made(board).settings
    assert small.machine == "router" and "right to left" not in small.feed
    row = SetupRow(setting.machine, setting.what, setting.values, (), "")
    assert risk(row).startswith("a large cutter that is fed with its turn") and "mark the arrises" in risk(row)


def test_slots_over_the_saw_say_how_the_frame_is_held_and_that_the_guard_comes_back() -> None:
    board = part("a", SIDE)
    made = KeySlots(Face(0, 1), Face(2, 1), 30, 3, 15).made(board)
    (setting,) = made.settings
    for word in ("clamp the frame", "guard is off", "hands hold", "stop the saw", "guard and knife back on"):
        assert word in setting.note
    row = SetupRow(setting.machine, setting.what, setting.values, (), setting.note)
    assert "over the bare blade" in risk(row) and "guard back on" in risk(row)


def test_on_a_table_the_wood_goes_from_right_to_left() -> None:
    assert (
        on_table("with the wood on the left of the travel")
        == "the wood, from right to left past the front of the cutter"
    )
    way = "through from the left end to the right end"
    assert on_table(way).startswith(f"{way}; the wood")


@pytest.mark.parametrize("edge, out", [(Face(1, 0), "top end"), (Face(1, 1), "bottom end")])
def test_the_wood_lies_on_the_left_of_the_travel(edge: Face, out: str) -> None:
    # Seen from above the high face, length up the page: along the low (left) edge the router goes up, the wood to its right
    # would be wrong; round the outside it goes counter-clockwise.
    side = part("a", SIDE)
    run = Travel(Face(2, 1), 0, (0, 0, 20), edge=edge, start=50, deep=5)
    of = piece(side)
    says = feed(of, side, feature("r", None), run)  # type: ignore[arg-type]
    toward_high = _counter_clockwise(edge)
    on = "the router on the left face"
    assert (says == f"start at the mark, out at the top end, {on}") is toward_high
    assert (says == f"in at the top end, stop at the mark, {on}") is not toward_high
    assert feed(of, side, feature("r", None), replace(run, start=None)) == WOOD_LEFT  # type: ignore[arg-type]


def test_a_groove_over_tongues_runs_through_from_end_to_end_of_the_blank() -> None:
    # No shoulder stands while the groove is run, and none stops the cutter afterwards.
    tongues = Made(allowances=tuple(Allowance(Face(0, side), 6, "tongue") for side in (0, 1)))
    front = part("a", SIDE, features=(feature("t", tongues),))
    run = Travel(Face(2, 1), 0, (350, 20, 20), deep=5, wide=6)
    says = feed(piece(front), front, feature("groove", None), run)  # type: ignore[arg-type]
    ends = sorted((says.index("top end"), says.index("bottom end")))
    assert says.startswith("through from the ") and ends[1] < says.index("fence on the front edge")
    assert "shoulder" not in says
    stopped = feed(piece(front), front, feature("groove", None), replace(run, stop=600))  # type: ignore[arg-type]
    assert "through" not in stopped and "shoulder" not in stopped and "stop at the mark" in stopped


def _counter_clockwise(edge: Face) -> bool:
    """Counter-clockwise round a board seen with x right, y up: along the low edge (y = 0) toward +x."""
    return edge.side == 0


def test_a_bit_on_a_trammel_goes_down_in_passes_and_its_edge_is_told() -> None:
    # half of a 12 mm bit in a pass: 36 mm in six; three diameters of edge are common, more are not
    board = part("a", SIDE)

    def told(deep: int) -> Setting:
        return routed(("straight bit, about", 12, "length"), ("cutting edge, more than", deep, "length"))

    assert passes(told(36)) == 6 and passes(told(37)) == 7
    assert not notes(piece(board), board, told(36))
    assert "from the pin to the rim" in proof(piece(board), [board], told(36))[1]
    assert "flush cutter" in notes(piece(board), board, told(37))[0]


def test_a_flush_cutter_takes_little_to_the_side() -> None:
    board = part("a", SIDE)
    cutter = routed(("flush cutter with a bearing", "any diameter", "text"), ("cutting edge, more than", 20, "length"))
    (note,) = notes(piece(board), board, cutter)
    assert "2 mm at most" in note and passes(cutter) == 0
    (inch,) = notes(piece(board, units=INCH), board, cutter)
    assert "16" in inch


def test_an_angle_is_proved_without_a_gauge() -> None:
    board = part("a", SIDE)
    of = piece(board)
    assert "try square" in proof(of, [board], bevel(45))[1] and "inside only" in proof(of, [board], bevel(45))[1]
    back = 20 * tan(radians(30))
    assert proof(of, [board], bevel(30))[1] == f"through the thickness, over 20 mm, the cut runs back ≈{back:.1f} mm"
    assert "0.8°" in proof(of, [board], gauge(45))[-1]


def test_each_machine_has_a_test_piece_with_figures() -> None:
    board = part("a", SIDE)
    of = piece(board)
    told = proof(of, [board], routed(("straight bit", 12, "length"), ("depth", 6, "length")))
    assert told[0] == "an offcut of the same stock, 20 mm thick"
    assert told[1].startswith("width 12 mm, depth 6 mm")
    fat = Setting("router", "tongue", (("tongue thickness, fat", Fraction("12.4"), "length"),), mate="dado")
    assert "12.4 mm" in proof(of, [board], fat)[1] and "dado" in proof(of, [board], fat)[1]
    assert "not yet" in proof(of, [board], fat)[1]
    exact = Setting("router", "tongue", (("tongue thickness", Fraction(6), "length"),), mate="dado")
    assert proof(of, [board], exact)[1] == "thickness 6 mm with a calliper: it goes into the dado by hand"
    tap = Setting("tap", "tap", (("full threads", 17, "length"),))
    assert "over 17 mm" in proof(of, [board], tap)[1]
    assert proof(of, [board], Setting("laser", "mark", ()))[1] == "measure it before the good parts run"


@pytest.mark.parametrize("face", [Face(a, s) for a in range(3) for s in (0, 1)])
def test_round_the_outside_the_router_goes_counter_clockwise_seen_from_its_face(face: Face) -> None:
    def out(f: Face) -> np.ndarray:
        return np.eye(3)[f.axis] * (1 if f.side else -1)

    for edge in (Face(a, s) for a in range(3) for s in (0, 1) if a != face.axis):
        along = 3 - face.axis - edge.axis
        way = np.eye(3)[along] * (1 if leaving(face, edge, along) else -1)
        # about the middle of the board the edge's place turns the way the travel goes: e × d points out of the face
        assert np.dot(np.cross(out(edge), way), out(face)) > 0


def test_a_width_that_no_bit_has_is_cut_with_a_smaller_one_and_the_fence_moved() -> None:
    board = part("a", SIDE)

    def told(wide: float, of: Part = board, **more: object) -> list[str]:
        said = notes(piece(of, **more), of, routed(("straight bit", wide, "length"), ("depth", 6, "length")))  # type: ignore[arg-type]
        return [n for n in said if "bit of" in n]

    assert told(16) == []
    assert told(16.5)[0].startswith("no bit of 16.5 mm is usually sold: take one of 16 mm")
    assert told(7, shop=(("bits", (Fraction(7),)),)) == []  # the shop has one
    assert (
        "no bit of 8 mm is in the shop: take one of 6 mm" in told(8, shop=(("bits", (Fraction(6), Fraction(12))),))[0]
    )
    assert told(2.5) == []  # none is smaller
    assert told(INCHES / 4, units=INCH) == [] and "one of 1 in" in told(INCHES * 9 / 8, units=INCH)[0]


def test_a_slot_for_a_screw_takes_the_next_larger_bit() -> None:
    board = part("a", SIDE)
    op = SlottedHole(Face(2, 1), (Fraction(100), Fraction(50)), 0, Fraction(12), Fraction(36, 10))
    of = replace(board, features=(feature("slot", op.made(board)),))
    (setting,) = of.features[0].made.settings
    assert "a bit of 4 mm does as well: the screw has only to slide" in notes(piece(of), of, setting)
