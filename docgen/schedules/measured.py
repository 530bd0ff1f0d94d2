"""Where measured sizes went: for each, the sizes made of it and the parts that are cut by them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from docgen.expressions import Expr
from docgen.piece.model import Piece, Rules
from docgen.piece.naming import parts_named
from docgen.project.statements import Bound, Lazy
from docgen.schedules.rows import MeasuredRow


def measured(piece: Piece) -> tuple[MeasuredRow, ...]:
    """Return the sizes whose value was measured or set for this run, in the order of the file."""
    drawn, days = dict(piece.rules.drawn), dict(piece.measured_on)
    out = []
    for name, value, source in piece.sizes:
        if source != "size":
            made = _made_of(name, piece.rules)
            parts = _parts(frozenset((name, *made)), piece.rules)
            known = tuple(p.path for p in piece.parts if p.path in parts)
            out.append(MeasuredRow(name, source, value, drawn.get(name), days.get(name, ""), made, known))
    return tuple(out)


def _made_of(name: str, rules: Rules) -> tuple[str, ...]:
    """Return the sizes whose formulas use a size, at first or at second hand, in the order of the file."""
    found = {name}
    while True:
        more = {size for size, formula in rules.formulas if size not in found and not found.isdisjoint(formula.names())}
        if not more:
            return tuple(size for size, _ in rules.formulas if size in found and size != name)
        found |= more


def _parts(sizes: frozenset[str], rules: Rules) -> set[str]:
    """Return the paths of parts whose box, turns, thickness or joinery name one of the sizes."""
    materials = {material for material, uses in rules.materials if not sizes.isdisjoint(uses)}
    found = {p.path for p in rules.parts if p.material in materials or not sizes.isdisjoint(names_in((p.box, p.turns)))}
    for statement in rules.statements:
        if not sizes.isdisjoint(names_in(statement)):
            found.update(path for path, _ in parts_named(statement))
    return found


def names_in(value: Any) -> Iterator[str]:
    """Yield the names in the formulas of a value."""
    for formula in formulas_in(value):
        yield from formula.names()


def formulas_in(value: Any) -> Iterator[Expr]:
    """Yield the formulas in a value of a statement, or in the statement."""
    if isinstance(value, Expr):
        yield value
    elif isinstance(value, (Lazy, Bound)):
        yield from formulas_in(value.values)
    elif isinstance(value, (Mapping, tuple)):
        for inner in value.values() if isinstance(value, Mapping) else value:
            yield from formulas_in(inner)
