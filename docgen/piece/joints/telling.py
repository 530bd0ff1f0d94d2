"""Faults of joints, told with their lengths in the unit of the file."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.project.statements import Bound


def fault(values: Bound, field: str, code: str, message: str, expected: str = "", *, on: Bench) -> None:
    """Note a problem at the place of `field` and go on; lengths stand in the message as `faults.figure`."""
    on.fault(values, field, code, Fault(code, message).told(on.units), expected)
