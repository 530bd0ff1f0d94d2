"""How single values stand in the facts: numbers, lengths with their text, places in the file."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from docgen.piece.records import Origin
from docgen.places import Span
from docgen.units import Number, Units, format_angle, plain_length

AXES = ("length", "width", "thickness")
PIECE_AXES = ("across", "deep", "up")

Json = dict[str, Any]


def number(of: Number) -> float | int:
    """Return a JSON number: whole where the value is, else to a millionth."""
    if isinstance(of, Fraction) and of.denominator == 1:
        return of.numerator
    rounded = round(float(of), 6) + 0.0
    return int(rounded) if rounded == int(rounded) else rounded


def vector(v: Sequence[Number]) -> list[float | int]:
    """Return the numbers of a vector."""
    return [number(x) for x in v]


def place(span: Span | None) -> Json | None:
    """Return a place in the file, null when there is none."""
    return None if span is None else {"file": span.file, "line": span.line, "column": span.column}


def origin(made: Origin) -> Json:
    """Return where a record comes from."""
    return {"at": place(made.span), "because": [place(s) for s in made.because], "source": made.source}


def length(name: str, of: Number | None, units: Units) -> Json:
    """Return the number and, where there is one, its text."""
    if of is None:
        return {name: None}
    return {name: number(of), f"{name}_text": plain_length(of, units)}


def value(of: Number | str, kind: str, units: Units) -> Json:
    """Return a value of a set-up or a figure by its kind."""
    if isinstance(of, str):
        return {"value": of, "kind": kind}
    text = plain_length(of, units) if kind == "length" else format_angle(of) if kind == "angle" else str(number(of))
    return {"value": number(of), "kind": kind, "text": text}
