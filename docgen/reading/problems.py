"""What is wrong in a file: values that are collected, sorted by place and told in one go."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from docgen.places import Span

_LINE_ENDS = re.compile("\r\n|[\n\r\x85\u2028\u2029]")  # the line ends that YAML counts
_WINDOW = 120  # characters of a line that are shown


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing to change in a file."""

    code: str  # stable, has a section in shared/problems.md
    where: Span
    message: str  # what was found, with its number and unit
    hint: str = ""  # what to do
    grade: str = "error"


class Problems(Exception):
    """All problems of a file."""

    def __init__(self, items: Iterable[Problem]) -> None:
        self.items: tuple[Problem, ...] = sorted_problems(items)
        super().__init__(f"{len(self.items)} problems" if len(self.items) != 1 else "1 problem")


def sorted_problems(items: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the problems by place, each once."""
    return tuple(sorted(set(items), key=lambda p: (p.where, p.code, p.message, p.hint)))


def tell(problems: Problems | Iterable[Problem], sources: Mapping[str, str]) -> str:
    """Return the problems as text: place, message and code, the line with a caret, the hint.

    `sources` has the text of each file by the name that its spans carry; a file that is not
    there is told without its line.
    """
    items = problems.items if isinstance(problems, Problems) else sorted_problems(problems)
    lines = {file: _LINE_ENDS.split(text) for file, text in sources.items()}
    return "\n".join(_told(problem, lines.get(problem.where.file)) for problem in items)


def _told(problem: Problem, lines: list[str] | None) -> str:
    where = problem.where
    out = [f"{where}: {problem.grade}: {problem.message} [{problem.code}]"]
    if lines is not None and 1 <= where.line <= len(lines):
        out += _excerpt(lines[where.line - 1], where)
    if problem.hint:
        out.append(f"  hint: {problem.hint}")
    return "\n".join(out)


def _excerpt(line: str, where: Span) -> list[str]:
    """Return the line, cut to a window round the place, and the caret run under it."""
    line = "".join(" " if c == "\t" else "\ufffd" if unicodedata.category(c) in ("Cc", "Cs") else c for c in line)
    start = min(where.column - 1, len(line))
    first = 0 if start < _WINDOW - 20 else start - _WINDOW // 2
    shown = line[first : first + _WINDOW]
    start -= first
    marked = shown[start : start + where.length]
    head = f"{where.line:>5} | "
    before = "…" if first else ""
    caret = " " * (len(before) + _columns(shown[:start])) + "^" * max(1, _columns(marked))
    return [f"{head}{before}{shown}".rstrip(), f"{'':>5} | {caret}"]


def _columns(text: str) -> int:
    """Return how many columns of a terminal the text takes: two for wide characters, none for combining ones."""
    return sum(
        0
        if unicodedata.combining(c) or unicodedata.category(c) == "Cf"
        else 2
        if unicodedata.east_asian_width(c) in "WF"
        else 1
        for c in text
    )
