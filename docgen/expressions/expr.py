"""Expressions as trees: made from text by `parse`, or in Python with the usual signs."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import reduce
from typing import TypeAlias

from docgen.expressions import arithmetic
from docgen.expressions.arithmetic import KindFault
from docgen.places import Span
from docgen.units import Kind, Number, Quantity, Units

Lookup: TypeAlias = Callable[[str], Quantity]
"""Gives the quantity that a name stands for; KeyError when there is none."""

_ONE: dict[str, Callable[[Quantity], Quantity]] = {
    "neg": arithmetic.negate,
    "abs": arithmetic.magnitude,
    "sqrt": arithmetic.root,
    "sin": arithmetic.sine,
    "cos": arithmetic.cosine,
    "tan": arithmetic.tangent,
    "asin": arithmetic.arc(math.asin, "asin"),
    "acos": arithmetic.arc(math.acos, "acos"),
    "atan": arithmetic.arc(math.atan, "atan"),
}


class ExprFault(Exception):
    """An expression that cannot be read or has no value; `span` holds the characters at fault."""

    def __init__(self, code: str, message: str, span: Span | None = None, hint: str = "") -> None:
        super().__init__(message)
        self.code, self.message, self.span, self.hint = code, message, span, hint


@dataclass(frozen=True, slots=True)
class Expr:
    """One node: a value, a name, or an operation on other nodes.

    `units` says how plain numbers read; it is set on what was parsed from a file. In sums made in Python a
    plain number beside a length is a fault, since nobody said its unit: add a `Quantity`.
    """

    op: str  # "value", "name", "take", "neg", "+", "-", "*", "/" or a function
    args: tuple[Expr, ...] = ()
    quantity: Quantity | None = None
    path: str = ""
    kind: Kind | None = None  # of "take"
    span: Span | None = None
    units: Units | None = None

    @staticmethod
    def of(value: Number | int, kind: Kind = Kind.NUMBER, span: Span | None = None) -> Expr:
        """Return the expression of a value: mm, degrees, kg or a plain number."""
        return Expr("value", quantity=Quantity(_number(value), kind), span=span)

    @staticmethod
    def name(path: str, span: Span | None = None) -> Expr:
        """Return the expression of a size's name or of a face: ``seat_height``, ``left side.right``."""
        return Expr("name", path=path, span=span)

    def take(self, kind: Kind, units: Units) -> Expr:
        """Return the expression as one of `kind`: a plain number takes the file's unit, or degrees."""
        return Expr("take", (self,), kind=kind, span=self.span, units=units)

    def at(self, span: Span | None) -> Expr:
        """Return the expression as written at `span`."""
        return replace(self, span=span)

    def leaves(self) -> tuple[Expr, ...]:
        """Return the name nodes in the order in which they are written."""
        if self.op == "name":
            return (self,)
        return tuple(leaf for arg in self.args for leaf in arg.leaves())

    def names(self) -> tuple[str, ...]:
        """Return the names, each once, in the order in which they are written."""
        return tuple(dict.fromkeys(leaf.path for leaf in self.leaves()))

    def renamed(self, change: Callable[[str], str | Expr]) -> Expr:
        """Return the expression with each name changed, to another name or to what stands for it."""
        if self.op == "name":
            new = change(self.path)
            return replace(self, path=new) if isinstance(new, str) else new.at(self.span)
        args = tuple(arg.renamed(change) for arg in self.args)
        return self if args == self.args else replace(self, args=args)

    def evaluate(self, lookup: Lookup) -> Quantity:
        """Return the value; ExprFault at the characters that have none.

        A KeyError from `lookup` is told as an unknown name.
        """
        if self.op == "value" and self.quantity is not None:
            return self.quantity
        if self.op == "name":
            return self._found(lookup)
        values = [arg.evaluate(lookup) for arg in self.args]
        try:
            return self._combined(values)
        except KindFault as fault:
            raise ExprFault(fault.code, fault.message, self.span, fault.hint) from None
        except OverflowError:
            raise ExprFault("number-too-large", "the result is larger than any piece of furniture", self.span) from None

    def _found(self, lookup: Lookup) -> Quantity:
        try:
            return lookup(self.path)
        except KeyError:
            raise ExprFault("unknown-name", f"nothing is called '{self.path}'", self.span) from None

    def _combined(self, values: list[Quantity]) -> Quantity:
        match self.op:
            case "+":
                return arithmetic.add(values[0], values[1], self.units)
            case "-":
                return arithmetic.subtract(values[0], values[1], self.units)
            case "*":
                return arithmetic.multiply(values[0], values[1])
            case "/":
                return arithmetic.divide(values[0], values[1])
            case "take" if self.kind is not None:
                return arithmetic.taken_as(values[0], self.kind, self.units)
            case "min" | "max":
                return self._chosen(values)
            case _:
                return _ONE[self.op](values[0])

    def _chosen(self, values: list[Quantity]) -> Quantity:
        def pick(a: Quantity, b: Quantity) -> Quantity:
            a, b = arithmetic.alike(a, b, self.units, "compared with")
            return a if (a.value <= b.value) == (self.op == "min") else b

        return reduce(pick, values)

    def __add__(self, other: Operand) -> Expr:
        return _made("+", self, other)

    def __radd__(self, other: Operand) -> Expr:
        return _made("+", other, self)

    def __sub__(self, other: Operand) -> Expr:
        return _made("-", self, other)

    def __rsub__(self, other: Operand) -> Expr:
        return _made("-", other, self)

    def __mul__(self, other: Operand) -> Expr:
        return _made("*", self, other)

    def __rmul__(self, other: Operand) -> Expr:
        return _made("*", other, self)

    def __truediv__(self, other: Operand) -> Expr:
        return _made("/", self, other)

    def __rtruediv__(self, other: Operand) -> Expr:
        return _made("/", other, self)

    def __neg__(self) -> Expr:
        return _made("neg", self)


