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

BOARDS = """
docgen: 1
piece: Trial
units: mm
materials: {boards: {species: white oak, thickness: 20}}
"""
"""The head of a file whose parts are of one board, 20 mm thick."""

WORDS = vocabulary()
LISTS: dict[str, tuple[Piece, Schedules]] = {}


def listed(text: str, path: str = "trial.yaml") -> tuple[Piece, Schedules]:
    """Return the piece of a project file and its lists; what the file includes is looked for beside `path`."""
    piece = build(read_project(path, text, WORDS, {}), WORDS)
    solids = Solids(piece)
    return piece, schedules(piece, solids, kinds(piece, solids))


def bearing_case(*, front: str, back: str, stop: str) -> str:
    """Return a case whose front a bearing bit rabbets after the glue-up, with a shelf that begins at `front` in its way."""
    return f"""{BOARDS}
parts:
  left: {{of: boards, grain: up, box: {{across: [0, 20], deep: [0, 300], up: [0, 900]}}}}
  right: {{of: boards, grain: up, box: {{across: [780, 800], deep: [0, 300], up: [0, 900]}}}}
  low: {{of: boards, grain: across, box: {{across: [left.right, right.left], deep: [0, 300], up: [0, 20]}}}}
  shelf: {{of: boards, grain: across, box: {{across: [left.right, right.left], deep: [{front}, {back}], up: [400, 420]}}}}
joints:
  - housing: {{shelf: low, into: [left, right], depth: 6}}
  - housing: {{shelf: shelf, into: [left, right], depth: 6, {stop}}}
operations:
  - glued rabbet: {{part: [left, right], face: front, opening: {{across: [20, 780], deep: [0, 280], up: [20, 880]}},
      into: 8, depth: 12, bearing: 10, open: top}}
"""


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
