"""What the file asks of the templates, with the parts that it names known."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from docgen.piece.model import TemplateWish
from docgen.piece.naming import parts_named
from docgen.piece.records import Origin
from docgen.project.model import PartDef
from docgen.project.statements import Lazy
from docgen.reading.problems import Problem
from docgen.reading.words import did_you_mean


def wishes(asked: Iterable[Lazy]) -> tuple[TemplateWish, ...]:
    """Return what is asked, in the order of the file."""
    return tuple(
        TemplateWish(tuple(lazy["part"] or ()), lazy["face"] or "", bool(lazy["none"]), Origin(lazy.span))
        for lazy in asked
    )


def faults(asked: Iterable[Lazy], parts: Sequence[PartDef]) -> list[Problem]:
    """Return what is wrong with it: parts that nobody knows, and bought ones, which nobody cuts."""
    bought = {p.path: p.hardware for p in parts}
    out: list[Problem] = []
    for lazy in asked:
        for name, where in parts_named(lazy):
            if name not in bought:
                hint = did_you_mean(name, bought)
                out.append(Problem("unknown-part", where, f"no part is called '{name}'", hint))
            elif bought[name] and not lazy["none"]:
                message = f"'{name}' is bought, not made: it has no template"
                out.append(Problem("template-bought", where, message, "ask for the face of a part that is cut"))
    return out
