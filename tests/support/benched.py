"""A piece with the operations behind its features, so that a test can move each of their numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any
from unittest.mock import patch

from docgen.piece.build import build
from docgen.piece.datums import as_placed
from docgen.piece.kinds import kinds
from docgen.piece.mirrors import MirroredOperation
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.operations.base import changed, parameters
from docgen.piece.records import Feature, Size, Stage
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.piece.workbench import Workbench
from docgen.project.read import read_project

Key = tuple[str, int]  # feature and the place among its sizes; "" and an axis for a size of the blank
Name = tuple[str, str]  # feature and parameter


@dataclass(frozen=True)
class Benched:
    """A piece, its solids and kinds, and the operations of each part by feature."""

    piece: Piece
    solids: Solids
    kinds: tuple[Kind, ...]
    operations: Mapping[str, Mapping[str, Any]]


def benched(text: str, path: str = "test.yaml") -> Benched:
    """Return the piece of a project file's text."""
    words = vocabulary()
    project = read_project(path, text, words, {})
    benches: list[Workbench] = []
    finished = Workbench.finished

    def noted(self: Workbench, path: str) -> Part:
        benches.append(self)
        return finished(self, path)

    with patch.object(Workbench, "finished", noted):
        piece = build(project, words)
    operations = {p: {w.feature.name: w.operation for w in work} for p, work in benches[-1].work.items()}
    solids = Solids(piece)
    return Benched(piece, solids, kinds(piece, solids), operations)


def example(name: str) -> Benched:
    """Return one of the examples."""
    path = Path(__file__).parents[2] / "examples" / f"{name}.yaml"
    return benched(path.read_text(encoding="utf-8"), str(path))


@dataclass(frozen=True)
class Made:
    """One part in terms of the numbers that shape it as it leaves the machine."""

    part: Part
    operations: Mapping[str, Any]

    def names(self) -> list[Name]:
        """Return the numbers that are measures: the blank's and those of each operation; whole numbers are choices."""
        out: list[Name] = [("", f"size.{i}") for i in range(3)]
        for f in self.features():
            out += [(f.name, name) for name, value in f.parameters if not isinstance(value, int)]
        return out

    def features(self) -> list[Feature]:
        """Return what is done to the part before the glue-up."""
        return [f for f in self.part.features if f.stage is Stage.PART]

    def value(self, name: Name) -> float:
        """Return one of the numbers."""
        feature, parameter = name
        if not feature:
            return float(self.part.size[int(parameter[-1])])
        return float(dict(next(f for f in self.features() if f.name == feature).parameters)[parameter])

    def moved(self, values: Mapping[Name, float | Fraction]) -> Made:
        """Return the part with some of its numbers changed and everything worked out again."""
        operations = dict(self.operations)
        size = list(self.part.size)
        for (feature, parameter), value in values.items():
            if feature:
                operations[feature] = _changed(operations[feature], parameter, value)
            else:
                size[int(parameter[-1])] = value
        bare = replace(self.part, size=(size[0], size[1], size[2]))
        features = list(self.part.features)
        for _ in range(2):  # allowances of one feature lengthen the blank that others are made on
            part = replace(bare, features=tuple(features))
            for n, f in enumerate(features):
                if f.stage is Stage.PART and f.name in operations:
                    features[n] = replace(
                        f, made=operations[f.name].made(part), parameters=parameters(_plain(operations[f.name]))
                    )
        return Made(replace(bare, features=tuple(features)), operations)

    def sizes(self) -> dict[Key, Size]:
        """Return every size of the operations by its key; places as they are measured from the datums of the part."""
        return {(f.name, n): as_placed(self.part, s, f) for f in self.features() for n, s in enumerate(f.made.sizes)}


def made(bench: Benched, path: str) -> Made:
    """Return one part in terms of its numbers."""
    return Made(bench.piece.part(path), bench.operations.get(path, {}))


def _plain(operation: Any) -> Any:
    return operation.of if isinstance(operation, MirroredOperation) else operation


def _changed(operation: Any, name: str, value: float | Fraction) -> Any:
    if isinstance(operation, MirroredOperation):
        return replace(operation, of=changed(operation.of, name, value))
    return changed(operation, name, value)
