"""Parts of the file, groups of them that are turned together, and mirrored copies."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Mapping as MappingOf
from dataclasses import replace
from typing import Any

from docgen.expressions import Expr
from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.fields import Field
from docgen.project.model import GroupDef, MirrorDef, PartDef, Turn
from docgen.project.names import Names
from docgen.project.repeats import change_of, changed, moved, sound, within
from docgen.project.schema import AXES, GROUP, MIRROR, PART
from docgen.project.statements import Lazy
from docgen.reading.tree import Entry, Mapping, Scalar

AUTHORITY = {"cut to size": "cut", "measure first": "measure"}


def read_parts(entries: Iterable[Entry], checker: Checker, names: Names) -> tuple[PartDef, ...]:
    """Return the parts, each copy of a repeated one as a part of its own; the checker keeps what is wrong."""
    out: list[PartDef] = []
    for entry in entries:
        if isinstance(entry.value, Mapping) and entry.value.get("repeat") is not None:
            out.extend(_copies(entry, checker, names))
        else:
            found = _read(entry, checker)
            out += [_part(entry.key, *found)] if found else []
    return tuple(out)


def _read(entry: Entry, checker: Checker) -> tuple[dict[str, Any], tuple[Turn, ...]] | None:
    """Return the values and the turns of a part, None when it has problems."""
    before = len(checker.problems)
    values, _ = checker.fields(entry.value, PART, entry.key.span, "a part")
    turns = turns_of(values["turn"], checker)
    return (values, turns) if len(checker.problems) == before else None


def _copies(entry: Entry, checker: Checker, names: Names) -> Iterator[PartDef]:
    """Yield the copies of a repeated part; nothing when it has problems."""
    base, count = entry.key.text, names.repeats.get(entry.key.text, 1)
    for number in range(1, count + 1):
        checker.names = within(names, number, base)
        found = _read(entry, checker)
        checker.names = names
        if found is None:
            return
        values, turns = found
        repeat = values["repeat"]
        if not sound(repeat, repeat.span, checker, within(names, number, base)):
            return
        change = change_of(base, number)
        part = _part(entry.key, values, turns)
        words = f"{part.called} {number}" if part.called else ""
        yield replace(
            part,
            path=f"{base}.{number}",
            box=changed(moved(part.box, repeat, count, number), change),
            turns=changed(part.turns, change),
            called=words,
        )


def turns_of(turns: Iterable[Lazy | None] | None, checker: Checker) -> tuple[Turn, ...]:
    """Return the turns that are sound; the checker keeps what is wrong with the others."""
    return tuple(made for turn in turns or () if turn is not None and (made := _turn(turn, checker)))


def _turn(turn: Lazy, checker: Checker) -> Turn | None:
    """Return a turn, None when it has problems: its point needs the two coordinates that its axis lacks."""
    about, at = turn["about"], turn["at"]
    if about is None or at is None:
        return None
    others = [word for word in AXES if word != about]
    if set(at) != set(others):
        message = f"a turn about {about} needs a point with {others[0]} and {others[1]}"
        checker.fault("turn-point", turn.spans["at"], message, f"at: {{{others[0]}: …, {others[1]}: …}}")
        return None
    return (AXES.index(about), turn["by"], at[others[0]], at[others[1]])


def _part(key: Scalar, values: MappingOf[str, Any], turns: tuple[Turn, ...]) -> PartDef:
    return PartDef(
        path=key.text,
        material=values["of"],
        grain=values["grain"],
        box=values["box"],
        turns=turns,
        show=values["show"] or "",
        group=values["group"] or "",
        authority=AUTHORITY[values["authority"]],
        hardware=values["hardware"],
        note=values["note"] or "",
        span=key.span,
        called=values["called"] or "",
    )


def read_groups(entries: Iterable[Entry], checker: Checker) -> tuple[GroupDef, ...]:
    """Return the groups; what their members are is known when the assemblies have made their parts."""
    out = []
    for entry in entries:
        found = _fields(entry, GROUP, checker, "a group")
        if found is not None:
            values, spans, turns = found
            out.append(GroupDef(entry.key.text, _listed(values["parts"], "parts", spans), turns, entry.key.span))
    return tuple(out)


def read_mirrors(entries: Iterable[Entry], checker: Checker) -> tuple[MirrorDef, ...]:
    """Return the mirrored copies."""
    out = []
    for entry in entries:
        found = _fields(entry, MIRROR, checker, "a mirrored copy")
        if found is None:
            continue
        values, spans, _ = found
        plane: dict[str, Expr] = values["about"]
        if len(plane) != 1:
            message = f"a mirror stands across one direction, here are {len(plane)}"
            checker.fault("mirror-plane", spans["about"], message, "about: {across: width / 2}")
            continue
        pairs = values["pairs"] or ()
        if any(len(pair) != 2 for pair in pairs):
            checker.fault("mirror-pair", spans["pairs"], "a pair is two parts", "pairs: [[left side, right side]]")
            continue
        ((word, at),) = plane.items()
        of = _listed(values["of"], "of", spans)
        joined = tuple((a, b) for a, b in pairs)
        out.append(MirrorDef(entry.key.text, of, AXES.index(word), at, joined, entry.key.span, spans))
    return tuple(out)


def _fields(
    entry: Entry, fields: tuple[Field, ...], checker: Checker, what: str
) -> tuple[dict[str, Any], dict[str, Span], tuple[Turn, ...]] | None:
    before = len(checker.problems)
    values, spans = checker.fields(entry.value, fields, entry.key.span, what)
    turns = turns_of(values.get("turn"), checker)
    return (values, spans, turns) if len(checker.problems) == before else None


def _listed(names: tuple[str, ...], field: str, spans: MappingOf[str, Span]) -> tuple[tuple[str, Span], ...]:
    return tuple((name, spans[f"{field}.{i}"]) for i, name in enumerate(names))


def mirrored_part(entry: Entry, groups: Iterable[str]) -> bool:
    """Return whether a mirrored copy is one part, called as the copy is: it is of one part, not of a group."""
    of = entry.value.get("of") if isinstance(entry.value, Mapping) else None
    if of is None:
        return False
    one = of.value
    if not isinstance(one, Scalar):
        return False
    return one.text not in groups
