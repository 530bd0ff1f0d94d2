"""Files in the project file's folder that give it sizes, materials and what the shop can take.

A name that the project file says itself wins over an included one: whoever writes it there means it. Two included
files that say the same name are told, since neither is meant more than the other.
"""

from __future__ import annotations

from collections.abc import Iterable, MutableMapping
from dataclasses import dataclass, field

from docgen.places import Span
from docgen.project.check import Checker
from docgen.project.header import check_version
from docgen.project.schema import INCLUDED
from docgen.reading.beside import beside_name, read_beside
from docgen.reading.problems import Problems
from docgen.reading.tree import Entry, Mapping, Scalar, read_tree

MOST_FILES = 20
SHARED = ("sizes", "materials", "shop")
"""The sections that an included file may hold."""


@dataclass(slots=True)
class Included:
    """What the included files hold: their text by the names that the file gives, and their sections."""

    texts: dict[str, str] = field(default_factory=dict)
    sections: dict[str, dict[str, Entry]] = field(default_factory=dict)
    keys: dict[str, Scalar] = field(default_factory=dict)  # where each section begins, in the first file that has it

    def merged(self, tree: Mapping) -> Mapping:
        """Return the project file's tree with the entries that it does not have itself, before its own."""
        rest = [entry for entry in tree.items if entry.key.text not in self.sections]
        return Mapping((*rest, *(self._section(tree, name) for name in self.sections)), tree.span)

    def _section(self, tree: Mapping, name: str) -> Entry:
        own, more = tree.get(name), self.sections[name]
        if own is None or (isinstance(own.value, Scalar) and own.value.absent):
            key = self.keys[name]
            return Entry(key, Mapping(tuple(more.values()), key.span))
        if not isinstance(own.value, Mapping):
            return own  # told where the section is read
        mine = own.value.words()
        added = (entry for key, entry in more.items() if key not in mine)
        return Entry(own.key, Mapping((*added, *own.value.items), own.value.span))


def read_included(
    path: str, named: Iterable[tuple[str, Span]], checker: Checker, sources: MutableMapping[str, str] | None = None
) -> Included:
    """Return what the files named in the project file `path` hold; the checker keeps what is wrong.

    `sources` gets the text of each file by the name that its places carry, so that problems can show its lines.
    """
    out = Included()
    for count, (name, where) in enumerate(named, start=1):
        if name in out.texts:
            checker.fault("include-twice", where, f"“{name}” is included twice", "name it once")
        elif count > MOST_FILES:
            checker.fault("include-many", where, f"more than {MOST_FILES} files are included", "put them together")
            break
        else:
            _one(path, name, where, checker, out, {} if sources is None else sources)
    return out


def _one(path: str, name: str, where: Span, checker: Checker, out: Included, sources: MutableMapping[str, str]) -> None:
    try:
        text = read_beside(path, name, where=where)
        sources[beside_name(path, name)] = out.texts[name] = text
        tree = read_tree(beside_name(path, name), text)
    except Problems as problems:
        checker.problems += problems.items
        return
    mapping = checker.as_mapping(tree, "an included file", where)
    if mapping is None:
        return
    _head(mapping, checker)
    for section in SHARED:
        entry = mapping.get(section)
        if entry is not None and not (isinstance(entry.value, Scalar) and entry.value.absent):
            found = checker.as_mapping(entry.value, f"'{section}'")
            if found is not None:
                out.keys.setdefault(section, entry.key)
                _add(found, out.sections.setdefault(section, {}), checker)


def _head(mapping: Mapping, checker: Checker) -> None:
    """Check the keys of an included file; its bare numbers read in the unit of the project file, or it says so."""
    checker.known_keys(mapping, (*(f.name for f in INCLUDED), *SHARED), "an included file")
    only = Mapping(tuple(e for e in mapping.items if e.key.text in {f.name for f in INCLUDED}), mapping.span)
    values, spans = checker.fields(only, INCLUDED, mapping.span, "an included file")
    check_version(values, spans, checker)
    units, own = values["units"], checker.units.system
    if units is not None and units != own:
        hint = "write the unit behind each figure here, as 20 mm or 3/4 in, and leave 'units' out"
        message = f"bare numbers here are {_bare(units)}, those of the project file are {_bare(own)}"
        checker.fault("include-units", spans["units"], message, hint)


def _bare(system: str) -> str:
    return "inches" if system == "inch" else "millimetres"


def _add(found: Mapping, known: dict[str, Entry], checker: Checker) -> None:
    for entry in found.items:
        if entry.key.text in known:
            where = known[entry.key.text].key.span
            message = f"'{entry.key.text}' stands in another included file too, {where.file}, line {where.line}"
            checker.fault("include-clash", entry.key.span, message, "keep one, or say it in the project file itself")
        else:
            known[entry.key.text] = entry
