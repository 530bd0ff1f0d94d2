"""Text → a tree in which each key and value knows its place.

Built from libyaml's events, so that nothing is guessed: each scalar stays the text that was written
(`on`, `1:30`, `010`). Duplicate keys, tags, merge keys and control characters are refused; bytes, depth,
aliases and the number of values are bounded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, TypeAlias

import yaml

from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.syntax import syntax_problem

MOST_BYTES = 1 << 20
MOST_DEPTH = 50
MOST_ALIASES = 100
MOST_NODES = 100_000

_LOADER: Any = getattr(yaml, "CLoader", yaml.Loader)  # its parser alone is used: it makes events, no objects
# Control characters, line ends that editors do not show, marks that turn the writing direction, lone surrogates.
_REFUSED = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]"
)


@dataclass(frozen=True, slots=True)
class Scalar:
    """A text as it was written; `made` carries a value that a program put in its place."""

    text: str
    span: Span
    quoted: bool = False
    made: Any = None

    @property
    def absent(self) -> bool:
        """True when a key stands there with no value."""
        return not self.text and not self.quoted and self.made is None


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Entry:
    """One key of a mapping with its value."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys and values in the order of the file; keys have single spaces between their words."""

    items: tuple[Entry, ...]
    span: Span

    def get(self, key: str) -> Entry | None:
        """Return the entry with this key, None if there is none."""
        return next((entry for entry in self.items if entry.key.text == key), None)

    def words(self) -> tuple[str, ...]:
        """Return the keys in the order of the file."""
        return tuple(entry.key.text for entry in self.items)


Node: TypeAlias = Scalar | Sequence | Mapping


def read_tree(path: str, text: str) -> Node:
    """Return the tree of the one document in `text`; `path` is the name that spans carry.

    Raises Problems with everything that is wrong with it as YAML.
    """
    text = text.removeprefix("\ufeff")
    problems = list(_unreadable(path, text))
    if problems:
        raise Problems(problems)
    builder = _Builder(path, text)
    root = builder.document()
    if builder.problems:
        raise Problems(builder.problems)
    if root is None:
        raise Problems([Problem("empty-file", Span(path, 1, 1), "the file is empty")])
    return root


@lru_cache(maxsize=256)
def _value(text: str) -> Node:
    return read_tree("", text)


def read_value(text: str, span: Span) -> Node:
    """Return the tree of a value written in a program, all of it placed at `span`."""
    if text[:1] in ("[", "{"):
        return placed(_value(text), span)
    return Scalar(text, span, quoted=not text)


def placed(node: Node, span: Span) -> Node:
    """Return the tree with all its places at `span`."""
    match node:
        case Scalar():
            return replace(node, span=span)
        case Sequence(items):
            return Sequence(tuple(placed(item, span) for item in items), span)
        case Mapping(items):
            return Mapping(tuple(Entry(replace(e.key, span=span), placed(e.value, span)) for e in items), span)


def _unreadable(path: str, text: str) -> Iterator[Problem]:
    """Yield what forbids to read the text at all: its size, characters that paper cannot show."""
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > MOST_BYTES:
        yield Problem("file-too-large", Span(path, 1, 1), f"the file has {size} bytes, the most is {MOST_BYTES}")
        return
    for found in _REFUSED.finditer(text):
        before = text[: found.start()]
        line = before.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        column = found.start() - max(before.rfind("\n"), before.rfind("\r"))
        message = f"the character U+{ord(found[0]):04X} cannot be printed"
        yield Problem("control-character", Span(path, line, column), message, "take it out, or write the sign itself")
        return


@dataclass(slots=True)
class _Open:
    """A list or mapping that is being read."""

    event: Any
    mapping: bool
    children: list[Node] = field(default_factory=list)
    weight: int = 1


