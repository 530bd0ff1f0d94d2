"""Small pieces as the file says them, for the tests of this room."""

from collections.abc import Mapping

from docgen.piece.build import build
from docgen.piece.model import Piece
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problem, Problems

HEAD = """docgen: 1
piece: Trial piece
units: inch
sizes:
  board: 3/4
materials:
  boards: {species: black cherry, thickness: board}
  stock: {species: sugar maple, thickness: 1 3/4}
  ply: {sheet: "plywood, birch", thickness: 1/4}
"""

PARTS = """parts:
  left side:
    of: boards
    grain: up
    box: {across: [0, board], deep: [0, 14], up: [0, 30]}
  right side:
    of: boards
    grain: up
    box: {across: [36 - board, 36], deep: [0, 14], up: [0, 30]}
  top:
    of: boards
    grain: across
    box: {across: [0, 36], deep: [0, 14], up: [30 - board, 30]}
  shelf:
    of: boards
    grain: across
    box: {across: [left side.right, right side.left], deep: [0, 14], up: [12, 12 + board]}
  leg:
    of: stock
    grain: up
    box: {across: [40, 41 3/4], deep: [0, 1 3/4], up: [0, 28]}
  rail:
    of: boards
    grain: across
    box: {across: [0, 30], deep: [0, 3], up: [40, 40 + board]}
  cheek:
    of: boards
    grain: up
    box: {across: [50, 50 + board], deep: [0, 4], up: [0, 6]}
"""


def built(text: str, sets: Mapping[str, str] | None = None) -> Piece:
    words = vocabulary()
    return build(read_project("trial.yaml", text, words, dict(sets or {})), words)


def problems(text: str) -> tuple[Problem, ...]:
    try:
        built(text)
    except Problems as found:
        return found.items
    raise AssertionError("nothing is wrong")


def codes(text: str) -> list[str]:
    return [p.code for p in problems(text)]
