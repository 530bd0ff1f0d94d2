"""Parts said once and made several times, and the statements that name them.

The copies of a part ``slat`` are ``slat.1``, ``slat.2`` and so on. Their number depends on sizes alone, so that all
names are known before anything has a place. In the formulas of what is repeated, ``copy`` is the number of the copy,
and its own name means that copy.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from docgen.expressions import Expr, ExprFault
from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.evaluate import evaluate
from docgen.project.fields import Count, FieldKind, Many, Nested, PartName, Word
from docgen.project.model import Spans
from docgen.project.names import Names
from docgen.project.schema import AXES, COPY, REPEAT
from docgen.project.statements import Lazy
from docgen.reading.tree import Mapping as Tree
from docgen.reading.tree import Node, Scalar
from docgen.units import Kind, Quantity, Units

WAYS = ("step", "between", "spread", "at")
"""How the copies of a part are set out; one of them is said."""


def count_of(node: Node, sizes: Mapping[str, Quantity], units: Units) -> int:
    """Return how many copies a part's `repeat` makes; 1 where it cannot be told: that is told when the part is read."""
    checker = Checker(units)
    lazy = checker.statement(Word("repeat", "section", "", REPEAT, "", lambda *_: None), node, node.span)
    if lazy is None:
        return 1
    if lazy["count"] is None:
        return max(1, len(lazy["at"] or ()))
    return number_of(lazy["count"], sizes, units, node.span)


def number_of(expr: Expr, sizes: Mapping[str, Quantity], units: Units, where: Span) -> int:
    """Return a count that depends on sizes alone, 1 where it has no value."""
    try:
        return int(evaluate(expr, Count(), sizes.__getitem__, units, where))
    except ExprFault:
        return 1


def within(names: Names, number: int, *opened: str) -> Names:
    """Return the names that may stand in what belongs to one copy."""
    sizes = {**names.sizes, COPY: Quantity(number, Kind.NUMBER)}
    return replace(names, sizes=sizes, open=names.open | frozenset(opened))


def sound(repeat: Lazy, where: Span, checker: Checker, names: Names) -> bool:
    """Tell whether a part's `repeat` says one way of setting its copies out; note a problem otherwise."""
    said = [way for way in WAYS if repeat[way] is not None]
    if len(said) != 1:
        found = f"it says {' and '.join(said)}" if said else "it says none"
        hint = f"one of {', '.join(WAYS)}"
        checker.fault("repeat-ways", where, f"copies are set out in one way, here {found}", hint)
        return False
    count = repeat["count"]
    if (count is None) != (said == ["at"]):
        message = "a list of places needs no count" if said == ["at"] else f"'{said[0]}' needs a count"
        checker.fault("repeat-ways", repeat.spans.get("count", where), message, "count: 4, or at: a list of places")
        return False
    if count is not None and not names.only_sizes(count):
        message = "how many copies there are depends on sizes alone, not on where a part stands"
        checker.fault("repeat-count", repeat.spans["count"], message, "a number, or a formula of sizes")
        return False
    least = 2 if said == ["spread"] else 1
    if count is not None and number_of(count, names.sizes, checker.units, where) < least:
        checker.fault("repeat-count", repeat.spans["count"], "the first and the last copy are two", "count: 2 or more")
        return False
    return True


def moved(box: Spans, repeat: Lazy, count: int, number: int) -> Spans:
    """Return the box of one copy, by its number from 1. Its extents are those of the box that is said."""
    axis = AXES.index(repeat["along"])
    low, high = box[axis]
    size = high - low
    if repeat["step"] is not None:
        start = low + repeat["step"] * (number - 1)
    elif repeat["at"] is not None:
        start = repeat["at"][number - 1]
    elif repeat["between"] is not None:
        first, last = repeat["between"]
        gap = (last - first - size * count) / (count + 1)
        start = first + gap * number + size * (number - 1)
    else:
        first, last = repeat["spread"]
        start = first + (last - first - size) * (number - 1) / (count - 1)
    out = list(box)
    out[axis] = (start, start + size)
    return out[0], out[1], out[2]


def change_of(base: str, number: int) -> Callable[[str], str | Expr]:
    """Return how names change in one copy: ``copy`` is its number, its own faces and parts become the copy's.

    The bare name stays, it may be that of a size; so does the name of a certain copy.
    """

    def change(path: str) -> str | Expr:
        if path == COPY:
            return Expr.of(number)
        if path.startswith(f"{base}.") and not path[len(base) + 1].isdigit():
            return f"{base}.{number}{path[len(base) :]}"
        return path

    return change


def changed(value: Any, change: Callable[[str], str | Expr]) -> Any:
    """Return a value of a statement with the names in its formulas changed."""
    if isinstance(value, Expr):
        return value.renamed(change)
    if isinstance(value, Lazy):
        return replace(value, values={name: changed(v, change) for name, v in value.values.items()})
    if isinstance(value, tuple):
        return tuple(changed(v, change) for v in value)
    if isinstance(value, Mapping):
        return {key: changed(v, change) for key, v in value.items()}
    return value


def repeats_named(word: Word, node: Node, names: Names) -> tuple[str, ...]:
    """Return the repeats that a statement names where one part is meant: it is carried out for each of their copies."""
    if not isinstance(node, Tree):
        return ()
    single = {f.name for f in word.fields if isinstance(f.kind, PartName)}
    found = (entry.value for entry in node.items if entry.key.text in single)
    return tuple(dict.fromkeys(v.text for v in found if isinstance(v, Scalar) and v.text in names.repeats))


@dataclass(slots=True)
class Copies:
    """Puts single copies in the place of the repeats that a statement names; lists of parts hold theirs already."""

    checker: Checker
    names: Names
    one: Mapping[str, int]  # repeats that stand for one copy → its number

    def statement(self, lazy: Lazy) -> Lazy:
        """Return the statement for one copy."""
        values = {
            f.name: self._value(f.kind, lazy.values.get(f.name), f.name, lazy.spans, lazy.spans.get(f.name, lazy.span))
            for f in lazy.word.fields
        }
        for base, number in self.one.items():
            values = {name: changed(value, change_of(base, number)) for name, value in values.items()}
        return replace(lazy, values=values)

    def _value(self, kind: FieldKind, value: Any, path: str, spans: Mapping[str, Span], where: Span) -> Any:
        where = spans.get(path, where)
        if isinstance(kind, PartName) and value is not None:
            return self._part(value, where)
        if isinstance(kind, Many) and value is not None:
            return tuple(self._value(kind.kind, v, f"{path}.{i}", spans, where) for i, v in enumerate(value))
        if isinstance(kind, Nested) and value is not None:
            return self.statement(value)
        return value

    def _part(self, name: str, where: Span) -> str:
        if name in self.one:
            return f"{name}.{self.one[name]}"
        if name in self.names.repeats:
            hint = f"name one of them: {name}.1"
            self.checker.fault("repeat-which", where, f"'{name}' is made several times, one part is meant here", hint)
        return name
