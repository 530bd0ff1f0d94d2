"""Values out of a layout's tree: each is taken with its bounds, and what is wrong is kept with its place."""

from __future__ import annotations

import re
from collections.abc import Mapping as Entries
from dataclasses import dataclass, field
from typing import Protocol

from docgen.expressions import Expr, ExprFault, KindFault, as_length, as_plain, parse
from docgen.places import Span
from docgen.reading.problems import Problem
from docgen.reading.tree import Mapping, Node, Scalar, Sequence
from docgen.reading.words import did_you_mean
from docgen.units import Quantity, Units

MM = Units("mm")
SCALE = re.compile(r"\s*([1-9]\d{0,4})\s*:\s*([1-9]\d{0,4})\s*")


class Held(Protocol):
    """A value with the values of the same key in the layouts below."""

    @property
    def value(self) -> Node: ...  # noqa: D102
    @property
    def under(self) -> tuple[Node, ...]: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class _Only:
    """A value with nothing below it."""

    value: Node
    under: tuple[Node, ...] = ()


@dataclass(frozen=True, slots=True)
class Given:
    """Values by key, with the place that speaks for all of them."""

    entries: Entries[str, Held]
    span: Span

    def has(self, key: str) -> bool:
        """Return True when the key stands there."""
        return key in self.entries

    def place(self, key: str) -> Span:
        """Return where the value of `key` stands, or where it should."""
        return self.entries[key].value.span if key in self.entries else self.span


