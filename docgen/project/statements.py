"""Statements of the file: checked against their word, first with expressions, then with values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from docgen.places import Span
from docgen.project.fields import Word


@dataclass(frozen=True, slots=True)
class Lazy:
    """A statement whose expressions are not evaluated yet.

    `values` has every field of the word by its name as written ("corner radius"): lengths, angles, plain
    numbers and counts are `Expr`; `Reach`, `Box`, `Place`, `ByFace`, `Many`, `Nested` hold them in tuples and
    dicts; the rest is what `Bound` holds. Fields that are absent and have no default are None.
    `spans` has the place of each field that stands in the file.
    """

    word: Word
    values: Mapping[str, Any]
    span: Span
    spans: Mapping[str, Span] = field(default_factory=dict)
    name: str = ""  # assemblies: their own name
    because: tuple[Span, ...] = ()  # the assembly that said it

    def __getitem__(self, name: str) -> Any:
        return self.values[name]


@dataclass(frozen=True, slots=True)
class Bound:
    """A statement with all expressions evaluated (mm, degrees, plain numbers, counts)."""

    word: Word
    values: Mapping[str, Any]
    span: Span
    spans: Mapping[str, Span] = field(default_factory=dict)
    name: str = ""
    because: tuple[Span, ...] = ()

    def __getitem__(self, name: str) -> Any:
        return self.values[name]
