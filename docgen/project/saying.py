"""Statements and assemblies of the file: a word with its fields, carried out once or for each copy that it names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Mapping as MappingOf
from dataclasses import replace
from itertools import product

from docgen.project.check import Checker
from docgen.project.fields import Choice, Count, Field, Word
from docgen.project.names import Names
from docgen.project.repeats import Copies, change_of, changed, number_of, repeats_named, within
from docgen.project.statements import Lazy
from docgen.reading.tree import Entry, Mapping, Node, Scalar, Sequence
from docgen.reading.words import did_you_mean

TIMES = Field("repeat", Count(), "how many times")
ONE_BY_ONE, EACH = "one by one", "each with each"
COPIES = Field("copies", Choice((ONE_BY_ONE, EACH)), "how the copies of two repeats go together in a statement")


def read_statements(
    entry: Entry | None, known: MappingOf[str, Word], checker: Checker, names: Names
) -> tuple[Lazy, ...]:
    """Return the statements of a section that is a list of ``word: fields``; the checker keeps what is wrong."""
    if entry is None or (isinstance(entry.value, Scalar) and entry.value.absent):
        return ()
    section = entry.key.text
    if not isinstance(entry.value, Sequence):
        hint = f"begin each line with a dash: - {next(iter(known), 'word')}: {{…}}"
        checker.fault("wrong-shape", entry.key.span, f"'{section}' is written as a list", hint)
        return ()
    out: list[Lazy] = []
    for item in entry.value.items:
        found = _word(item, entry.key, known, section.removesuffix("s"), checker)
        if found is not None:
            out.extend(_said(found[0], found[1], checker, names))
    return tuple(out)


def _said(word: Word, entry: Entry, checker: Checker, names: Names) -> Iterator[Lazy]:
    """Yield the statement once, or for each copy of the repeats that it names where one part is meant."""
    node, each = _together(entry.value, checker)
    bases = repeats_named(word, node, names)
    counts = {base: names.repeats[base] for base in bases}
    if len(set(counts.values())) > 1 and not each:
        found = " and ".join(f"{count} of {base}" for base, count in counts.items())
        message = f"copies go together one by one, here are {found}"
        checker.fault("repeat-counts", entry.key.span, message, f"copies: {EACH}, or name one of them: {bases[-1]}.1")
        return
    for numbers in _numbers(tuple(counts.values()), each=each):
        checker.names = within(names, numbers[0], *bases) if bases else names
        lazy = checker.statement(word, node, entry.key.span)
        checker.names = names
        if lazy is None:
            return
        one = dict(zip(bases, numbers, strict=bool(bases)))
        yield Copies(checker, names, one).statement(lazy) if names.repeats else lazy


def _together(node: Node, checker: Checker) -> tuple[Node, bool]:
    """Return the fields of a statement without how copies go together, and whether that is each with each."""
    said = node.get(COPIES.name) if isinstance(node, Mapping) else None
    if said is None:
        return node, False
    assert isinstance(node, Mapping)
    way = checker.value(said.value, COPIES.kind, COPIES.name, {}, said.key)
    return Mapping(tuple(e for e in node.items if e is not said), node.span), way == EACH


def _numbers(counts: tuple[int, ...], *, each: bool) -> Iterator[tuple[int, ...]]:
    """Yield which copies go together: one of each repeat, by its number. `copy` in a formula is that of the first."""
    if each and counts:
        yield from product(*(range(1, count + 1) for count in counts))
        return
    for number in range(1, next(iter(counts), 1) + 1):
        yield (number,) * max(1, len(counts))


def read_assemblies(
    entries: Iterable[Entry], known: MappingOf[str, Word], checker: Checker, names: Names
) -> tuple[Lazy, ...]:
    """Return the assemblies; one that is repeated is made several times, as ``name.1``, ``name.2`` and so on."""
    out: list[Lazy] = []
    for entry in entries:
        times = entry.value.get("repeat") if isinstance(entry.value, Mapping) else None
        if times is None:
            out.extend(_assembly(entry.value, entry.key, known, checker, names))
        else:
            assert isinstance(entry.value, Mapping)
            rest = Mapping(tuple(e for e in entry.value.items if e is not times), entry.value.span)
            out.extend(_repeated(rest, entry.key, times, known, checker, names))
    return tuple(out)


def _assembly(node: Node, key: Scalar, known: MappingOf[str, Word], checker: Checker, names: Names) -> Iterator[Lazy]:
    found = _word(node, key, known, "assembly", checker)
    if found is not None:
        word, entry = found
        lazy = checker.statement(word, entry.value, entry.key.span, name=key.text)
        if lazy is not None:
            yield Copies(checker, names, {}).statement(lazy) if names.repeats else lazy


def _repeated(
    node: Node, key: Scalar, times: Entry, known: MappingOf[str, Word], checker: Checker, names: Names
) -> Iterator[Lazy]:
    before = len(checker.problems)
    count = checker.value(times.value, TIMES.kind, "repeat", {}, times.key)
    if len(checker.problems) > before:
        return
    if not names.only_sizes(count):
        message = "how many copies there are depends on sizes alone, not on where a part stands"
        checker.fault("repeat-count", times.value.span, message, "a number, or a formula of sizes")
        return
    for number in range(1, number_of(count, names.sizes, checker.units, times.value.span) + 1):
        checker.names = within(names, number)
        found = tuple(_assembly(node, key, known, checker, names))
        checker.names = names
        for lazy in found:
            yield replace(changed(lazy, change_of(key.text, number)), name=f"{key.text}.{number}")
        if not found:
            return


def _word(
    node: Node, key: Scalar, known: MappingOf[str, Word], room: str, checker: Checker
) -> tuple[Word, Entry] | None:
    """Return the word of ``word: fields`` and its entry, None when it is none that is known."""
    if not isinstance(node, Mapping) or len(node.items) != 1:
        where = node.span if not (isinstance(node, Scalar) and node.absent) else key.span
        if isinstance(node, Mapping) and len(node.items) > 1:
            where = node.items[1].key.span
        hint = f"write `word: {{…}}` with one of {', '.join(known)}" if known else ""
        checker.fault("one-word", where, f"{_article(room)} is one word with its fields", hint)
        return None
    entry = node.items[0]
    word = known.get(entry.key.text)
    if word is None:
        hint = did_you_mean(entry.key.text, known, otherwise=f"known are: {', '.join(known)}" if known else "")
        checker.fault("unknown-word", entry.key.span, f"{_article(room)} '{entry.key.text}' is not known", hint)
        return None
    return word, entry


def _article(room: str) -> str:
    return f"an {room}" if room[0] in "aeio" else f"a {room}"
