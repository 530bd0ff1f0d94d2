"""What a size that is a plain number stands for: told from where the file uses it, since the number does not say.

A box's end is a length and a turn an angle; a statement's field takes what it is given as one kind. In a formula the
kind that is asked of the whole is asked of its parts: of both in a sum, of an angle function's argument an angle.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from docgen.expressions import Expr
from docgen.piece.model import Piece
from docgen.project.resolve import face_of
from docgen.schedules.measured import formulas_in
from docgen.units import Kind

UNTOLD = None
"""Asked where a length and a ratio would both do: a factor beside another name, a divisor, what a root is taken of."""

Asked = tuple[str, Kind | None]

_ARGUMENTS: Mapping[str, Kind | None] = {
    "sin": Kind.ANGLE,
    "cos": Kind.ANGLE,
    "tan": Kind.ANGLE,
    "asin": Kind.NUMBER,
    "acos": Kind.NUMBER,
    "atan": Kind.NUMBER,
    "sqrt": UNTOLD,
}
_PASSED = ("+", "-", "min", "max", "neg", "abs")


def lengths(piece: Piece) -> tuple[str, ...]:
    """Return the named sizes that stand for lengths and come from no other size, in the order of the file.

    A plain number counts as a length in the file's unit where it is used as one, and nowhere as a count, an angle or
    a ratio.
    """
    kinds = {name: value.kind for name, value, _ in piece.sizes}
    told = _Told(kinds, dict(piece.rules.formulas))
    told.look(piece)
    roots = [name for name, expr in piece.rules.formulas if not expr.names()]
    return tuple(
        n for n in roots if kinds[n] is Kind.LENGTH or (kinds[n] is Kind.NUMBER and told.of(n) == {Kind.LENGTH})
    )


@dataclass(slots=True)
class _Told:
    """What is asked of each size where it is used, at first hand and through other sizes."""

    kinds: Mapping[str, Kind]
    formulas: Mapping[str, Expr]
    asked: set[Asked] = field(default_factory=set)

    def of(self, name: str) -> set[Kind]:
        """Return the kinds that are asked of a size, without those that its place leaves open."""
        return {kind for found, kind in self.asked if found == name and kind is not UNTOLD}

    def look(self, piece: Piece) -> None:
        """Go through everything that names a size."""
        for name, expr in piece.rules.formulas:
            kind = self.kinds[name]
            self._ask(expr, UNTOLD if kind is Kind.NUMBER else kind)
        for part in piece.rules.parts:
            for end in (end for pair in part.box for end in pair):
                self._ask(end, Kind.LENGTH)
            for _, angle, *at in part.turns:
                self._ask(angle, Kind.ANGLE)
                for place in at:
                    self._ask(place, Kind.LENGTH)
        for statement in piece.rules.statements:
            for expr in formulas_in(statement):
                self._ask(expr, UNTOLD)  # what its field asks for stands in the formula: "take"

    def _ask(self, expr: Expr, kind: Kind | None) -> None:
        """Note what is asked of the names in a formula of which `kind` is asked."""
        if expr.op == "name":
            self._ask_name(expr.path, kind)
        elif expr.op in _ARGUMENTS:
            self._ask(expr.args[0], _ARGUMENTS[expr.op])
        elif expr.op == "take":
            self._ask(expr.args[0], expr.kind)
        elif expr.op in _PASSED:
            known = next((k for k in map(self._kind, expr.args) if k is not Kind.NUMBER), kind)
            for arg in expr.args:
                self._ask(arg, known)
        elif expr.op == "*":
            self._ask_product(expr.args[0], expr.args[1], kind)
        elif expr.op == "/":
            above, below = expr.args
            ratio = kind is Kind.NUMBER or self._kind(below) is not Kind.NUMBER  # of two lengths, it may be
            self._ask(above, UNTOLD if ratio else kind)
            self._ask(below, UNTOLD)

    def _ask_name(self, name: str, kind: Kind | None) -> None:
        if (name, kind) not in self.asked and name in self.formulas:
            self.asked.add((name, kind))
            self._ask(self.formulas[name], kind)

    def _ask_product(self, one: Expr, two: Expr, kind: Kind | None) -> None:
        """Ask of a factor what is asked of the product, where the other one is surely a plain number."""
        for factor, other in ((one, two), (two, one)):
            if self._kind(other) is not Kind.NUMBER:
                self._ask(factor, Kind.NUMBER if kind is not UNTOLD else UNTOLD)
            else:
                self._ask(factor, kind if self._ratio(other) else UNTOLD)

    def _ratio(self, expr: Expr) -> bool:
        """Return whether a plain number can be no length: a constant, or what a function gives."""
        return not expr.names() or (expr.op in _ARGUMENTS and expr.op != "sqrt")

    def _kind(self, expr: Expr) -> Kind:
        """Return the kind of a formula's value: NUMBER for what a plain number may stand for as well."""
        if expr.op == "value" and expr.quantity is not None:
            return expr.quantity.kind
        if expr.op == "name":
            return Kind.LENGTH if face_of(expr.path) else self.kinds.get(expr.path, Kind.NUMBER)
        if expr.op == "take" and expr.kind is not None:
            return expr.kind
        inner = [self._kind(arg) for arg in expr.args]
        if expr.op in _PASSED:
            return next((k for k in inner if k is not Kind.NUMBER), Kind.NUMBER)
        if expr.op == "*":
            both = inner[0] is inner[1] is Kind.LENGTH
            return Kind.AREA if both else next((k for k in inner if k is not Kind.NUMBER), Kind.NUMBER)
        if expr.op == "/":
            area = (inner[0], inner[1]) == (Kind.AREA, Kind.LENGTH)
            return Kind.LENGTH if area else inner[0] if inner[1] is Kind.NUMBER else Kind.NUMBER
        if expr.op == "sqrt":
            return Kind.LENGTH if inner[0] is Kind.AREA else Kind.NUMBER
        return Kind.ANGLE if expr.op in ("asin", "acos", "atan") else Kind.NUMBER
