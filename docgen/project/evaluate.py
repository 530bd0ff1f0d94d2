"""Expressions of fields → values within their bounds; used for the file at once and for statements later."""

from __future__ import annotations

from docgen.expressions import Expr, ExprFault, Lookup
from docgen.places import Span
from docgen.project.fields import Angle, Count, FieldKind, Length, Mass, Plain
from docgen.reading.problems import Problem
from docgen.units import Kind, Number, Quantity, Units, format_quantity

MOST_MM = 100_000  # no furniture is longer than 100 m
MOST_COUNT = 1000
HUGE = 10**12  # from here on the digits of a number say nothing

KIND_OF = {Length: Kind.LENGTH, Angle: Kind.ANGLE, Plain: Kind.NUMBER, Count: Kind.NUMBER, Mass: Kind.MASS}
"""The quantity behind each kind of field that holds a formula."""


def problem_of(fault: ExprFault, where: Span) -> Problem:
    """Return the problem that a fault is; `where` is used when the fault has no place of its own."""
    return Problem(fault.code, fault.span or where, fault.message, fault.hint)


def evaluate(expr: Expr, kind: FieldKind, lookup: Lookup, units: Units, where: Span) -> Number | int:
    """Return the value of a field's expression: mm, degrees, kg, a plain number, or an int for counts.

    ExprFault when it has none, or when it is out of bounds.
    """
    quantity = expr.evaluate(lookup)
    message = _out_of_bounds(kind, quantity, units)
    if message:
        raise ExprFault("out-of-bounds", message, expr.span or where)
    return int(quantity.value) if isinstance(kind, Count) else quantity.value


def _out_of_bounds(kind: FieldKind, quantity: Quantity, units: Units) -> str:
    """Return what is wrong with a value, "" when nothing is."""
    value = quantity.value

    def said(number: Number) -> str:
        return format_quantity(Quantity(number, quantity.kind), units) if -HUGE < number < HUGE else "the value"

    least = getattr(kind, "least", None)
    above, most = getattr(kind, "above", None), getattr(kind, "most", None)
    if isinstance(kind, Count) and (value != int(value) or value > MOST_COUNT):
        return f"a whole number up to {MOST_COUNT} is needed, here it is {said(value)}"
    if isinstance(kind, Length) and not -MOST_MM <= value <= MOST_MM:
        return f"{said(value)} is longer than any furniture"
    if least is not None and value < least:
        return f"{said(value)} is too small, the least is {said(least)}"
    if above is not None and value <= above:
        return f"{said(value)} is too small, it must be more than {said(above)}"
    if most is not None and value > most:
        return f"{said(value)} is too large, the most is {said(most)}"
    return ""
