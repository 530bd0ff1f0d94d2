"""The examples' parts, by ours and as the independent CAD kernel makes them from the same blanks and cutters."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from OCP.TopoDS import TopoDS_Shape

from docgen.piece.build import build
from docgen.piece.model import Piece
from docgen.piece.solids import Key, Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from tests.support.kernel import compound, kernel_blank, kernel_cut, placed

FOLDER = Path(__file__).resolve().parents[2] / "examples"


@dataclass(frozen=True)
class Example:
    piece: Piece
    solids: Solids

    def shape(self, path: str) -> TopoDS_Shape:
        return _shape(self.solids.key(path))

    def whole(self) -> TopoDS_Shape:
        return compound([placed(self.shape(p.path), p.frame) for p in self.piece.parts])


@cache
def example(name: str) -> Example:
    path = FOLDER / f"{name}.yaml"
    words = vocabulary()
    piece = build(read_project(str(path), path.read_text(encoding="utf-8"), words, {}), words)
    return Example(piece, Solids(piece))


@cache
def _shape(key: Key) -> TopoDS_Shape:
    (low, high), cuts = key
    return kernel_cut(kernel_blank(low, high), cuts)


@cache
def different(names: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """(example, part) for each shape of the examples once."""
    found: dict[Key, tuple[str, str]] = {}
    for name in names:
        of = example(name)
        for part in of.piece.parts:
            found.setdefault(of.solids.key(part.path), (name, part.path))
    return tuple(found.values())
