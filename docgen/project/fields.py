"""What a word of the file may carry: the kinds of value, each with its meaning in one line.

Operations, joints and assemblies declare their words with these; the reader checks the file against
them, evaluates the expressions and generates the reference of the file's words from them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias


@dataclass(frozen=True, slots=True)
class Length:
    """A length; evaluates to mm. `least` and `above` bound it (mm), None for no bound."""

    least: float | None = None
    above: float | None = None


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle; evaluates to degrees. A bare number counts as degrees."""

    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True)
class Plain:
    """A plain number; evaluates to Fraction or float."""

    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass with its unit, 30 kg or 66 lb; evaluates to kg."""

    least: float | None = None


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number from `least` up; evaluates to int."""

    least: int = 1


@dataclass(frozen=True, slots=True)
class Words:
    """Free text; evaluates to str."""


@dataclass(frozen=True, slots=True)
class Flag:
    """yes or no; evaluates to bool."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of some words; evaluates to str."""

    of: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PartName:
    """The path of a part; evaluates to str. `Many(PartName())` takes one or a list."""


@dataclass(frozen=True, slots=True)
class MaterialName:
    """The name of a material; evaluates to str."""


@dataclass(frozen=True, slots=True)
class FaceWord:
    """left, right, front, back, top or bottom; evaluates to str."""


@dataclass(frozen=True, slots=True)
class Reach:
    """A from–to pair ``[low, high]`` of lengths; evaluates to (mm, mm)."""


@dataclass(frozen=True, slots=True)
class Box:
    """``{across: [..], deep: [..], up: [..]}``; evaluates to three (mm, mm) pairs in that order."""


@dataclass(frozen=True, slots=True)
class Place:
    """Some of ``{across: .., deep: .., up: ..}``; evaluates to dict of axis word → mm."""

    need: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ByFace:
    """A mapping from face words to values of `kind`, e.g. ``{front: 3/4}``; evaluates to dict."""

    kind: FieldKind


@dataclass(frozen=True, slots=True)
class Many:
    """One value or a list of them; evaluates to tuple."""

    kind: FieldKind
    least: int = 1


@dataclass(frozen=True, slots=True)
class Nested:
    """A mapping with fields of its own; evaluates to Bound."""

    fields: tuple[Field, ...]


FieldKind: TypeAlias = (
    Length | Angle | Plain | Mass | Count | Words | Flag | Choice | PartName | MaterialName | FaceWord
    | Reach | Box | Place | ByFace | Many | Nested
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a mapping in the file."""

    name: str  # as written, words parted by spaces: "corner radius"
    kind: FieldKind
    help: str  # one line, no full stop
    required: bool = False
    default: str | None = None  # as it would be written in the file; None leaves the value None


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the file: an operation, a joint, an edge shape, an assembly."""

    name: str  # "housing"
    room: str  # "joint", "operation", "edge", "hole", "assembly"
    help: str  # one sentence
    fields: tuple[Field, ...]
    example: str  # YAML of one use
    build: Callable[..., Any]  # what carries it out; see piece/bench.py
    waits: str = ""  # a field: where a joint leaves it out, the operations are carried out before, since they tell it
