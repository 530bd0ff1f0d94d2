"""Statements with expressions → statements with values."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import Any

from docgen.expressions import Expr, ExprFault, Lookup
from docgen.places import Span
from docgen.project.check import reach_problem
from docgen.project.evaluate import evaluate, problem_of
from docgen.project.fields import (
    Angle,
    Box,
    ByFace,
    Count,
    FieldKind,
    Length,
    Many,
    Mass,
    MaterialName,
    Nested,
    PartName,
    Place,
    Plain,
    Reach,
)  # fmt: skip
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.units import Units


def bind(
    lazy: Lazy,
    lookup: Lookup,
    *,
    units: Units | None = None,
    parts: Collection[str] | None = None,
    materials: Collection[str] | None = None,
    names: Collection[str] = (),
) -> Bound:
    """Return the statement with all its expressions evaluated.

    `lookup` gives sizes and faces by name; KeyError there is an unknown name, and `names` are what may have been meant.
    Names of parts and materials are checked where `parts` and `materials` are given. `units` is how messages print
    lengths. Raises Problems with everything that is wrong with the statement.
    """
    binder = _Binder(lookup, units or Units(), parts, materials, names)
    bound = binder.statement(lazy)
    if binder.problems:
        raise Problems(binder.problems)
    return bound


@dataclass(slots=True)
class _Binder:
    lookup: Lookup
    units: Units
    parts: Collection[str] | None
    materials: Collection[str] | None
    names: Collection[str]
    problems: list[Problem] = field(default_factory=list)

    def statement(self, lazy: Lazy) -> Bound:
        kinds = {f.name: f.kind for f in lazy.word.fields}
        values = {
            name: self.value(value, kinds[name], name, lazy.spans, lazy.spans.get(name, lazy.span))
            for name, value in lazy.values.items()
        }
        return Bound(lazy.word, values, lazy.span, lazy.spans, lazy.name, lazy.because)

    def value(self, value: Any, kind: FieldKind, path: str, spans: Mapping[str, Span], where: Span) -> Any:
        """Return the value with its expressions evaluated; None where that cannot be done."""
        if value is None:
            return None
        where = spans.get(path, where)
        go: Callable[[Any, FieldKind, str], Any] = lambda v, k, tail: self.value(v, k, f"{path}.{tail}", spans, where)  # noqa: E731 - three places below need the same call
        match kind:
            case Length() | Angle() | Plain() | Mass() | Count():
                return self._number(value, kind, where)
            case Reach():
                return self._reach(tuple(go(v, Length(), str(i)) for i, v in enumerate(value)), where)
            case Box():
                return tuple(go(v, Reach(), axis) for v, axis in zip(value, ("across", "deep", "up"), strict=True))
            case Place():
                return {word: go(v, Length(), word) for word, v in value.items()}
            case ByFace(inner):
                return {word: go(v, inner, word) for word, v in value.items()}
            case Many(inner):
                return tuple(go(v, inner, str(i)) for i, v in enumerate(value))
            case Nested():
                return self.statement(value)
            case PartName() if self.parts is not None:
                return self._known(value, self.parts, "part", where)
            case MaterialName() if self.materials is not None:
                return self._known(value, self.materials, "material", where)
            case _:
                return value

    def _number(self, expr: Expr, kind: FieldKind, where: Span) -> Any:
        try:
            return evaluate(expr, kind, self.lookup, self.units, where)
        except ExprFault as fault:
            problem = problem_of(fault, where)
            if fault.code == "unknown-name" and not fault.hint:
                problem = self._hinted(expr, problem)
            self.problems.append(problem)
            return None

    def _hinted(self, expr: Expr, problem: Problem) -> Problem:
        """Return the problem with the nearest known name."""
        path = next((leaf.path for leaf in expr.leaves() if leaf.span == problem.where), "")
        return Problem(problem.code, problem.where, problem.message, did_you_mean(path, self.names) if path else "")

    def _reach(self, pair: tuple[Any, ...], where: Span) -> tuple[Any, ...]:
        low, high = pair
        if low is not None and high is not None and low >= high:
            self.problems.append(reach_problem(low, high, where, self.units))
        return pair

    def _known(self, name: str, known: Collection[str], what: str, where: Span) -> str:
        if name not in known:
            hint = did_you_mean(name, known)
            self.problems.append(Problem(f"unknown-{what}", where, f"no {what} is called '{name}'", hint))
        return name
