"""Short ways to say coordinates as expressions, for assemblies."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from docgen.expressions import Expr
from docgen.piece.bench import Draft, Lazy
from docgen.units import Kind

AXES = ("across", "deep", "up")
"""The piece's axes by their words."""

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
"""The face words of each axis: low, high."""

Box = tuple[tuple[Expr, Expr], tuple[Expr, Expr], tuple[Expr, Expr]]

HALF = Fraction(1, 2)


def face(path: str, word: str) -> Expr:
    """Return the coordinate of a part's face: ``left side.right``."""
    return Expr.name(f"{path}.{word}")


def side(name: str, word: str, noun: str = "side") -> str:
    """Return what a board of a box is called: "case left side", "case top"."""
    return f"{name} {word} {noun}" if word in SIDES[0] else f"{name} {word}"


def zero() -> Expr:
    """Return the length 0."""
    return Expr.of(0, Kind.LENGTH)


def usual(table: Mapping[str, Fraction], draft: Draft) -> Expr:
    """Return a length that is common practice, by the units of the file."""
    return Expr.of(table[draft.units.system], Kind.LENGTH)


def half(e: Expr) -> Expr:
    """Return half of `e`."""
    return e * HALF


def around(middle: Expr, size: Expr) -> tuple[Expr, Expr]:
    """Return the span of `size` about its middle."""
    return middle - half(size), middle + half(size)


def from_low(low: Expr, size: Expr) -> tuple[Expr, Expr]:
    """Return the span of `size` that starts at `low`."""
    return low, low + size


def from_high(high: Expr, size: Expr) -> tuple[Expr, Expr]:
    """Return the span of `size` that ends at `high`."""
    return high - size, high


def with_span(box: Box, axis: int, span: tuple[Expr, Expr]) -> Box:
    """Return the box with one span put in the place of another."""
    spans = list(box)
    spans[axis] = span
    return spans[0], spans[1], spans[2]


def given(nested: Lazy) -> dict[str, Any]:
    """Return the fields of a nested mapping as keywords for ``Draft.say``: spaces as underscores."""
    return {name.replace(" ", "_"): value for name, value in nested.values.items()}
