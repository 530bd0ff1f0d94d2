"""The lists of the examples, each made once, and where a step stands in their order of work."""

from __future__ import annotations

from pathlib import Path

from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.model import Piece
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.schedules.rows import Schedules

WORDS = vocabulary()
LISTS: dict[str, tuple[Piece, Schedules]] = {}


def listed(text: str, path: str = "trial.yaml") -> tuple[Piece, Schedules]:
    """Return the piece of a project file and its lists; what the file includes is looked for beside `path`."""
    piece = build(read_project(path, text, WORDS, {}), WORDS)
    solids = Solids(piece)
    return piece, schedules(piece, solids, kinds(piece, solids))


def example(name: str) -> tuple[Piece, Schedules]:
    """Return an example and its lists, made once."""
    if name not in LISTS:
        path = Path(f"examples/{name}.yaml")
        LISTS[name] = listed(path.read_text(encoding="utf-8"), str(path))
    return LISTS[name]


def steps(name: str) -> list[str]:
    """Return what the steps of an example say, in their order."""
    return [row.what for row in example(name)[1].work]


def at(name: str, start: str) -> int:
    """Return the place of the first step that begins so."""
    return next(i for i, text in enumerate(steps(name)) if text.startswith(start))


def at_set_up(name: str, said: str) -> int:
    """Return the place of the first step of a set-up that says this."""
    return next(i for i, text in enumerate(steps(name)) if text.startswith("Set-up") and said in text)


def at_key(name: str, key: str) -> int:
    """Return the place of the step with this key."""
    return next(i for i, row in enumerate(example(name)[1].work) if row.key == key)
