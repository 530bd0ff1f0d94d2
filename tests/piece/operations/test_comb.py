import math
from fractions import Fraction

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.comb import Comb
from docgen.piece.operations.pins import Pins
from docgen.piece.records import BOTH, Authority, Face
from tests.piece.operations.trial import (
    board,
    every_parameter_is_told_once,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    proven,
    taken,
)

SLOPE = math.degrees(math.atan(1 / 8))
LEFT, RIGHT = Face(0, 0), Face(0, 1)
# Four tails of 22.5 in 120 with half pins and pins of 6: 2 × 6 + 4 × 22.5 + 3 × 6 = 120.
TAILS = {"label": "tail", "gap": "pin", "edge": "half pin", "told": "1:8"}


def tails(end: Face = LEFT) -> Comb:
    return Comb(end, 20, Fraction("28.5"), 6, Fraction("28.5"), 6, 6, SLOPE, count=3, **TAILS)


@pytest.mark.parametrize("end", [LEFT, RIGHT])
def test_tails_stay_between_sockets_that_widen_inward(end: Face) -> None:
    # A pin's socket is 6 wide at the end and 6 + 2 · 20/8 at the baseline; half ones widen on one side.
    assert taken(tails(end), board()) == pytest.approx(20 * 20 * (3 * 8.5 + 2 * 7.25), abs=1e-3)
    all_said = Comb(end, 20, 40, 6, 25, 7, 6, SLOPE, 5, 4, count=2, **TAILS)
    every_parameter_moves_the_solid(all_said, board())
    every_parameter_is_told_once(all_said, board())
    every_parameter_is_told_once(tails(end), board())
    figures_measure_what_they_say(tails(end), board())


def test_a_sheet_tells_tails_in_few_figures() -> None:
    assert "counts of tails and of what is between them are those of one end" in [
        a.text for a in made(tails(), board()).assumed
    ]
    told = {(s.label, round(float(s.value), 2)) for s in made(tails(), board()).sizes}
    assert told == {
        ("baseline", 20),
        ("2× half pin", 6),
        ("4× tail", 22.5),
        ("3× pin", 6),
        ("2× spacing", 28.5),
        ("", 82.87),
    }


def test_template_is_the_same_for_both_ends_and_hatches_the_waste() -> None:
    (one,), (two,) = made(tails(), board()).templates, made(tails(RIGHT), board()).templates
    assert one == two and len(one.waste) == 5
    assert one.lines[0] == ((20.0, 0.0), (20.0, 120.0), "baseline")


def test_set_up_gives_gauge_and_bevel_and_asks_for_care_with_saw_and_chisel() -> None:
    answer = made(tails(), board())
    (setting,) = answer.settings
    assert {n: v for n, v, _ in setting.values} == {
        "marking gauge, baseline": 20,
        "sliding bevel": "1:8, ≈7.13° from square",
        "tails": 4,
    }
    assert [c.key for c in answer.cautions] == ["hand saw", "chisel"]
    assert [(m.position, m.wood) for m in made(tails(RIGHT), board()).marks] == [(380, BOTH)]


def test_fingers_are_square_and_open_at_both_edges_or_at_none() -> None:
    # 120 in 11: a pitch of 10.909…; here simply fingers and sockets of 24.
    outer = Comb(LEFT, 20, 24, 24, 48, count=2, cutter="router table")
    inner = Comb(LEFT, 20, 48, 24, low=24, high=24, count=1, cutter="table saw")
    assert taken(outer, board()) == pytest.approx(2 * 24 * 20 * 20)
    assert taken(inner, board()) == pytest.approx(3 * 24 * 20 * 20)
    for comb, derived in ((outer, [f"finger, {board().side(Face(1, 1))}"]), (inner, [])):
        every_parameter_is_told_once(comb, board(), derived=derived)
        figures_measure_what_they_say(comb, board())
    assert made(outer, board()).templates == ()
    assert {s.machine for s in made(inner, board()).settings} == {"table saw"}


