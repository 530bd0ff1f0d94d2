"""A board to cut, and what must hold for every operation: each number matters, each is told exactly once."""

import math
from collections.abc import Iterable
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from docgen.geometry.solids import Solid, blank, cut
from docgen.piece.model import Material, Part
from docgen.piece.operations.base import changed, parameters
from docgen.piece.placement import place
from docgen.piece.records import Feature, Made, Size, SizeKind, Stage

ORDER = (Stage.PART, Stage.GLUED, Stage.FITTED)


CHORDS = 0.012
"""Share by which a small circle's chords fall short of its area: 2π²/3n² for n chords, 0.0064 for 32."""


def board(length: Any = 400, width: Any = 120, thickness: Any = 20, *, path: str = "board") -> Part:
    """A board that lies flat: length across, width deep, thickness up."""
    placed = place(((0, length), (0, width), (0, thickness)), "across", thickness)
    return Part(
        path=path,
        number=1,
        material=Material("oak", thickness, species="European oak"),
        size=placed.size,
        frame=placed.frame,
        words=placed.words,
        grain_word="across",
        box=placed.box,
        rest=placed.rest,
    )


def made(operation: Any, part: Part) -> Made:
    answer = operation.made(part)
    assert isinstance(answer, Made)
    return answer


def worked(operation: Any, part: Part, stage: Stage = Stage.FITTED) -> Solid:
    """The part after the operation, its blank grown by the allowances."""
    answer = made(operation, part)
    grown = replace(part, features=(Feature("it", operation.word, "it", Stage.PART, answer),))
    answer = made(operation, grown)
    spans = [grown.span(i) for i in range(3)]
    shapes = [c.shape for c in answer.cuts if ORDER.index(c.stage or Stage.PART) <= ORDER.index(stage)]
    return cut(blank([s[0] for s in spans], [s[1] for s in spans]), shapes)


def taken(operation: Any, part: Part, stage: Stage = Stage.FITTED) -> float:
    """The volume that goes, mm³; a tongue's own wood counts as less."""
    return float(part.size[0] * part.size[1] * part.size[2]) - worked(operation, part, stage).volume


def step_of(value: Any) -> Any:
    return Fraction(1, 8) if not isinstance(value, float) else 0.125


def every_parameter_moves_the_solid(operation: Any, part: Part, stages: Iterable[Stage] = ORDER) -> None:
    names = [name for name, _ in parameters(operation)]
    assert names, "an operation without numbers"
    for name, value in parameters(operation):
        other = changed(operation, name, value + step_of(value))
        assert any(_differ(worked(operation, part, s), worked(other, part, s)) for s in stages), name


def _differ(a: Solid, b: Solid) -> bool:
    moved = max(abs(x - y) for x, y in zip(a.centroid, b.centroid, strict=True))
    return abs(a.volume - b.volume) > 1e-3 or moved > 1e-6


def every_parameter_is_told_once(operation: Any, part: Part, *, derived: Iterable[str] = ()) -> None:
    """The sizes' figures as functions of the parameters: none loose, none doubled.

    `derived` are labels of reference figures, which fix nothing.
    """
    numbers = [(n, v) for n, v in parameters(operation) if not _absent(operation, n, v)]
    sizes = [s for s in made(operation, part).sizes if s.parameters]
    assert {p for s in sizes for p in s.parameters} == {n for n, _ in numbers}
    rows = []
    for name, value in numbers:
        other = changed(operation, name, value + Fraction(1, 1000) * (1 if not isinstance(value, float) else 1.0))
        moved = [s for s in made(operation=other, part=part).sizes if s.parameters]
        assert len(moved) == len(sizes)
        rows.append([(float(b.value) - float(a.value)) * 1000 for a, b in zip(sizes, moved, strict=True)])
    jacobian = np.array(rows).T
    assert np.linalg.matrix_rank(jacobian, tol=1e-6) == len(numbers) == len(sizes)
    assert {s.label for s in made(operation, part).sizes if not s.parameters} == set(derived)


def _absent(operation: Any, name: str, value: Any) -> bool:
    """A number left at its default: the feature without it, told by words (a twist drill's point) or by nothing."""
    return any(f.name == name and f.default == value for f in fields(operation))


def figures_measure_what_they_say(operation: Any, part: Part) -> None:
    for size in made(operation, part).sizes:
        assert measured(size) == pytest.approx(float(size.value), abs=1e-9), size


def measured(size: Size) -> float:
    step = [b - a for a, b in zip(size.start, size.end, strict=True)]
    if size.kind is SizeKind.LENGTH:
        assert math.hypot(*size.along) == pytest.approx(1)
        return sum(s * a for s, a in zip(step, size.along, strict=True))
    if size.kind is SizeKind.RADIUS:
        return math.hypot(*step)
    if size.kind is SizeKind.DIAMETER:
        return 2 * math.hypot(*step)
    assert size.other is not None
    arm = [b - a for a, b in zip(size.start, size.other, strict=True)]
    cosine = sum(a * b for a, b in zip(step, arm, strict=True)) / math.hypot(*step) / math.hypot(*arm)
    return math.degrees(math.acos(cosine))


def proven(operation: Any, part: Part, *, derived: Iterable[str] = ()) -> None:
    """All three laws at once."""
    every_parameter_moves_the_solid(operation, part)
    every_parameter_is_told_once(operation, part, derived=derived)
    figures_measure_what_they_say(operation, part)
