"""Mirrored records: twice mirrored is as before, the solid is the mirror image, and no record is forgotten."""

import dataclasses
import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from docgen.geometry.solids import blank
from docgen.geometry.solids import cut as cut_solid
from docgen.piece import records
from docgen.piece.model import Part
from docgen.piece.reflect import Reflection
from tests.piece.joints.making import Trial, built

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.yaml")))


@cache
def example(name: str) -> Trial:
    path = EXAMPLES / f"{name}.yaml"
    return built(path.read_text(encoding="utf-8"), str(path))


def flat(value: Any) -> Iterator[object]:
    """Yield the plain values in a record, figures to a millionth."""
    if isinstance(value, (float, int, Fraction)) and not isinstance(value, bool):
        yield round(float(value), 6) + 0.0
    elif dataclasses.is_dataclass(value):
        for f in dataclasses.fields(value):
            yield from flat(getattr(value, f.name))
    elif isinstance(value, tuple):
        for item in value:
            yield from flat(item)
    else:
        yield value


def reflections(part: Part) -> list[Reflection]:
    return [Reflection(axis, part.size[axis], lambda text: text) for axis in range(3)]


@pytest.mark.parametrize("name", FILES)
def test_twice_mirrored_is_as_before(name: str) -> None:
    for part in example(name).piece.parts:
        for mirror in reflections(part):
            for feature in part.features:
                first, again = feature.made, mirror.made(mirror.made(feature.made))
                for field in ("marks", "holes", "settings", "allowances", "assumed", "cautions"):
                    one, other = (list(flat(getattr(made, field))) for made in (again, first))
                    assert one == other, (part.path, feature.name, field)
                for a, b in zip(again.sizes, first.sizes, strict=True):
                    assert (a.kind, a.value, a.face, a.parameters) == (b.kind, b.value, b.face, b.parameters)
                    assert [*a.start, *a.end, *a.along] == pytest.approx([*b.start, *b.end, *b.along])


@pytest.mark.parametrize("name", FILES)
def test_the_solid_is_the_mirror_image(name: str) -> None:
    seen: set[object] = set()
    for part in example(name).piece.parts:
        low = tuple(float(part.span(i)[0]) for i in range(3))
        high = tuple(float(part.span(i)[1]) for i in range(3))
        key = example(name).solids.key(part.path)
        if not part.features or key in seen:
            continue
        seen.add(key)
        solid = cut_solid(blank(low, high), [c.shape for f in part.features for c in f.made.cuts])
        for mirror in reflections(part)[part.number % 3 :][:1]:
            ends = sorted((float(mirror.size) - low[mirror.axis], float(mirror.size) - high[mirror.axis]))
            flipped = [list(low), list(high)]
            flipped[0][mirror.axis], flipped[1][mirror.axis] = ends
            shapes = [c.shape for f in part.features for c in mirror.made(f.made).cuts]
            image = cut_solid(blank(tuple(flipped[0]), tuple(flipped[1])), shapes)
            assert image.volume == pytest.approx(solid.volume, rel=1e-6), (part.path, mirror.axis)
            centre = list(solid.centroid)
            centre[mirror.axis] = float(mirror.size) - centre[mirror.axis]
            assert image.centroid == pytest.approx(tuple(centre), abs=1e-3), (part.path, mirror.axis)


PLACED = re.compile(r"\b(Vec|Point|Face|Outline|Shape|Axis|float|Travel|Number)\b")
KNOWN = {
    "Cut": {"shape"},
    "Size": {"start", "end", "along", "value", "face", "other", "over"},
    "Mark": {"position", "face"},
    "HoleRow": {"face", "points", "direction", "diameter", "depth", "thread_depth", "percent", "reach", "tip", "off"},
    "Leaning": {"lean", "sight"},
    "Setting": {"values", "places", "travel", "tall", "clear", "base", "run"},
    "Travel": {"face", "along", "at", "start", "stop", "edge", "deep", "wide", "near", "also"},
    "Template": {"face", "outline", "waste", "holes", "lines", "datum", "grain", "checks", "openings", "points"},
    "SlotRow": {"face", "along", "centre", "length", "width", "bore"},
    "Allowance": {"face", "amount"},
    "Spare": {"face", "amount"},
}
"""The fields that hold a place, a direction, a face or a figure: each was looked at when its image was made."""


@pytest.mark.parametrize("name", KNOWN)
def test_no_place_is_forgotten(name: str) -> None:
    found = {f.name for f in dataclasses.fields(getattr(records, name)) if PLACED.search(str(f.type))}
    assert found == KNOWN[name]
