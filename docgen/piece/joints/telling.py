"""Faults of joints, told with their lengths in the unit of the file; figures that a joint chooses, rounded to a rule's."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.project.statements import Bound
from docgen.units import Number, Units

NEAT = {"inch": Fraction(254, 320), "mm": Fraction(1, 2)}
"""mm: what a figure that a joint may choose is rounded to, so that a rule shows it: 1/32 in or 0.5 mm."""


def fault(values: Bound, field: str, code: str, message: str, expected: str = "", *, on: Bench) -> None:
    """Note a problem at the place of `field` and go on; lengths stand in the message as `faults.figure`."""
    on.fault(values, field, code, Fault(code, message).told(on.units), expected)


def neat(value: Number, units: Units) -> Number:
    """Return the length on a rule nearest to one that a joint may choose, mm."""
    step = NEAT[units.system]
    return round(float(value / step)) * step
