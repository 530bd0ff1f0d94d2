"""Named sizes → values: what is set for this run wins over what was measured, and that over what is written."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping as MappingOf
from dataclasses import dataclass, field

from docgen.expressions import RESERVED, Expr, ExprFault, KindFault, parse
from docgen.expressions.arithmetic import taken_as
from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.evaluate import problem_of
from docgen.project.model import Figures
from docgen.project.order import ordered
from docgen.project.schema import COPY, FACES, MEASURED, NAME
from docgen.reading.problems import Problem
from docgen.reading.tree import Mapping, Node, Scalar
from docgen.reading.words import did_you_mean
from docgen.units import Kind, Quantity

SETS_FILE = "--set"  # what spans of values given for one run have in the place of the file


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes in the order of the file; `broken` are those that have no value."""

    figures: Figures = ()
    spans: MappingOf[str, Span] = field(default_factory=dict)
    measured_on: MappingOf[str, str] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()
    formulas: tuple[tuple[str, Expr], ...] = ()  # what each value comes from
    drawn: tuple[tuple[str, Quantity], ...] = ()  # what the file says of the sizes whose value was measured or set

    @property
    def values(self) -> dict[str, Quantity]:
        """The values by name."""
        return {name: value for name, value, _ in self.figures}


@dataclass(frozen=True, slots=True)
class _Written:
    """What stands for a size somewhere: None when it is no formula."""

    expr: Expr | None
    span: Span
    source: str


def set_source(sets: MappingOf[str, str]) -> str:
    """Return the text in which problems of `sets` have their places, for `tell`: one NAME=VALUE a line."""
    return "\n".join(f"{name}={value}" for name, value in sets.items())


def read_sizes(sizes: Mapping | None, measured: Mapping | None, sets: MappingOf[str, str], checker: Checker) -> Sizes:
    """Return the sizes with their values; the checker keeps what is wrong."""
    written = _written(sizes, checker)
    over, dates = _measured(measured, written, checker)
    over |= _given(sets, written, checker)
    return _Resolver(written, over, checker).sizes(dates)


def _written(sizes: Mapping | None, checker: Checker) -> dict[str, _Written]:
    out: dict[str, _Written] = {}
    for entry in sizes.items if sizes else ():
        name = entry.key.text
        if name_fits(entry.key, "size", checker) and (name in RESERVED or name in FACES or name == COPY):
            what = "a face" if name in FACES else "a copy's number" if name == COPY else "a unit or a function"
            checker.fault(
                "reserved-name", entry.key.span, f"'{name}' is the word of {what}", "give the size another name"
            )
        out[name] = _Written(_formula(entry.value, entry.key, checker), entry.value.span, "size")
    return out


def name_fits(key: Scalar, what: str, checker: Checker) -> bool:
    """Return whether a name is made of letters, digits, _ and spaces; note a problem otherwise."""
    if NAME.fullmatch(key.text):
        return True
    wrong = next((c for c in key.text if not (c.isalnum() or c in "_ ")), None)
    message = f"'{key.text}' cannot be the name of a {what}"
    hint = "a name begins with a letter and has letters, digits, _ and single spaces"
    if wrong == "-":
        hint = "a formula reads - as minus: write a space or _"
    elif wrong is not None:
        hint = f"leave out {wrong!r}: {hint}"
    checker.fault("bad-name", key.span, message, hint)
    return False


def _formula(node: Node, key: Scalar, checker: Checker) -> Expr | None:
    if isinstance(node, Scalar) and not node.absent:
        return _parsed(node.text, node.span, checker)
    if isinstance(node, Scalar):
        checker.fault("missing-value", key.span, f"'{key.text}' has no value")
    else:
        checker.fault("wrong-shape", node.span, f"'{key.text}' needs a number or a formula")
    return None


def _parsed(text: str, span: Span, checker: Checker) -> Expr | None:
    try:
        return parse(text, span, checker.units)
    except ExprFault as fault:
        checker.problems.append(problem_of(fault, span))
        return None


def _measured(
    measured: Mapping | None, written: MappingOf[str, _Written], checker: Checker
) -> tuple[dict[str, _Written], dict[str, str]]:
    """Return what was measured, and the dates of it."""
    out: dict[str, _Written] = {}
    dates: dict[str, str] = {}
    for entry in measured.items if measured else ():
        name, node = entry.key.text, entry.value
        if name not in written:
            hint = did_you_mean(name, written, otherwise="a measured size must also stand under sizes")
            checker.fault("unknown-size", entry.key.span, f"no size is called '{name}'", hint)
        if isinstance(node, Mapping):
            checker.known_keys(node, (f.name for f in MEASURED), "a measured size")
            value, day = node.get("value"), node.get("on")
            if value is None:
                checker.fault("missing-key", entry.key.span, f"'{name}' lacks 'value'", "value: what the calliper said")
                continue
            if day is not None:
                dates[name] = read_date(day.value, checker)
            node = value.value
        out[name] = _Written(_formula(node, entry.key, checker), node.span, "measured")
    return out, dates


