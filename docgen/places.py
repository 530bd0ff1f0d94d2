"""Where in a file something was written."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A run of characters on one line of a file; line and column count from 1."""

    file: str
    line: int
    column: int
    length: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
