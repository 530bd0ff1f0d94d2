"""Coordinates of all faces at rest, each one worked out after those that it names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from docgen.expressions import Expr, ExprFault, Lookup
from docgen.places import Span
from docgen.project.check import reach_problem
from docgen.project.evaluate import evaluate, problem_of
from docgen.project.fields import Length
from docgen.project.model import PartDef
from docgen.project.order import ordered
from docgen.project.schema import FACES
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import nearest
from docgen.units import Kind, Number, Quantity, Units, exact

Key: TypeAlias = tuple[str, int, int]
"""Part, axis (0 across, 1 deep, 2 up), side (0 low, 1 high)."""

Coordinates: TypeAlias = dict[Key, Number]

_WORDS = {place: word for word, place in FACES.items()}


def face_of(path: str) -> Key | None:
    """Return part, axis and side of a face's name, ``left side.right``; None when it is no face's name."""
    part, dot, word = path.rpartition(".")
    return (part, *FACES[word]) if dot and word in FACES else None


def face_name(key: Key) -> str:
    """Return the name of a face: ``left side.right``."""
    return f"{key[0]}.{_WORDS[key[1], key[2]]}"


def lookup_of(sizes: Mapping[str, Quantity] | Lookup, coordinates: Mapping[Key, Number]) -> Lookup:
    """Return the lookup of sizes by name and of faces by ``part.word``; KeyError for other names."""
    get: Callable[[str], Quantity] = sizes.__getitem__ if isinstance(sizes, Mapping) else sizes

    def look(path: str) -> Quantity:
        key = face_of(path)
        if key is not None and key in coordinates:
            return Quantity(coordinates[key], Kind.LENGTH)
        return get(path)

    return look


def resolve(
    parts: Iterable[PartDef], lookup_sizes: Mapping[str, Quantity] | Lookup, units: Units | None = None
) -> Coordinates:
    """Return the coordinate (mm) of each face of each part's nominal box at rest, by (part, axis, side).

    Raises Problems: unknown names, circles told step by step, boxes that have no length along an axis.
    """
    out, problems = resolved(parts, lookup_sizes, units)
    if problems:
        raise Problems(problems)
    return out


def resolved(
    parts: Iterable[PartDef], lookup_sizes: Mapping[str, Quantity] | Lookup, units: Units | None = None
) -> tuple[Coordinates, tuple[Problem, ...]]:
    """Return what `resolve` returns of the parts that have a place, and the problems of the others."""
    resolver = _Resolver(tuple(parts), lookup_sizes, units or Units())
    return resolver.coordinates(), tuple(resolver.problems)


@dataclass(slots=True)
class _Resolver:
    parts: tuple[PartDef, ...]
    sizes: Mapping[str, Quantity] | Lookup
    units: Units
    problems: list[Problem] = field(default_factory=list)

    def coordinates(self) -> Coordinates:
        exprs = {key: expr for part in self.parts for key, expr in _faces(part)}
        spans = {part.path: part.span for part in self.parts}
        needs = {key: tuple(k for k in map(face_of, expr.names()) if k is not None) for key, expr in exprs.items()}
        order, circles = ordered(needs)
        for circle in circles:
            self._circle(circle, exprs, spans)
        out: Coordinates = {}
        broken = {key for circle in circles for key in circle}
        look = lookup_of(self.sizes, out)
        for key in order:
            if any(k in broken for k in needs[key]):
                broken.add(key)
                continue
            try:
                out[key] = evaluate(exprs[key], Length(), look, self.units, spans[key[0]])
            except ExprFault as fault:
                broken.add(key)
                self._fault(fault, exprs[key], spans)
        nowhere = set(self._lengths(out, exprs))
        return {key: out[key] for key in exprs if key in out and key[0] not in nowhere}

    def _fault(self, fault: ExprFault, expr: Expr, spans: Mapping[str, Span]) -> None:
        """Note a fault; an unknown face is told as the part or the word that is not known."""
        problem = problem_of(fault, next(iter(spans.values())))
        unknown = next((leaf.path for leaf in expr.leaves() if leaf.span == fault.span), "")
        if fault.code == "unknown-name" and not fault.hint and "." in unknown:
            head, _, word = unknown.rpartition(".")
            near = nearest(head, spans)
            hint = f"did you mean '{near}.{word}'?" if near and near != head else ""
            if head in spans:
                problem = Problem(
                    "unknown-face",
                    problem.where,
                    f"'{word}' is no face of '{head}'",
                    f"the faces are {', '.join(FACES)}",
                )
            else:
                problem = Problem("unknown-part", problem.where, f"no part is called '{head}'", hint)
        self.problems.append(problem)

    def _circle(self, circle: list[Key], exprs: Mapping[Key, Expr], spans: Mapping[str, Span]) -> None:
        steps = []
        for key, needed in zip(circle, circle[1:] + circle[:1], strict=True):
            where = _named(exprs[key], face_name(needed)) or spans[key[0]]
            steps.append(f"'{face_name(key)}' needs '{face_name(needed)}' (line {where.line})")
        first = _named(exprs[circle[0]], face_name(circle[1 % len(circle)])) or spans[circle[0][0]]
        message = f"a circle: {', '.join(steps)}"
        self.problems.append(Problem("circular-places", first, message, "give one of them a place of its own"))

    def _lengths(self, out: Coordinates, exprs: Mapping[Key, Expr]) -> Iterator[str]:
        """Note the boxes that are not longer than 0 along an axis, and yield the parts."""
        for part in self.parts:
            for axis in range(3):
                low, high = out.get((part.path, axis, 0)), out.get((part.path, axis, 1))
                if low is not None and high is not None and exact(low) >= exact(high):
                    where = exprs[part.path, axis, 0].span or part.span
                    found = reach_problem(low, high, where, self.units)
                    words = f"{_WORDS[axis, 0]} to {_WORDS[axis, 1]}"
                    self.problems.append(
                        Problem(found.code, where, f"'{part.path}', {words}: {found.message}", found.hint)
                    )
                    yield part.path


def _faces(part: PartDef) -> Iterator[tuple[Key, Expr]]:
    """Yield the six faces of a part's box with their expressions."""
    for axis, pair in enumerate(part.box):
        for side, expr in enumerate(pair):
            yield (part.path, axis, side), expr


def _named(expr: Expr, path: str) -> Span | None:
    """Return where an expression names `path`."""
    return next((leaf.span for leaf in expr.leaves() if leaf.path == path), None)