def read_date(node: Node, checker: Checker) -> str:
    """Return a date written as 2026-03-02; note a problem when it is none."""
    text = checker.text(node, "a date") or ""
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            raise ValueError
        datetime.date.fromisoformat(text)
    except ValueError:
        checker.fault("bad-date", node.span, f"'{text}' is no date", "write year, month and day as 2026-03-02")
    return text


def _given(sets: MappingOf[str, str], written: MappingOf[str, _Written], checker: Checker) -> dict[str, _Written]:
    """Return what was set for this run."""
    out: dict[str, _Written] = {}
    for line, (raw, text) in enumerate(sets.items(), start=1):
        name = " ".join(raw.split())
        if name not in written:
            hint = did_you_mean(name, written, otherwise="only a size of the file can be set")
            where = Span(SETS_FILE, line, 1, max(1, len(raw)))
            checker.fault("unknown-size", where, f"no size is called '{name}'", hint)
            continue
        span = Span(SETS_FILE, line, len(raw) + 2, max(1, len(text)))
        out[name] = _Written(_parsed(text, span, checker), span, "set")
    return out


class _Resolver:
    """Evaluates sizes in an order in which each one's names have values already."""

    def __init__(self, written: MappingOf[str, _Written], over: MappingOf[str, _Written], checker: Checker) -> None:
        self._written, self._over, self._checker = written, over, checker
        self._values: dict[str, Quantity] = {}
        self._drawn: dict[str, Quantity] = {}
        self._broken: set[str] = set()

    def sizes(self, dates: MappingOf[str, str]) -> Sizes:
        """Return all sizes in the order of the file."""
        order, circles = ordered({name: self._needs(name) for name in self._written})
        for circle in circles:
            self._circle(circle)
        for name in order:
            self._resolve(name)
        used = {name: self._over.get(name, self._written[name]) for name in self._written}
        return Sizes(
            tuple((name, self._values[name], used[name].source) for name in self._written if name in self._values),
            {name: one.span for name, one in used.items()},
            {name: day for name, day in dates.items() if name in used and used[name].source == "measured"},
            frozenset(self._broken),
            tuple((name, one.expr) for name, one in used.items() if one.expr is not None),
            tuple((name, self._drawn[name]) for name in used if name in self._drawn),
        )

    def _both(self, name: str) -> list[_Written]:
        """Return what stands for a size: the value of the file, and what wins over it."""
        return [self._written[name], *([self._over[name]] if name in self._over else [])]

    def _needs(self, name: str) -> tuple[str, ...]:
        return tuple(path for one in self._both(name) if one.expr for path in one.expr.names())

    def _circle(self, circle: list[str]) -> None:
        self._broken.update(circle)
        steps = [
            f"'{name}' needs '{needed}' ({_line(self._place(name, needed), self._written[circle[0]].span)})"
            for name, needed in zip(circle, circle[1:] + circle[:1], strict=True)
        ]
        where = self._place(circle[0], circle[1 % len(circle)])
        self._checker.fault(
            "circular-sizes", where, f"a circle: {', '.join(steps)}", "give one of them a value of its own"
        )

    def _place(self, name: str, needed: str) -> Span:
        """Return where a size names another."""
        leaves = (leaf for one in self._both(name) if one.expr for leaf in one.expr.leaves() if leaf.path == needed)
        return next((leaf.span for leaf in leaves if leaf.span), self._written[name].span)

    def _resolve(self, name: str) -> None:
        found = [self._value(one) for one in self._both(name)]
        written, used = found[0], found[-1]
        if written is None or used is None:
            self._broken.add(name)
            return
        try:
            kind = written.kind
            fits = kind is Kind.NUMBER or used.kind is kind
            self._values[name] = used if fits else taken_as(used, kind, self._checker.units)
            if name in self._over:
                self._drawn[name] = written
        except KindFault as fault:
            self._broken.add(name)
            self._checker.fault(fault.code, self._over[name].span, f"'{name}': {fault.message}", fault.hint)

    def _value(self, written: _Written) -> Quantity | None:
        """Return the value; None when it has none, with a problem unless a broken size is the reason."""
        expr = written.expr
        if expr is None:
            return None
        unknown = [leaf for leaf in expr.leaves() if leaf.path not in self._written]
        self._checker.problems += [self._unknown(leaf.path, leaf.span or written.span) for leaf in unknown]
        if unknown or any(name in self._broken for name in expr.names()):
            return None
        try:
            return expr.evaluate(self._values.__getitem__)
        except ExprFault as fault:
            self._checker.problems.append(problem_of(fault, written.span))
            return None

    def _unknown(self, path: str, where: Span) -> Problem:
        hint = did_you_mean(path, self._written)
        if "." in path and not hint:
            hint = "sizes are made of numbers and other sizes; faces of parts have their places later"
        return Problem("unknown-name", where, f"no size is called '{path}'", hint)


def _line(where: Span, beside: Span) -> str:
    """Return the line of a place, with its file where that is not the one of another place."""
    return f"line {where.line}" if where.file == beside.file else f"{where.file}, line {where.line}"
