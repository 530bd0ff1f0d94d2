"""The one way from a node of the tree to the value of a field.

Formulas stay expressions with their places; where the names of the file are known, each name is looked up and each
formula that needs no face is evaluated at once, so that all problems of a file are told together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from collections.abc import Mapping as MappingOf
from dataclasses import dataclass, field, replace
from typing import Any

from docgen.expressions import Expr, ExprFault, parse
from docgen.places import Span
from docgen.project.evaluate import KIND_OF, evaluate, problem_of
from docgen.project.fields import (
    Angle,
    Box,
    ByFace,
    Choice,
    Count,
    FaceWord,
    Field,
    FieldKind,
    Flag,
    Length,
    Many,
    Mass,
    MaterialName,
    Nested,
    PartName,
    Place,
    Plain,
    Reach,
    Word,
    Words,
)  # fmt: skip
from docgen.project.names import Names
from docgen.project.schema import AXES, FACES
from docgen.project.statements import Lazy
from docgen.reading.problems import Problem
from docgen.reading.tree import Entry, Mapping, Node, Scalar, Sequence, read_value
from docgen.reading.words import did_you_mean, nearest
from docgen.units import Units, plain_length

MOST_TEXT = 500  # characters of a free text
_FLAGS = {"yes": True, "no": False, "true": True, "false": False}


def _no_build(*_: Any, **__: Any) -> None:
    """Nested mappings are carried out by the statement that holds them."""


@dataclass(slots=True)
class Checker:
    """Checks nodes against fields, collecting problems; `names` is None where they are not known yet."""

    units: Units
    problems: list[Problem] = field(default_factory=list)
    names: Names | None = None

    def fault(self, code: str, where: Span, message: str, hint: str = "") -> None:
        """Note a problem."""
        self.problems.append(Problem(code, where, message, hint))

    def known_keys(self, mapping: Mapping, known: Iterable[str], what: str) -> set[str]:
        """Note the keys that are not among the known ones; return those that were probably meant by them."""
        known = tuple(known)
        meant: set[str | None] = set()
        for key in (entry.key for entry in mapping.items if entry.key.text not in known):
            hint = _comma(mapping, key) or did_you_mean(key.text, known, otherwise=f"known are: {', '.join(known)}")
            self.fault("unknown-key", key.span, f"{what} knows no '{key.text}'", hint)
            meant.add(nearest(key.text, known))
        return {key for key in meant if key is not None}

    def as_mapping(self, node: Node, what: str, where: Span | None = None) -> Mapping | None:
        """Return the node if it is a mapping; note a problem otherwise, at `where` if nothing is written."""
        if isinstance(node, Mapping):
            return node
        if isinstance(node, Scalar) and node.absent:
            self.fault("missing-value", where or node.span, f"{what} has nothing behind it")
        else:
            self.fault("wrong-shape", node.span, f"{what} is written as `key: value` pairs, here is {_shape(node)}")
        return None

    def fields(
        self, node: Node, fields: tuple[Field, ...], where: Span, what: str
    ) -> tuple[dict[str, Any], dict[str, Span]]:
        """Return the values of all `fields` and the places of those that are written, by their names."""
        mapping = self.as_mapping(node, what, where)
        values: dict[str, Any] = {f.name: None for f in fields}
        spans: dict[str, Span] = {}
        if mapping is None:
            return values, spans
        meant = self.known_keys(mapping, values, what)
        for f in fields:
            entry = mapping.get(f.name)
            if entry is not None:
                spans[f.name] = entry.value.span if not _absent(entry.value) else entry.key.span
                values[f.name] = self.value(entry.value, f.kind, f.name, spans, entry.key)
            elif f.required and f.name not in meant:
                self.fault("missing-key", where, f"{what} lacks '{f.name}'", f"{f.name}: {f.help}")
            elif f.default is not None and not f.required:
                values[f.name] = self._default(f, where)
        return values, spans

    def statement(
        self, word: Word, node: Node, span: Span, *, name: str = "", because: tuple[Span, ...] = ()
    ) -> Lazy | None:
        """Return the statement, None when it has problems."""
        before = len(self.problems)
        values, spans = self.fields(node, word.fields, span, f"'{word.name}'")
        return None if len(self.problems) > before else Lazy(word, values, span, spans, name, because)

    def value(self, node: Node, kind: FieldKind, path: str, spans: dict[str, Span], key: Scalar | None = None) -> Any:
        """Return the value of a node, None when it has problems. Places of parts of it are put into `spans`."""
        if _absent(node):
            self.fault("missing-value", key.span if key else node.span, f"'{path}' has no value")
            return None
        spans.setdefault(path, node.span)
        return _HOW[type(kind)](self, node, kind, path, spans)

    def _default(self, f: Field, where: Span) -> Any:
        """Return a field's default, read as if it stood in the file."""
        if f.default == "":
            return ""
        return self.value(read_value(str(f.default), where), f.kind, f.name, {})

    def _formula(self, node: Node, kind: FieldKind, path: str, spans: dict[str, Span]) -> Expr | None:
        """Return an expression of the field's kind."""
        scalar = self._scalar(node, "a number or a formula")
        if scalar is None:
            return None
        try:
            found = scalar.made if isinstance(scalar.made, Expr) else parse(scalar.text, scalar.span, self.units)
            expr = (found if found.span else found.at(scalar.span)).take(KIND_OF[type(kind)], self.units)
            if self.names is not None:
                self._looked_up(expr, kind, scalar.span, self.names)
        except ExprFault as fault:
            self.problems.append(problem_of(fault, scalar.span))
            return None
        return expr

    def _looked_up(self, expr: Expr, kind: FieldKind, where: Span, names: Names) -> None:
        faults = names.faults(expr)
        self.problems += [problem_of(fault, where) for fault in faults]
        if not faults and names.only_sizes(expr):
            evaluate(expr, kind, names.sizes.__getitem__, self.units, where)

    def _scalar(self, node: Node, wanted: str) -> Scalar | None:
        if isinstance(node, Scalar):
            return node
        self.fault("wrong-shape", node.span, f"{wanted} is needed, here is {_shape(node)}")
        return None

    def text(self, node: Node, wanted: str = "a text") -> str | None:
        """Return a text in one line; note a problem when the node is none or is too long."""
        scalar = self._scalar(node, wanted)
        if scalar is None:
            return None
        text = " ".join(scalar.text.split())
        if len(text) > MOST_TEXT:
            self.fault("too-long", scalar.span, f"a text of {len(text)} characters, the most is {MOST_TEXT}")
            return None
        return text

    def _words(self, node: Node, kind: Words, path: str, spans: dict[str, Span]) -> str | None:
        return self.text(node)

    def _flag(self, node: Node, kind: Flag, path: str, spans: dict[str, Span]) -> bool | None:
        word = self._one_of(node, tuple(_FLAGS)[:2], also=_FLAGS)
        return None if word is None else _FLAGS[word]

    def _choice(self, node: Node, kind: Choice, path: str, spans: dict[str, Span]) -> str | None:
        return self._one_of(node, kind.of)

    def _face(self, node: Node, kind: FaceWord, path: str, spans: dict[str, Span]) -> str | None:
        return self._one_of(node, tuple(FACES))

    def _one_of(self, node: Node, words: tuple[str, ...], *, also: Iterable[str] = ()) -> str | None:
        text = self.text(node, f"one of {', '.join(words)}")
        if text is None or text in words or text in also:
            return text
        listed = ", ".join(words)
        self.fault("unknown-word", node.span, f"'{text}' is none of {listed}", did_you_mean(text, words))
        return None

    def _part(self, node: Node, kind: PartName, path: str, spans: dict[str, Span]) -> str | None:
        text = self.text(node, "the name of a part")
        known = self.names is None or text is None or self.names.part_known(text) or text in self.names.repeats
        if self.names is not None and text is not None and not known:
            self.fault("unknown-part", node.span, f"no part is called '{text}'", self.names.part_hint(text))
            return None
        return text

    def _material(self, node: Node, kind: MaterialName, path: str, spans: dict[str, Span]) -> str | None:
        text = self.text(node, "the name of a material")
        if text is not None and self.names is not None and text not in self.names.materials:
            known = self.names.materials
            hint = did_you_mean(text, known, otherwise=f"the materials are {', '.join(known)}" if known else "")
            self.fault("unknown-material", node.span, f"no material is called '{text}'", hint)
            return None
        return text

    def _reach(
        self, node: Node, kind: Reach, path: str, spans: dict[str, Span]
    ) -> tuple[Expr | None, Expr | None] | None:
        if not isinstance(node, Sequence) or len(node.items) != 2:
            found = f"a list of {len(node.items)}" if isinstance(node, Sequence) else _shape(node)
            self.fault("wrong-shape", node.span, f"[from, to] is needed, here is {found}", _pair(node))
            return None
        low, high = (self.value(item, Length(), f"{path}.{i}", spans) for i, item in enumerate(node.items))
        if low is not None and high is not None and self.names is not None:
            self._in_order(low, high, node.span, self.names)
        return (low, high)

    def _in_order(self, low: Expr, high: Expr, where: Span, names: Names) -> None:
        if not (names.only_sizes(low) and names.only_sizes(high)):
            return
        try:
            first, second = (e.evaluate(names.sizes.__getitem__) for e in (low, high))
        except ExprFault:  # told already
            return
        if first.value >= second.value:
            self.problems.append(reach_problem(first.value, second.value, where, self.units))

    def _box(self, node: Node, kind: Box, path: str, spans: dict[str, Span]) -> tuple[Any, ...] | None:
        mapping = self.as_mapping(node, "a box")
        if mapping is None:
            return None
        found = self._by_key(mapping, AXES, Reach(), path, spans, "a box", need=AXES)
        return tuple(found.get(axis) for axis in AXES)

    def _place(self, node: Node, kind: Place, path: str, spans: dict[str, Span]) -> dict[str, Any] | None:
        mapping = self.as_mapping(node, "a place")
        return (
            None if mapping is None else self._by_key(mapping, AXES, Length(), path, spans, "a place", need=kind.need)
        )

    def _by_face(self, node: Node, kind: ByFace, path: str, spans: dict[str, Span]) -> dict[str, Any] | None:
        mapping = self.as_mapping(node, f"'{path}'")
        return None if mapping is None else self._by_key(mapping, tuple(FACES), kind.kind, path, spans, f"'{path}'")

    def _by_key(
        self, mapping: Mapping, known: tuple[str, ...], kind: FieldKind, path: str, spans: dict[str, Span], what: str, *,
        need: tuple[str, ...] = (),
    ) -> dict[str, Any]:  # fmt: skip
        self.known_keys(mapping, known, what)
        for word in need:
            if mapping.get(word) is None:
                self.fault("missing-key", spans.get(path, mapping.span), f"{what} lacks '{word}'")
        entries: list[Entry] = [e for e in mapping.items if e.key.text in known]
        return {e.key.text: self.value(e.value, kind, f"{path}.{e.key.text}", spans, e.key) for e in entries}

    def _many(self, node: Node, kind: Many, path: str, spans: dict[str, Span]) -> tuple[Any, ...]:
        pair = (
            isinstance(kind.kind, Reach)
            and isinstance(node, Sequence)
            and not any(isinstance(i, Sequence) for i in node.items)
        )
        items = node.items if isinstance(node, Sequence) and not pair else (node,)
        if isinstance(kind.kind, PartName):
            items = tuple(copy for item in items for copy in self._copies(item))
        if len(items) < kind.least:
            self.fault("too-few", node.span, f"'{path}' takes {kind.least} or more, here are {len(items)}")
        return tuple(self.value(item, kind.kind, f"{path}.{i}", spans) for i, item in enumerate(items))

    def _copies(self, item: Node) -> tuple[Node, ...]:
        """Return the copies of a repeated part that a list names; anything else as it is."""
        names = self.names
        if names is None or not isinstance(item, Scalar) or item.text not in names.repeats or item.text in names.open:
            return (item,)
        return tuple(replace(item, text=f"{item.text}.{n}") for n in range(1, names.repeats[item.text] + 1))

    def _nested(self, node: Node, kind: Nested, path: str, spans: dict[str, Span]) -> Lazy:
        name = path.rpartition(".")[2] if not path.rpartition(".")[2].isdigit() else path.split(".")[-2]
        values, inner = self.fields(node, kind.fields, node.span, f"'{name}'")
        spans.update({f"{path}.{key}": span for key, span in inner.items()})
        return Lazy(Word(name, "nested", "", kind.fields, "", _no_build), values, node.span, inner)


