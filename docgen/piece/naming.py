"""Names of parts: which ones a statement names, and what each is called on paper."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from docgen.places import Span
from docgen.project.fields import ByFace, Field, FieldKind, Many, MaterialName, Nested, PartName
from docgen.project.statements import Bound, Lazy

Named = tuple[str, Span]

CLEAR = ("glass", "acrylic", "polycarbonate")
"""Words of sheets that one sees through."""

MOST = 27
"""Characters of a name: it must stand in a table's column and in a line of a view."""


def parts_named(statement: Lazy | Bound) -> Iterator[Named]:
    """Yield the path of each part that the statement names, with its place."""
    return _in_fields(statement.word.fields, statement.values, statement.spans, statement.span, PartName)


def materials_named(statement: Lazy | Bound) -> Iterator[Named]:
    """Yield the name of each material that the statement names, with its place."""
    return _in_fields(statement.word.fields, statement.values, statement.spans, statement.span, MaterialName)


def _in_fields(
    fields: Iterable[Field], values: Mapping[str, Any], spans: Mapping[str, Span], where: Span, kind: type
) -> Iterator[Named]:
    for f in fields:
        value = values.get(f.name)
        if value is not None:
            yield from _in_value(f.kind, value, f.name, spans, spans.get(f.name, where), kind)


def _in_value(
    is_a: FieldKind, value: Any, path: str, spans: Mapping[str, Span], where: Span, kind: type
) -> Iterator[Named]:
    where = spans.get(path, where)
    if isinstance(is_a, kind):
        yield value, where
    elif isinstance(is_a, Many):
        for i, item in enumerate(value):
            yield from _in_value(is_a.kind, item, f"{path}.{i}", spans, where, kind)
    elif isinstance(is_a, ByFace):
        for word, item in value.items():
            yield from _in_value(is_a.kind, item, f"{path}.{word}", spans, where, kind)
    elif isinstance(is_a, Nested) and isinstance(value, (Lazy, Bound)):
        yield from _in_fields(is_a.fields, value.values, value.spans, where, kind)


def spoken(path: str) -> str:
    """Return a path of the file as it is said: ``case.left`` is "case left", ``shelf.2`` is "shelf 2".

    There are no commas in it: names stand in lists that commas part.
    """
    return path.replace(".", " ")


def glazed(path: str, sheet: str) -> str:
    """Return "front pane" for ``front.panel`` of glass or the like, "" for all else: no maker calls glass a panel.

    What the file itself names so keeps its name.
    """
    head, dot, last = path.rpartition(".")
    word, _, number = last.partition(" ")
    if not dot or word != "panel" or not clear(sheet):
        return ""
    return f"{spoken(head)} pane {number}".rstrip()


def clear(sheet: str) -> bool:
    """Return whether a sheet is one that is seen through."""
    return any(word in sheet for word in CLEAR)


def called(parts: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Return what each part is called, by path, from pairs of path and the words that are wanted for it ("" for none).

    No two names are alike, even when read without regard to capitals, and none is longer than `MOST`. Parts that want
    the same words are all told apart by what stands before them in their paths.
    """
    wishes = {path: _wishes(path, words) for path, words in parts}
    at = dict.fromkeys(wishes, 0)
    while True:
        names = {path: wishes[path][at[path]] for path in wishes}
        often = Counter(name.casefold() for name in names.values())
        moving = [p for p, name in names.items() if often[name.casefold()] > 1 and at[p] + 1 < len(wishes[p])]
        if not moving:
            return _told_apart(names)
        for path in moving:
            at[path] += 1


def _wishes(path: str, words: str) -> tuple[str, ...]:
    """Return the names that a part may have, the best first; those that are too long come last, cut."""
    head, _, _ = path.rpartition(".")
    given = (words, f"{spoken(head)} {words}" if head else words) if words else ()
    wanted = tuple(dict.fromkeys((*given, spoken(path), path)))
    fitting = tuple(name for name in wanted if len(name) <= MOST)
    return fitting or (_cut(wanted[0]), _cut(path))


def _cut(name: str) -> str:
    """Return a name with its middle left out: beginning and end tell most."""
    if len(name) <= MOST:
        return name
    end = (MOST - 1) // 2
    return f"{name[: MOST - 1 - end].rstrip()}…{name[-end:].lstrip()}"


def _told_apart(names: Mapping[str, str]) -> dict[str, str]:
    """Return the names with a number behind those that are still taken; first come, first served."""
    out: dict[str, str] = {}
    taken: set[str] = set()
    for path, name in names.items():
        chosen, n = name, 1
        while chosen.casefold() in taken:
            n += 1
            chosen = f"{name[: MOST - 1 - len(str(n))]} {n}"
        taken.add(chosen.casefold())
        out[path] = chosen
    return out


def in_words(text: str, names: Mapping[str, str]) -> str:
    """Return a text in which every path with a dot is replaced by what that part is called."""
    paths = sorted((p for p in names if "." in p), key=len, reverse=True)
    if not paths or "." not in text:
        return text
    either = "|".join(map(re.escape, paths))
    return re.sub(rf"(?<![\w.])(?:{either})(?!\w)", lambda found: names[found[0]], text)
