"""Statements made in Python, as assemblies make them: checked like those of the file."""

from __future__ import annotations

from collections.abc import Mapping as MappingOf
from fractions import Fraction
from typing import Any

from docgen.expressions import Expr
from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.fields import Word
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problems
from docgen.reading.tree import Entry, Mapping, Node, Scalar, Sequence, placed, read_value
from docgen.units import Quantity, Units


def said(
    word: Word, values: MappingOf[str, Any], units: Units, span: Span, because: tuple[Span, ...] = (), *, name: str = ""
) -> Lazy:
    """Return the statement that says `values`; its places are `span`.

    Values are what the file would hold: text that parses, `Expr`, `Quantity`, whole numbers, yes and no as bool, lists
    and mappings of these, nested statements; None leaves a field out. Keys may have underscores for spaces. Raises Problems.
    """
    checker = Checker(units)
    lazy = checker.statement(word, _node(values, span), span, name=name, because=because)
    if lazy is None:
        raise Problems(checker.problems)
    return lazy


def _node(value: Any, span: Span) -> Node:
    """Return the tree that holds a Python value."""
    match value:
        case Lazy() | Bound():
            return _node(value.values, span)
        case MappingOf():
            items = ((str(key).replace("_", " "), inner) for key, inner in value.items() if inner is not None)
            return Mapping(tuple(Entry(Scalar(key, span), _node(inner, span)) for key, inner in items), span)
        case list() | tuple():
            return Sequence(tuple(_node(inner, span) for inner in value), span)
        case Scalar() | Sequence() | Mapping():
            return placed(value, span)
        case bool():
            return Scalar("yes" if value else "no", span)
        case Expr():
            return Scalar("", span, made=value)
        case Quantity():
            return Scalar("", span, made=Expr("value", quantity=value))
        case int():
            return Scalar(str(value), span)
        case str():
            return read_value(value, span)
    if isinstance(value, (float, Fraction)):
        raise TypeError(f"{value!r} has no unit: say it as a Quantity, or as text")
    raise TypeError(f"the file could not hold {value!r}")
