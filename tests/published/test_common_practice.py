"""Values that the trade keeps to without any source: common practice, every one of them. No source is claimed.

They are held here so that a change of one is seen; where one is a matter of geometry, it is worked out.
"""

import math
from fractions import Fraction
from functools import cache

import pytest

from docgen.checks.sag import EYE
from docgen.checks.trenches import USUAL
from docgen.trade import boards, clearance, corners, drills, glueup, mitres, threads
from docgen.trade.names import INCH
from tests.checks.test_examples import found, text_of


@cache
def told_of_the_desk() -> frozenset[str]:
    return frozenset(f.code for f in found("sketching-desk", text_of("sketching-desk")))


def inch(whole: int, over: int = 1) -> Fraction:
    return Fraction(whole, over) * INCH


def test_an_inset_front_has_a_gap_of_a_thirty_second() -> None:
    """Common practice: 1/32 in a side, set with spacers of the same. The desk keeps to it, and is silent."""
    assert "gap: 1/32" in text_of("sketching-desk")
    assert not told_of_the_desk() & {"front-gap", "front-rubs", "front-binds", "front-corner-gap"}


def test_a_dado_for_one_straight_bit() -> None:
    """Common practice: 1/2 in wide and 1/4 in deep, with one bit; a quarter inch is a third of 13/16 less a little."""
    assert inch(1, 4) / inch(13, 16) < USUAL
    assert inch(1, 2) in {Fraction(n, 16) * INCH for n in range(1, 33)}


def test_a_mitre_cut_at_44_9_read_from_the_table() -> None:
    """Common practice: 44.9° read from the table closes the outside."""
    from_square, from_table = mitres.readings(45.1)
    assert (from_square, from_table) == (pytest.approx(45.1), pytest.approx(44.9))
    assert mitres.heel_gap(inch(13, 16), 0.1) / INCH == pytest.approx(0.004, abs=5e-4)


def test_clamps_spread_at_45_degrees() -> None:
    """Common practice: clamps no further apart than twice the distance from the jaw to the glue line."""
    assert glueup.greatest_spacing(4) == 8
    assert [glueup.clamps(24, reach) for reach in (3, 4, 6, 12)] == [4, 3, 2, 1]


def test_case_stock_by_quarters() -> None:
    """Common practice: cases from 4/4, 1 in finished from 5/4 (surfaced 1 1/16: 1/16 to flatten), 4/4 gives 3/4 likewise."""
    assert boards.quarters("5/4").surfaced == inch(17, 16)
    assert boards.flattening("5/4", inch(1)) == inch(1, 16)
    assert boards.flattening("4/4", inch(3, 4)) == inch(1, 16)
    assert not {code for code in told_of_the_desk() if code.startswith("stock")}


def test_rabbets_of_case_and_frame() -> None:
    """Common practice: the front rabbet is as deep as the front is thick, the frame's 1/4 in; 3/8 in leaves a sound lip."""
    assert "depth: front_thick" in text_of("sketching-desk")
    lip = inch(13, 16) - inch(3, 8)
    assert corners.lip(inch(13, 16), inch(3, 8), corners.even_lip_radius(inch(13, 16), inch(5, 16)),
                       corners.rabbet_radius(inch(5, 16), inch(3, 8))) == pytest.approx(float(lip))  # fmt: skip
    assert lip > inch(3, 8)


def test_outside_edges_rounded_by_an_eighth() -> None:
    """Common practice: outside edges rounded 1/8 in, none where parts meet. The desk's legs say so."""
    assert "outside arrises: 1/8" in text_of("sketching-desk")


def test_quarter_inch_screws_leave_no_play_in_quarter_inch_holes() -> None:
    """Common practice: 1/4 in holes for 1/4 in screws leave no play: match-drill, or take the close fit, 17/64."""
    thread = threads.find("1/4-20 UNC")
    assert clearance.play(drills.find("1/4").diameter, thread.major) == 0
    close = clearance.clearance(thread, "close")
    assert close.name == "17/64"
    assert clearance.play(close.diameter, thread.major) == inch(1, 128)


def test_a_drawer_box_of_nominal_half_inch_plywood() -> None:
    """Common practice: often 12 mm, sides running full length."""
    assert 'box ply: {sheet: "plywood, birch", thickness: 12 mm, bought: 1/2}' in text_of("sketching-desk")
    assert Fraction(12) < inch(1, 2)


def test_a_shelf_sags_unseen_by_a_fiftieth_of_an_inch_a_foot() -> None:
    """Common practice: 0.02 in a foot."""
    assert pytest.approx(0.02) == 12 / EYE


def test_the_break_in_the_grain_is_the_saw_and_the_rounding() -> None:
    """Common practice in wording, geometry in figures: k·√2."""
    assert math.sqrt(2) * 1 / 8 == pytest.approx(0.177, abs=5e-4)
