"""Lengths within messages are told in the unit of the file, whatever number they are."""

from fractions import Fraction

import pytest

from docgen.piece.faults import Fault, figure
from docgen.units import Number, Units


@pytest.mark.parametrize(
    ("mm", "told"),
    [
        (Fraction(635, 100), "1/4 in"),
        (Fraction(-254), "-10 in"),
        (25.4, "1 in"),
        (2.54e-7, "0 in"),
        (float("inf"), "no length at all"),
        (float("-inf"), "no length at all"),
        (float("nan"), "no length at all"),
    ],
)
def test_a_length_in_a_message(mm: Number, told: str) -> None:
    fault = Fault("code", f"it is {figure(mm)} long", "width", f"less than {figure(mm)}")
    assert fault.told(Units("inch", Fraction(1, 32))) == f"it is {told} long"
    assert fault.hint(Units("inch", Fraction(1, 32))) == f"expected: less than {told}"
