"""Thicknesses that are written as plain figures where a part stands, not as a named size: what a difference moves all the same."""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import dataclass, replace

from docgen.expressions import Expr
from docgen.piece.model import Part, Piece
from docgen.piece.records import Face
from docgen.places import Span
from docgen.project.resolve import face_of
from docgen.schedules.moves import NOTHING, Chain, gathered, staying
from docgen.schedules.rows import MoveRow
from docgen.units import Kind, Number, Quantity, Units

FIGURE = "thickness, a figure in the file"
"""What stands in place of a size's name; no name in a file holds a comma."""

AXIS_WORDS = (("left", "right"), ("front", "back"), ("bottom", "top"))


def written(piece: Piece, paths: Set[str]) -> MoveRow | None:
    """Return what the thickness of some parts moves where their places hold it as a figure; None where one's does not.

    All places that hold it are shifted at once: it is one board's thickness.
    """
    thick = [p for p in piece.parts if p.path in paths and len(p.box) == 3]
    spans = frozenset(span for part in thick for span in _figures(piece, part))
    if not thick or not spans:
        return None
    value = thick[0].size[2]
    moves = Chain(_named(piece, spans, FIGURE, value)).moves(FIGURE)
    grown = {m.path for m in moves if m.what == "thickness" and abs(float(m.factor) - 1) < NOTHING}
    if not {p.path for p in thick} <= grown:
        return None
    return MoveRow(FIGURE, value, "size", "", gathered(moves), (), staying(moves))


def placed_from(piece: Piece, paths: Set[str]) -> tuple[str, ...]:
    """Return the parts whose places name another's faces across its thickness, at first hand, of some parts."""
    faces = {(p.path, _axis(p)) for p in piece.parts if p.path in paths and len(p.box) == 3}
    out: dict[str, None] = {}
    for plan in piece.rules.parts:
        keys = (face_of(name) for pair in plan.box for expr in pair for name in expr.names())
        if any(key is not None and key[0] != plan.path and key[:2] in faces for key in keys):
            out[plan.path] = None
    return tuple(out)


def _axis(part: Part) -> int:
    """Return the axis of the piece, before any turn, along which a part's thickness lies."""
    return next(n for n, (low, _) in enumerate(AXIS_WORDS) if part.face(low).axis == Face(2, 0).axis)


def _figures(piece: Piece, part: Part) -> Iterator[Span]:
    """Yield where the part's own places hold its thickness as a figure."""
    plan = next((p for p in piece.rules.parts if p.path == part.path), None)
    for expr in plan.box[_axis(part)] if plan is not None else ():
        for leaf in _values(expr):
            if leaf.span is not None and abs(float(_mm(leaf, piece.units) - part.size[2])) < NOTHING:
                yield leaf.span


def _values(expr: Expr) -> Iterator[Expr]:
    if expr.op == "value":
        yield expr
    for arg in expr.args:
        yield from _values(arg)


def _mm(leaf: Expr, units: Units) -> Number:
    quantity = leaf.quantity or Quantity(0, Kind.NUMBER)
    return quantity.value * units.mm if quantity.kind is Kind.NUMBER else quantity.value


@dataclass(frozen=True, slots=True)
class _Naming:
    """Puts a size's name where some figures were written."""

    spans: Set[Span]
    name: str

    def of(self, expr: Expr) -> Expr:
        if expr.op == "value" and expr.span in self.spans:
            return Expr.name(self.name, expr.span)
        args = tuple(self.of(arg) for arg in expr.args)
        return expr if args == expr.args else replace(expr, args=args)


def _named(piece: Piece, spans: Set[Span], name: str, value: Number) -> Piece:
    """Return the piece as if those figures had been a size of their own, a length."""
    naming = _Naming(spans, name)
    parts = tuple(
        replace(plan, box=tuple((naming.of(low), naming.of(high)) for low, high in plan.box))  # type: ignore[arg-type]
        for plan in piece.rules.parts
    )
    size = (name, Quantity(value, Kind.LENGTH), "size")
    rules = replace(piece.rules, parts=parts, formulas=(*piece.rules.formulas, (name, Expr.of(value, Kind.LENGTH))))
    return replace(piece, sizes=(*piece.sizes, size), rules=rules)
