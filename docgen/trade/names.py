"""Reading the trade's way of writing sizes, and telling the nearest known name when one is unknown."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches
from fractions import Fraction

INCH = Fraction(254, 10)
"""Millimetres in an inch, exact since 1959 (international yard and pound agreement)."""

_MIXED = re.compile(r"^(?:(\d+)[ -])?(\d+)/(\d+)$")


class UnknownName(ValueError):
    """A name that no table holds; `nearest` is the nearest known one, or None.

    `hints` are all that it may mean: the known names that have its last word ("oak": each oak), else the nearest one.
    """

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        known = tuple(known)
        by_lower = {k.lower(): k for k in known}
        close = get_close_matches(name.lower().strip(), list(by_lower), n=1, cutoff=0.5)
        self.what, self.name = what, name
        self.nearest: str | None = by_lower[close[0]] if close else None
        self.hints = _with_word(name, known) or ((self.nearest,) if self.nearest else ())
        hint = f"; did you mean {self.nearest!r}?" if self.nearest else ""
        super().__init__(f"unknown {what} {name!r}{hint}")


def _with_word(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return the known names that have the last word of a name in them, as a maker says it: "pine", "English oak"."""
    word = name.lower().split()[-1:]
    return tuple(k for k in known if word and word[0] in re.split(r"[ ,()-]+", k.lower()))


def number(text: str) -> Fraction:
    """Return "3/8", "1 1/2", "0.1065" or "12" as an exact fraction; ValueError for anything else."""
    text = text.strip()
    mixed = _MIXED.match(text)
    if mixed:
        whole, top, bottom = mixed.groups()
        return Fraction(int(whole or 0)) + Fraction(int(top), int(bottom))
    return Fraction(text)


def mixed(value: Fraction) -> str:
    """Return a fraction >= 0 as a mixed number: 11/8 gives "1 3/8", 2 gives "2"."""
    whole, rest = divmod(value, 1)
    parts = ([str(whole)] if whole or not rest else []) + ([str(rest)] if rest else [])
    return " ".join(parts)
