"""The names that a file knows: what a formula may use, and what to say of one that it may not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from docgen.expressions import Expr, ExprFault
from docgen.project.schema import FACES
from docgen.reading.words import did_you_mean, nearest
from docgen.units import Quantity


@dataclass(slots=True)
class Names:
    """Sizes by name, parts and assemblies. Names of broken things are known too, so that each fault is told once."""

    sizes: Mapping[str, Quantity] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()  # sizes that are written but have no value
    parts: tuple[str, ...] = ()
    assemblies: tuple[str, ...] = ()  # parts that these make are known by their first word only, until they are made
    materials: tuple[str, ...] = ()
    repeats: Mapping[str, int] = field(default_factory=dict)  # parts made several times → how often
    open: frozenset[str] = frozenset()  # repeats whose bare name stands for one copy here

    def part_known(self, path: str) -> bool:
        """Return whether this is a part of the file, or may be one that an assembly makes."""
        return path in self.parts or any(path.startswith(f"{name}.") for name in self.assemblies)

    def part_hint(self, path: str) -> str:
        """Return what to do about an unknown part."""
        head = path.rpartition(".")[0]
        if head in self.repeats:
            return f"it is made {self.repeats[head]} times: {head}.1 to {head}.{self.repeats[head]}"
        return did_you_mean(path, self.parts, otherwise=_listed("the parts are", self.parts))

    def only_sizes(self, expr: Expr) -> bool:
        """Return whether the expression can be evaluated now: it uses nothing but sizes that have values."""
        return all(name in self.sizes for name in expr.names())

    def faults(self, expr: Expr) -> list[ExprFault]:
        """Return the faults of the names in an expression."""
        found = [(leaf, self._fault(leaf.path)) for leaf in expr.leaves()]
        return [ExprFault(fault[0], fault[1], leaf.span, fault[2]) for leaf, fault in found if fault]

    def _fault(self, path: str) -> tuple[str, str, str] | None:
        """Return code, message and hint of a name that a coordinate may not use, None when it may."""
        if path in self.sizes or path in self.broken:
            return None
        head, dot, word = path.rpartition(".")
        if path in self.parts or path in self.repeats:
            return "face-missing", f"'{path}' is a part, and a length is needed", f"name one of its faces: {path}.top"
        if not dot:
            if path in FACES:
                hint = f"name a part before it: {(*self.parts, 'shelf')[0]}.{path}"
                return "unknown-name", f"'{path}' is the word of a face, not a size", hint
            hint = did_you_mean(path, (*self.sizes, *sorted(self.broken), *self.parts))
            return "unknown-name", f"no size is called '{path}'", hint or _listed("the sizes are", self.sizes)
        if (self.part_known(head) or head in self.open) and word in FACES:
            return None
        if head in self.repeats and word in FACES:
            return "repeat-which", f"'{head}' is made several times", f"name one of them: {head}.1.{word}"
        if self.part_known(head) or (word not in FACES and self.part_known(path)):
            hint = did_you_mean(word, FACES, otherwise=f"the faces are {', '.join(FACES)}")
            return "unknown-face", f"'{word}' is no face of '{head}'", hint
        near = nearest(head, self.parts)
        hint = f"did you mean '{near}.{word}'?" if near else _listed("the parts are", self.parts)
        return "unknown-part", f"no part is called '{head}'", hint


def _listed(before: str, names: Iterable[str]) -> str:
    names = tuple(names)
    if not names:
        return ""
    more = f" and {len(names) - 12} more" if len(names) > 12 else ""
    return f"{before} {', '.join(names[:12])}{more}"