class _Builder:
    """Makes the tree from events, without recursion."""

    def __init__(self, path: str, text: str) -> None:
        self.problems: list[Problem] = []
        self._path, self._text = path, text
        self._stack: list[_Open] = []
        self._anchors: dict[str, tuple[Node, int] | None] = {}
        self._aliases = 0
        self._root: Node | None = None
        self._documents = 0

    def document(self) -> Node | None:
        """Return the tree, None if there is none or it cannot be read further."""
        try:
            for event in yaml.parse(self._text, Loader=_LOADER):
                if not self._take(event):
                    break
        except yaml.YAMLError as error:
            self.problems.append(syntax_problem(self._path, self._text, error))
        return self._root

    def _take(self, event: Any) -> bool:
        """Take one event; False when reading cannot go on."""
        match event:
            case yaml.ScalarEvent():
                return self._put(self._scalar(event), 1, event)
            case yaml.AliasEvent():
                return self._alias(event)
            case yaml.CollectionStartEvent():
                return self._start(event)
            case yaml.CollectionEndEvent():
                opened = self._stack.pop()
                return self._put(self._closed(opened), opened.weight, opened.event)
            case yaml.DocumentStartEvent():
                self._documents += 1
                if self._documents > 1:
                    self._fault("second-document", event, "a second document begins here; a file holds one", length=3)
                    return False
        return True

    def _start(self, event: Any) -> bool:
        self._tagged(event)
        if len(self._stack) >= MOST_DEPTH:
            self._fault("too-deep", event, f"more than {MOST_DEPTH} lists and mappings inside each other", length=1)
            return False
        if event.anchor:
            self._anchors[event.anchor] = None
        self._stack.append(_Open(event, isinstance(event, yaml.MappingStartEvent)))
        return True

    def _put(self, node: Node, weight: int, event: Any) -> bool:
        """Hang a finished node under the open one."""
        if event.anchor and not isinstance(event, yaml.AliasEvent):
            self._anchors[event.anchor] = (node, weight)
        if not self._stack:
            self._root = node
            return True
        opened = self._stack[-1]
        opened.children.append(node)
        opened.weight += weight
        if opened.weight > MOST_NODES:
            self._fault("too-many-values", event, f"the file has more than {MOST_NODES} values")
            return False
        return True

    def _alias(self, event: Any) -> bool:
        self._aliases += 1
        if self._aliases > MOST_ALIASES:
            self._fault("too-many-aliases", event, f"more than {MOST_ALIASES} aliases")
            return False
        if event.anchor not in self._anchors:
            self._fault("unknown-alias", event, f"no anchor &{event.anchor} stands before *{event.anchor}")
            return self._put(Scalar("", self._span(event)), 1, event)
        found = self._anchors[event.anchor]
        if found is None:
            self._fault("alias-in-itself", event, f"*{event.anchor} stands inside what it repeats")
            return False
        return self._put(found[0], found[1], event)

    def _scalar(self, event: Any) -> Scalar:
        self._tagged(event)
        quoted = event.style not in (None, "")
        found = _REFUSED.search(event.value)
        if found:
            self._fault("control-character", event, f"the character U+{ord(found[0]):04X} cannot be printed")
        return Scalar(event.value, self._span(event), quoted)

    def _closed(self, opened: _Open) -> Node:
        span = self._span(opened.event, length=1)
        if not opened.mapping:
            return Sequence(tuple(opened.children), span)
        entries: dict[str, Entry] = {}
        for key, value in zip(opened.children[::2], opened.children[1::2], strict=True):
            name = self._key(key)
            if name is None:
                continue
            if name.text in entries:
                first = entries[name.text].key.span
                message = f"'{name.text}' stands here twice, first on line {first.line}"
                self.problems.append(Problem("duplicate-key", name.span, message, "keep one of the two"))
                continue
            entries[name.text] = Entry(name, value)
        return Mapping(tuple(entries.values()), span)

    def _key(self, key: Node) -> Scalar | None:
        """Return the key with single spaces, None when it cannot be one."""
        if not isinstance(key, Scalar) or not key.text.strip():
            self.problems.append(Problem("bad-key", key.span, "a word must stand here, before the colon"))
            return None
        if key.text == "<<" and not key.quoted:
            message = "keys are not merged from elsewhere"
            self.problems.append(Problem("merge-key", key.span, message, "write the keys out"))
            return None
        return replace(key, text=" ".join(key.text.split()))

    def _tagged(self, event: Any) -> None:
        if event.tag not in (None, "!"):
            self._fault(
                "tag", event, "tags with ! are not used", "leave the tag out, or quote a text that begins with !"
            )

    def _fault(self, code: str, event: Any, message: str, hint: str = "", *, length: int | None = None) -> None:
        self.problems.append(Problem(code, self._span(event, length=length), message, hint))

    def _span(self, event: Any, *, length: int | None = None) -> Span:
        """Return the place of an event: its characters if they stand on one line, else its first."""
        start, end = event.start_mark, event.end_mark
        if length is None:
            length = end.column - start.column if end.line == start.line else 1
        return Span(self._path, start.line + 1, start.column + 1, max(1, length))
