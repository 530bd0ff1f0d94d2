from fractions import Fraction

import pytest

from docgen.trade.fasteners import wood_screw
from docgen.trade.runners import bore, places, up_to

HALF = Fraction(1, 2)


def test_lengths_go_up_to_a_rules_next_line() -> None:
    assert up_to(Fraction(4), HALF) == 4
    assert up_to(4.01, HALF) == Fraction(9, 2)
    assert up_to(Fraction(254, 80), Fraction(254, 320)) == Fraction(254, 80)


@pytest.mark.parametrize(("gauge", "wide", "deep"), [(4, 7, 2.5), (6, 8.5, 3), (8, 9.5, 3.5)])
def test_a_bore_sinks_a_pan_head(gauge: int, wide: float, deep: float) -> None:
    # No. 6 is 0.138 in, 3.51 mm: twice that and 1 is 8.01, three quarters of it 2.63.
    found = bore(wood_screw(gauge, "mm"), HALF)
    assert (found.diameter, found.depth) == (wide, deep)


def test_screws_stand_evenly_along_a_strip() -> None:
    assert places(Fraction(337), Fraction(25), 3, HALF) == (25, Fraction(337, 2), 312)
    # 25 + 262 / 3 = 112.33 and 199.67, to the nearest half millimetre.
    assert places(Fraction(312), Fraction(25), 4, HALF) == (25, Fraction(225, 2), Fraction(399, 2), 287)
    assert places(Fraction(300), Fraction(25), 1, HALF) == (25,)
    assert places(Fraction(40), Fraction(25), 3, HALF) == (25,)
