"""Faults of reading and of geometry in one file: all of them are told in one go, and none that only follows from another."""

from __future__ import annotations

import pytest

from docgen.piece.build import build, impossible
from docgen.piece.vocabulary import vocabulary
from docgen.project.model import UnfinishedProject
from docgen.project.read import read_project
from docgen.reading.problems import Problems

FILE = """docgen: 1
piece: Shelf
units: mm
sizes:
  low: {low}
materials:
  boards: {{species: white oak, thickness: 20}}
parts:
  left side: {{of: boards, grain: up, box: {{across: [0, 20], deep: [0, 180], up: [0, 260]}}}}
  right side: {{of: {of}, grain: up, box: {{across: [780, 800], deep: [0, 180], up: [low, 260]}}}}
  shelf: {{of: boards, grain: across, box: {{across: [left side.right, right side.left], deep: [0, 180], up: [180, 200]}}}}
joints:
  - {joint}: {{shelf: shelf, into: [left side, right side], depth: 6}}
edges:
  - corner radius: {{part: left side, face: left, along: top front, radius: {radius}}}
holes:
  - hole: {{part: left side, face: left, at: {{up: {up}, deep: 20}}, diameter: 5}}
"""
GOOD = {"low": "0", "of": "boards", "joint": "housing", "radius": "40", "up": "30"}


def codes(**spoiled: str) -> list[str]:
    words = vocabulary()
    with pytest.raises(Problems) as told:
        build(read_project("shelf.yaml", FILE.format(**{**GOOD, **spoiled}), words, {}), words)
    problems: Problems = told.value
    if isinstance(problems, UnfinishedProject):
        problems = impossible(problems, words)
    return [p.code for p in problems.items]


def test_the_good_file_builds() -> None:
    words = vocabulary()
    build(read_project("shelf.yaml", FILE.format(**GOOD), words, {}), words)


def test_words_places_and_geometry_are_told_together() -> None:
    found = codes(of="bords", joint="housng", radius="400", up="300")
    assert found == ["unknown-material", "unknown-word", "radius-range", "hole-outside"]


def test_a_part_without_a_place_does_not_hide_what_is_wrong_with_the_others() -> None:
    assert codes(low="300", radius="400") == ["reach-order", "radius-range"]


def test_nothing_is_told_that_only_follows_from_another_fault() -> None:
    assert codes(of="bords") == ["unknown-material"]
    assert codes(low="low + 1") == ["circular-sizes"]
