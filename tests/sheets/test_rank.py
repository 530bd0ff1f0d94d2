"""The figures printed on a part's sheet fix every number of the part, and none of them says what others say already."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from docgen.sheets.part_view import Subject
from tests.support.benched import Benched, benched, example, made
from tests.support.rank import doubled, figures, flush, jacobian, loose, measures, wrong

EXAMPLES = tuple(sorted(p.stem for p in (Path(__file__).parents[2] / "examples").glob("*.yaml")))


@cache
def bench(name: str) -> Benched:
    return example(name)


CASES = [(n, k.first) for n in EXAMPLES for k in bench(n).kinds if not bench(n).piece.part(k.first).hardware]


@pytest.mark.parametrize(("name", "path"), CASES)
def test_the_printed_figures_fix_every_number_and_none_is_doubled(name: str, path: str) -> None:
    assert wrong(bench(name), path) == ([], [])


def test_a_figure_that_is_left_out_leaves_its_number_loose_and_one_said_twice_is_found() -> None:
    b = bench("bookcase")
    part = made(b, "left side")
    names = measures(part)
    rows = jacobian(part, names)
    told = figures(part, Subject(part.part, b.solids, b.piece.units, True))
    depth = next(keys for keys in told if any(k[2] == "depth" for k in keys))
    rest = [keys for keys in told if keys is not depth]
    assert ("dado 1", "depth") in loose([*(rows[key] for keys in rest for key in keys), *flush(part, names)], names)
    assert doubled([*told, depth], rows) == [depth, depth]


BOARDS = """
docgen: 1
piece: Ledged door
units: mm
stands: wall
materials: {boards: {species: white ash, thickness: 20}}
parts:
  board 1: {of: boards, grain: up, box: {across: [0, 70], deep: [0, 20], up: [0, 400]}}
  board 2: {of: boards, grain: up, box: {across: [70, 140], deep: [0, 20], up: [0, 400]}}
  board 3: {of: boards, grain: up, box: {across: [140, 210], deep: [0, 20], up: [0, 400]}}
joints: [tongue and groove: {boards: [board 1, board 2, board 3], thickness: 6.5, length: 9}]
"""
SPLAYED = """
docgen: 1
piece: Table
units: mm
materials:
  boards: {species: white ash, thickness: 23}
  squares: {species: white ash, thickness: 60}
assemblies:
  base:
    table base: {box: {across: [60, 800], deep: [60, 600], up: [0, 700]}, legs: {material: squares, size: 60},
      splay: {across: 2 deg, deep: 7 deg}, aprons: {material: boards, thickness: 23, width: 110,
        loose tenons: {thickness: 8, width: 30, depth: 22}}}
"""


@pytest.mark.parametrize(
    ("text", "path"),
    [
        (BOARDS, "board 2"),  # its tongue lies in one line with its groove, and is cut over
        (SPLAYED, "base.left apron"),  # its mortises stand square to ends that lean both ways
    ],
)
def test_what_lies_in_line_or_hardly_leans_is_told_too(text: str, path: str) -> None:
    left, _ = wrong(benched(text), path)
    assert left == []