def test_fingers_are_set_from_a_named_edge_and_the_other_takes_what_is_left() -> None:
    here = board()
    low, high = (here.side(Face(1, side)) for side in (0, 1))
    # sockets of 24 from 23 and every 47: 23 + 24 + 23 + 24 = 94, and 26 is left of 120
    outer = made(Comb(LEFT, 20, 23, 24, 47, count=2, cutter="router table"), here)
    assert outer.settings[0].places == (
        (f"first finger at the {low}", 23, "length"),
        (f"finger left at the {high}", 26, "length"),
    )
    told = {s.label: float(s.value) for s in outer.sizes}
    assert (told[f"finger, {low}"], told[f"finger, {high}"]) == (23, 26)
    inner = made(Comb(LEFT, 20, 47, 24, low=24, high=25, count=1, cutter="router table"), here)
    assert inner.settings[0].places == (
        (f"open socket at the {low}", 24, "length"), ("first finger beside it", 23, "length"),
        (f"open socket left at the {high}", 25, "length"),
    )  # fmt: skip


def test_a_joint_over_part_of_the_width_leaves_the_rest_alone() -> None:
    comb = Comb(LEFT, 20, 0, 0, 0, 10, 10, SLOPE, 30, 10, count=0, **TAILS)
    # Sockets from 30 and up to 110, straight toward the wood that stays.
    assert taken(comb, board()) == pytest.approx(20 * 20 * 2 * (10 + 1.25), abs=1e-3)
    every_parameter_is_told_once(comb, board())
    figures_measure_what_they_say(comb, board())


@pytest.mark.parametrize("end", [LEFT, RIGHT])
@pytest.mark.parametrize("inner", [Face(2, 0), Face(2, 1)])
def test_pins_stay_between_sockets_that_narrow_toward_the_inner_face(end: Face, inner: Face) -> None:
    through = Pins(end, inner, 15, 6, Fraction("22.5"), SLOPE, Fraction("28.5"), None, 4)
    assert taken(through, board()) == pytest.approx(15 * 20 * 4 * (22.5 - 2.5), abs=1e-3)
    blind = Pins(end, inner, 15, 6, Fraction("22.5"), SLOPE, Fraction("28.5"), 16, 4)
    assert taken(blind, board()) == pytest.approx(15 * 16 * 4 * (22.5 - 2), abs=1e-3)
    proven(through, board())
    proven(blind, board())


def test_pins_are_marked_from_the_tails() -> None:
    sizes = made(Pins(LEFT, Face(2, 0), 15, 6, 22, SLOPE, 28, 16, 4), board()).sizes
    by_mate = {s.label for s in sizes if s.authority is Authority.MATE}
    assert by_mate == {"half pin", "4× socket", "3× spacing", ""}
    assert {s.label for s in sizes if s.authority is Authority.CUT} == {"baseline", "socket deep"}


@pytest.mark.parametrize(
    ("operation", "code"),
    [
        (Comb(LEFT, 20, 28, 30, 28, 6, 6, SLOPE, count=3, **TAILS), "comb-crowded"),
        (Comb(LEFT, 20, 10, 26, 30, 6, 6, SLOPE, count=3, **TAILS), "comb-no-root"),
        (Comb(LEFT, 0, 28, 6, 28, 6, 6, SLOPE, count=3, **TAILS), "depth-range"),
        (Pins(LEFT, Face(2, 0), 15, 6, 40, SLOPE, 45, None, 3), "comb-crowded"),
        (Pins(LEFT, Face(2, 0), 15, 6, 22, SLOPE, 28, 20, 4), "depth-range"),
        (Pins(LEFT, Face(1, 0), 15, 6, 22, SLOPE, 28, 20, 4), "pins-face"),
    ],
)
def test_impossible_combs(operation: Comb | Pins, code: str) -> None:
    with pytest.raises(Fault) as fault:
        operation.made(board())
    assert fault.value.code == code
