"""Slopes of dovetails as they are printed, and layouts worked by hand."""

from fractions import Fraction

import pytest

from docgen.trade.dovetails import HARDWOOD, SOFTWOOD, by_count, by_spacing, slope

PRINTED = [
    # a woodworking magazine's page on dovetail layout: 1:6 is 9.5 degrees, 1:8 is 7.1 degrees
    ("1:6", 9.5, 0.05),
    ("1:8", 7.1, 0.05),
    # a tool maker's page on marking guides: 14 degrees approximates 1:4
    ("1:4", 14, 0.05),
    # a table of dovetail angles: from 1:5 (11.3) to 1:10 (5.7)
    ("1:5", 11.3, 0.05),
    ("1:10", 5.7, 0.05),
    # the same table, arctan(0.125) = 7.125
    ("1 in 8", 7.125, 0.0005),
]


@pytest.mark.parametrize(("written", "printed", "within"), PRINTED)
def test_slopes(written: str, printed: float, within: float) -> None:
    found = slope(written)
    assert found is not None and found.degrees == pytest.approx(printed, abs=within)


def test_an_angle_is_told_as_a_ratio_too() -> None:
    found = slope("8 deg")
    assert found is not None and (found.degrees, found.told) == (8, "1:7.1")
    assert slope("8") is None and slope("8:1") is None and slope("1:0") is None


def test_hardwood_is_flatter_than_softwood() -> None:
    """1:8 for hardwood and 1:6 for softwood: the same three pages."""
    hard, soft = slope(HARDWOOD), slope(SOFTWOOD)
    assert hard is not None and soft is not None and hard.degrees < soft.degrees


def test_layouts_worked_by_hand() -> None:
    # 6 in: half pins of 1/4, three tails, two pins of 1/4: (6 − 1/2 − 1/2) / 3 = 1 2/3 in.
    plan = by_count(Fraction(6), 3, pin=Fraction(1, 4), half=Fraction(1, 4))
    assert (plan.tail, plan.step) == (Fraction(5, 3), Fraction(23, 12))
    # At the root of a 3/4 in board, 1:8: 1 2/3 − 2 × 3/4 / 8.
    assert plan.root(Fraction(3, 4), slope("1:8").degrees) == pytest.approx(5 / 3 - 3 / 16)  # type: ignore[union-attr]
    # The same width at a spacing of about 1 1/2: (6 − 1/2 + 1/4) / 1 1/2 = 3.83, four tails.
    assert by_spacing(Fraction(6), Fraction(3, 2), pin=Fraction(1, 4), half=Fraction(1, 4)).count == 4
