"""What cannot be made: raised by operations and placement, told at the place in the file."""

from __future__ import annotations


class Fault(Exception):
    """Something that the part cannot take; `field` names the parameter at fault, `expected` what would do."""

    def __init__(self, code: str, message: str, field: str = "", expected: str = "") -> None:
        super().__init__(message)
        self.code, self.message, self.field, self.expected = code, message, field, expected
