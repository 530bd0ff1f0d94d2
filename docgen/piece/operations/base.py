"""What every operation offers, and how its numbers are listed."""

from __future__ import annotations

import dataclasses
from fractions import Fraction
from typing import ClassVar, Protocol, runtime_checkable

from docgen.piece.model import Part
from docgen.piece.records import Made
from docgen.units import Number


@runtime_checkable
class Operation(Protocol):
    """A frozen dataclass of numbers (part axes, mm, degrees) that answers with records."""

    word: ClassVar[str]

    def made(self, part: Part) -> Made:
        """Return everything this operation means for `part`; `Fault` when it cannot be cut."""
        ...


class Fault(Exception):
    """An operation that the part cannot take; `field` names the parameter at fault, `expected` what would do."""

    def __init__(self, code: str, message: str, field: str = "", expected: str = "") -> None:
        super().__init__(message)
        self.code, self.message, self.field, self.expected = code, message, field, expected


def parameters(operation: Operation) -> tuple[tuple[str, Number], ...]:
    """Return every number among the fields of an operation, by name, in their order."""
    out: list[tuple[str, Number]] = []
    for f in dataclasses.fields(operation):  # type: ignore[arg-type]
        value = getattr(operation, f.name)
        if isinstance(value, (Fraction, float, int)) and not isinstance(value, bool):
            out.append((f.name, value))
    return tuple(out)