Operand: TypeAlias = Expr | Quantity | Number | int


def sin(angle: Operand) -> Expr:
    """Return the sine of an angle; a plain number counts as degrees."""
    return _made("sin", angle)


def cos(angle: Operand) -> Expr:
    """Return the cosine of an angle; a plain number counts as degrees."""
    return _made("cos", angle)


def tan(angle: Operand) -> Expr:
    """Return the tangent of an angle; a plain number counts as degrees."""
    return _made("tan", angle)


def asin(ratio: Operand) -> Expr:
    """Return the angle with this sine."""
    return _made("asin", ratio)


def acos(ratio: Operand) -> Expr:
    """Return the angle with this cosine."""
    return _made("acos", ratio)


def atan(ratio: Operand) -> Expr:
    """Return the angle with this tangent."""
    return _made("atan", ratio)


def sqrt(value: Operand) -> Expr:
    """Return the square root of an area (a length) or of a plain number."""
    return _made("sqrt", value)


def least(*values: Operand) -> Expr:
    """Return the least of some quantities: ``min`` in the file."""
    return _made("min", *values)


def greatest(*values: Operand) -> Expr:
    """Return the greatest of some quantities: ``max`` in the file."""
    return _made("max", *values)


def size_of(value: Operand) -> Expr:
    """Return the quantity without its sign: ``abs`` in the file."""
    return _made("abs", value)


def _made(op: str, *operands: Operand) -> Expr:
    args = tuple(_operand(operand) for operand in operands)
    return Expr(op, args, span=next((arg.span for arg in args if arg.span), None))


def _operand(value: Operand) -> Expr:
    if isinstance(value, Expr):
        return value
    if isinstance(value, Quantity):
        return Expr("value", quantity=value)
    return Expr.of(value)


def _number(value: Number | int) -> Number:
    if isinstance(value, bool) or not isinstance(value, (int, float, Fraction)):
        raise TypeError(f"no number: {value!r}")
    return Fraction(value) if isinstance(value, int) else value