_How = Callable[[Checker, Node, Any, str, dict[str, Span]], Any]
_HOW: MappingOf[type, _How] = {
    **dict.fromkeys((Length, Angle, Plain, Mass, Count), Checker._formula),
    Words: Checker._words,
    Flag: Checker._flag,
    Choice: Checker._choice,
    PartName: Checker._part,
    MaterialName: Checker._material,
    FaceWord: Checker._face,
    Reach: Checker._reach,
    Box: Checker._box,
    Place: Checker._place,
    ByFace: Checker._by_face,
    Many: Checker._many,
    Nested: Checker._nested,
}


def reach_problem(low: Any, high: Any, where: Span, units: Units) -> Problem:
    """Return the problem of a reach whose end is not beyond its start."""
    from_, to = (plain_length(value, units) for value in (low, high))
    return Problem(
        "reach-order", where, f"from {from_} to {to} {units.sign} is no length above 0", "the lower one comes first"
    )


def _pair(node: Node) -> str:
    """Return how a pair is written; of three numbers in a row two may be one that was parted by its comma."""
    items = node.items if isinstance(node, Sequence) else ()
    texts = [item.text for item in items if isinstance(item, Scalar)]
    if len(texts) == len(items) > 2 and any(text.isdigit() for text in texts[1:]):
        return "decimals are written with a point: [0, 14.5]"
    return "write [0, 14]"


def _comma(mapping: Mapping, key: Scalar) -> str:
    """Return what helps against a decimal comma, which parts `6,5` into a value and a key of its own; "" elsewhere."""
    nth = next(i for i, entry in enumerate(mapping.items) if entry.key is key)
    before = mapping.items[nth - 1].value if nth else None
    if isinstance(before, Scalar) and before.text[-1:].isdigit() and key.text[:1].isdigit():
        return f"decimals are written with a point: {before.text}.{key.text}"
    return ""


def _absent(node: Node) -> bool:
    return isinstance(node, Scalar) and node.absent


def _shape(node: Node) -> str:
    match node:
        case Scalar(text):
            return f"'{text}'" if len(text) <= 40 else "a text"
        case Sequence():
            return "a list"
        case Mapping():
            return "a mapping"
