from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from textwrap import dedent

from docgen.geometry.shapes import Vec
from docgen.geometry.solids import overlap
from docgen.piece.build import build
from docgen.piece.model import Joint, Part, Piece
from docgen.piece.records import Feature, HoleRow, Mark, Size, Stage
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problem, Problems

INCH = 25.4

HEAD = """\
docgen: 1
piece: Trial
units: {units}
materials:
  board: {{species: sugar maple, thickness: {thick}}}
  thin: {{sheet: "plywood, birch", thickness: {thin}}}
"""

OPENING = """\
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 400], up: [0, 300]}}
  right: {of: board, grain: up, box: {across: [420, 440], deep: [0, 400], up: [0, 300]}}
  front: {of: board, grain: across, box: {across: [22, 418], deep: [0, 20], up: [102, 198]}}
"""
"""Two uprights of a case 400 apart, and the front of a drawer between them: gaps of 2 round it, in rows from 100 to 200."""


@dataclass(frozen=True)
class Trial:
    piece: Piece
    solids: Solids

    def part(self, path: str) -> Part:
        return self.piece.part(path)

    def features(self, path: str, word: str = "") -> list[Feature]:
        return [f for f in self.part(path).features if word in ("", f.word)]

    def sizes(self, path: str, word: str) -> list[Size]:
        return [s for f in self.features(path, word) for s in f.made.sizes]

    def holes(self, path: str) -> list[HoleRow]:
        return [h for f in self.part(path).features for h in f.made.holes]

    def marks(self, path: str, word: str = "") -> list[tuple[float, int]]:
        return sorted((round(float(m.position), 6), m.wood) for m in self._marks(path, word))

    def _marks(self, path: str, word: str) -> Iterator[Mark]:
        for feature in self.features(path, word):
            yield from feature.made.marks

    def volume(self, path: str, stage: Stage = Stage.FITTED) -> float:
        return self.solids.solid(path, stage).volume

    def joint(self, word: str) -> Joint:
        return next(j for j in self.piece.joints if j.word == word)

    def figure(self, word: str, name: str) -> float:
        return next(float(v) for n, v, _ in self.joint(word).figures if n == name)

    def clashes(self) -> list[tuple[str, str]]:
        placed = {p.path: self.solids.solid(p.path).moved(p.frame) for p in self.piece.parts}
        return [(a, b) for a, b in combinations(placed, 2) if overlap(placed[a], placed[b])]

    def inside(self, path: str, point: Vec, stage: Stage = Stage.FITTED) -> bool:
        """Tell whether a point of the piece lies in the wood of the part."""
        return self.solids.solid(path, stage).contains(self.part(path).frame.inverse().point(point))


def text(body: str, *, units: str = "mm", thick: str = "20", thin: str = "6") -> str:
    return HEAD.format(units=units, thick=thick, thin=thin) + dedent(body)


def trial(body: str, **head: str) -> Trial:
    return built(text(body, **head))


def built(source: str, file: str = "trial.yaml", sets: dict[str, str] | None = None) -> Trial:
    words = vocabulary()
    piece = build(read_project(file, source, words, sets or {}), words)
    return Trial(piece, Solids(piece))


def problems(body: str, **head: str) -> list[Problem]:
    try:
        trial(body, **head)
    except Problems as found:
        return list(found.items)
    return []


def one_problem(body: str, **head: str) -> Problem:
    found = problems(body, **head)
    assert len(found) == 1, found
    return found[0]


def size_of(sizes: list[Size], *parameters: str) -> float:
    """Return the value of the size that fixes exactly these parameters."""
    return next(float(s.value) for s in sizes if s.parameters == parameters)
