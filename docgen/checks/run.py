"""All checks: found in this package, run in the order of their names, findings sorted by gravity and place."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from types import ModuleType

import docgen.checks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject
from docgen.checks.tell import names_of
from docgen.piece.model import Kind, Piece
from docgen.piece.naming import in_words
from docgen.piece.solids import Solids
from docgen.schedules.rows import Schedules

Check = Callable[[Subject], Iterable[Finding]]

_GRAVITY = (Grade.STOP, Grade.CARE, Grade.NOTE)


@cache
def _modules() -> tuple[ModuleType, ...]:
    """Return the modules of this package that have a check, by name."""
    names = sorted(m.name for m in pkgutil.iter_modules(docgen.checks.__path__) if m.name != "run")
    modules = (importlib.import_module(f"docgen.checks.{name}") for name in names)
    return tuple(m for m in modules if hasattr(m, "check"))


def names() -> tuple[str, ...]:
    """Return what each check looks for, in a few words."""
    return tuple(m.TITLE for m in _modules())


def looked(piece: Piece) -> tuple[str, ...]:
    """Return what the checks looked for that had something to look at in this piece, by their names."""
    return tuple(m.TITLE for m in _modules() if not hasattr(m, "LOOKS") or m.LOOKS.looked(piece))


def missing(piece: Piece) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return (what the file does not state, the checks that could not look for want of it), in the checks' order."""
    out: dict[str, list[str]] = {}
    for m in _modules():
        words = m.LOOKS.missing(piece) if hasattr(m, "LOOKS") else ""
        if words:
            out.setdefault(words, []).append(m.TITLE)
    return tuple((words, tuple(titles)) for words, titles in out.items())


def codes() -> tuple[str, ...]:
    """Return the codes of all findings that the checks can make, sorted."""
    return tuple(sorted(code for m in _modules() for code in m.CODES))


def findings(piece: Piece, solids: Solids, kinds: Sequence[Kind], schedules: Schedules) -> tuple[Finding, ...]:
    """Return what all checks find, `stop` first, then by code, place and parts."""
    subject = Subject(piece, solids, tuple(kinds), schedules)
    found = [f for m in _modules() for f in m.check(subject)]
    names = names_of(piece)
    return tuple(sorted((_named(f, names) for f in merged(dict.fromkeys(found))), key=_order))


def _named(f: Finding, names: Mapping[str, str]) -> Finding:
    """Return the finding with each part named in its text as the sheets call it, not by its path in the file."""
    message = in_words(f.message, names)
    return replace(f, message=message[:1].upper() + message[1:], advice=in_words(f.advice, names))


def merged(found: Iterable[Finding]) -> list[Finding]:
    """Return the findings with those made one that say the same of several parts, word for word but for the name."""
    groups: dict[object, list[Finding]] = {}
    for n, f in enumerate(found):
        alone = len(f.parts) == 1 and f.parts[0] in f.message
        figures = tuple((name, round(value, 3), unit) for name, value, unit in f.figures)
        said = f.message.replace(f.parts[0], "\0") if alone else n
        groups.setdefault((f.grade, f.code, f.where if len(f.parts) != 1 else None, said, figures), []).append(f)
    return [f for same in groups.values() for f in _together(same)]


def _together(same: list[Finding]) -> list[Finding]:
    """Return one finding for several parts; what is said of one part at several places stays as it is."""
    first = same[0]
    parts = tuple(dict.fromkeys(p for f in same for p in f.parts))
    if len(same) == 1 or len(parts) == 1:
        return same
    return [replace(first, parts=parts, message=first.message.replace(first.parts[0], _listed(parts)))]


def _listed(parts: Sequence[str]) -> str:
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _order(f: Finding) -> tuple[object, ...]:
    where = (f.where.file, f.where.line, f.where.column) if f.where else ("", 0, 0)
    return _GRAVITY.index(f.grade), f.code, where, f.parts, f.message
