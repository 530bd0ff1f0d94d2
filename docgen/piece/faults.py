"""What cannot be made: raised by operations and placement, told at the place in the file in the file's own unit."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from docgen.units import Kind, Number, Quantity, Units, format_quantity

# A length inside a message stands between these two until it is known in which unit the file is told.
_OPEN, _CLOSE = "\x02", "\x03"
_FIGURE = re.compile(f"{_OPEN}([^{_CLOSE}]*){_CLOSE}")


def figure(mm: Number) -> str:
    """Return a length for the message of a `Fault`; it is printed in the unit of the file."""
    return f"{_OPEN}{mm}{_CLOSE}"


class Fault(Exception):
    """Something that the part cannot take; `field` names the parameter at fault, `expected` what would do."""

    def __init__(self, code: str, message: str, field: str = "", expected: str = "") -> None:
        self.code, self.message, self.field, self.expected = code, message, field, expected
        super().__init__(self.told(Units()))

    def told(self, units: Units) -> str:
        """Return the message with its lengths in the file's unit."""
        return _printed(self.message, units)

    def hint(self, units: Units) -> str:
        """Return what would do, "" when nothing was said."""
        return f"expected: {_printed(self.expected, units)}" if self.expected else ""


def _printed(text: str, units: Units) -> str:
    def length(match: re.Match[str]) -> str:
        written = match[1]
        whole = written.removeprefix("-").replace("/", "").isdigit()
        value: Number = Fraction(written) if whole else float(written)
        if not math.isfinite(value):
            return "no length at all"
        return format_quantity(Quantity(value, Kind.LENGTH), units)

    return _FIGURE.sub(length, text)