@dataclass(slots=True)
class Taker:
    """Takes values and keeps the problems; what cannot be taken is 0 or empty, and the layout is not made then."""

    problems: list[Problem] = field(default_factory=list)

    def fault(self, given: Given, key: str, code: str, message: str, hint: str = "") -> None:
        """Keep a problem with the value of `key`."""
        self.problems.append(Problem(code, given.place(key), message, hint))

    def _value(self, given: Given, key: str) -> Node | None:
        if key not in given.entries:
            self.problems.append(Problem("missing-key", given.span, f"'{key}' is missing"))
            return None
        return given.entries[key].value

    def group(self, given: Given, key: str, known: tuple[str, ...], needed: tuple[str, ...] | None = None) -> Given:
        """Return the mapping under `key`, over those in the layouts below."""
        if self._value(given, key) is None:
            return Given(dict.fromkeys(known if needed is None else needed, _Only(Scalar("", given.span))), given.span)
        held = given.entries[key]
        entries: dict[str, Held] = {}
        for node in (*held.under, held.value):
            if not isinstance(node, Mapping):
                self.problems.append(Problem("wrong-shape", node.span, f"'{key}' takes keys and values"))
                continue
            for entry in node.items:
                if entry.key.text in known:
                    entries[entry.key.text] = _Only(entry.value)
                    continue
                hint = did_you_mean(entry.key.text, known, otherwise=f"known are {', '.join(known)}")
                message = f"unknown word '{entry.key.text}' in '{key}'"
                self.problems.append(Problem("unknown-key", entry.key.span, message, hint))
        return Given(entries, held.value.span)

    def text(self, given: Given, key: str) -> str:
        """Return a text."""
        node = self._value(given, key)
        if node is None:
            return ""
        if not isinstance(node, Scalar) or node.absent:
            self.fault(given, key, "wrong-shape", f"'{key}' takes one text")
            return ""
        return " ".join(node.text.split())

    def length(self, given: Given, key: str, *, least: float, most: float) -> float:
        """Return a length in mm."""
        node = self._value(given, key)
        return 0.0 if node is None else self._length(node, key, least, most)

    def lengths(self, given: Given, key: str, count: int, *, least: float, most: float) -> tuple[float, ...]:
        """Return so many lengths in mm."""
        nodes = self._items(given, key)
        if nodes is not None and len(nodes) != count:
            self.fault(given, key, "wrong-shape", f"'{key}' takes {count} lengths, here stand {len(nodes)}")
            nodes = None
        return tuple(self._length(node, key, least, most) for node in nodes or ())

    def number(self, given: Given, key: str, *, least: float, most: float) -> float:
        """Return a plain number."""
        node = self._value(given, key)
        return 0.0 if node is None else self._number(node, key, least, most)

    def numbers(self, given: Given, key: str, *, least: float) -> tuple[float, ...]:
        """Return a list of plain numbers."""
        return tuple(self._number(node, key, least, float("inf")) for node in self._items(given, key) or ())

    def words(self, given: Given, key: str, known: tuple[str, ...]) -> tuple[str, ...]:
        """Return a list of known words, each once."""
        out: list[str] = []
        for node in self._items(given, key) or ():
            word = " ".join(node.text.split()) if isinstance(node, Scalar) else ""
            if word not in known:
                hint = did_you_mean(word, known, otherwise=f"known are {', '.join(known)}")
                self.problems.append(Problem("unknown-word", node.span, f"unknown word '{word}' in '{key}'", hint))
            elif word in out:
                self.problems.append(Problem("duplicate-word", node.span, f"'{word}' stands twice in '{key}'"))
            else:
                out.append(word)
        return tuple(out)

    def scales(self, given: Given, key: str) -> tuple[tuple[int, int], ...]:
        """Return scales as (paper, real), from the largest down."""
        out: list[tuple[int, int]] = []
        for node in self._items(given, key) or ():
            found = SCALE.fullmatch(node.text) if isinstance(node, Scalar) else None
            if found is None:
                self.problems.append(Problem("bad-scale", node.span, "a scale is written 1:5, paper first"))
                continue
            paper, real = int(found[1]), int(found[2])
            if out and paper * out[-1][1] >= out[-1][0] * real:
                message = f"{paper}:{real} is not smaller than {out[-1][0]}:{out[-1][1]} before it"
                self.problems.append(Problem("scale-order", node.span, message, "write the largest scale first"))
            out.append((paper, real))
        return tuple(out)

    def _items(self, given: Given, key: str) -> tuple[Node, ...] | None:
        node = self._value(given, key)
        if node is None:
            return None
        if not isinstance(node, Sequence) or not node.items:
            self.fault(given, key, "wrong-shape", f"'{key}' takes a list")
            return None
        return node.items

    def _length(self, node: Node, key: str, least: float, most: float) -> float:
        quantity = self._quantity(node, key)
        if quantity is None:
            return 0.0
        try:
            value = float(as_length(quantity, MM))
        except KindFault as fault:
            self.problems.append(Problem(fault.code, node.span, f"'{key}' takes a length: {fault}", fault.hint))
            return 0.0
        if not least <= value <= most:
            message = f"'{key}' is {value:g} mm; it may be {least:g} to {most:g} mm"
            self.problems.append(Problem("out-of-range", node.span, message))
        return value

    def _number(self, node: Node, key: str, least: float, most: float) -> float:
        quantity = self._quantity(node, key)
        if quantity is None:
            return 0.0
        try:
            value = float(as_plain(quantity))
        except KindFault as fault:
            self.problems.append(Problem(fault.code, node.span, f"'{key}' takes a number: {fault}", fault.hint))
            return 0.0
        if not least <= value <= most:
            upper = f" and not above {most:g}" if most < float("inf") else ""
            message = f"'{key}' is {value:g}; it may not be below {least:g}{upper}"
            self.problems.append(Problem("out-of-range", node.span, message))
        return value

    def _quantity(self, node: Node, key: str) -> Quantity | None:
        if not isinstance(node, Scalar):
            self.problems.append(Problem("wrong-shape", node.span, f"'{key}' takes one value"))
            return None
        try:
            expression: Expr = parse(node.text, node.span, MM)
            return expression.evaluate(_no_names)
        except ExprFault as fault:
            self.problems.append(Problem(fault.code, fault.span or node.span, str(fault), fault.hint))
            return None


def _no_names(name: str) -> Quantity:
    raise KeyError(name)
