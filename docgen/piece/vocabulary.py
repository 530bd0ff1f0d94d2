"""The words of the file: every `WORD` or `WORDS` in operations, joints and assemblies, found by looking."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from types import ModuleType

from docgen.piece import assemblies, joints, operations
from docgen.project.fields import Word
from docgen.project.model import Vocabulary


@cache
def words() -> tuple[Word, ...]:
    """Return every word, in the order of rooms and names; two words of one room may not share a name."""
    found: dict[tuple[str, str], Word] = {}
    for package in (operations, joints, assemblies):
        for word in _in_package(package):
            if (word.room, word.name) in found:
                raise ValueError(f"two words of the room {word.room!r} are called {word.name!r}")
            found[word.room, word.name] = word
    return tuple(found[key] for key in sorted(found))


def _in_package(package: ModuleType) -> list[Word]:
    out: list[Word] = []
    for info in sorted(pkgutil.iter_modules(package.__path__), key=lambda m: m.name):
        module = importlib.import_module(f"{package.__name__}.{info.name}")
        one = getattr(module, "WORD", None)
        out.extend(([one] if one is not None else []) + list(getattr(module, "WORDS", ())))
    return out


@cache
def vocabulary() -> Vocabulary:
    """Return the words by the sections in which they may stand."""

    def room(name: str) -> dict[str, Word]:
        return {w.name: w for w in words() if w.room == name}

    return Vocabulary(
        operations=room("operation"),
        edges=room("edge"),
        holes=room("hole"),
        joints=room("joint"),
        assemblies=room("assembly"),
    )
