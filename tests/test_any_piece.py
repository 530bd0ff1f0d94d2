"""Figures that nobody meant, in a good file: a packet comes of it, or problems with places; never a fault of the program."""

from __future__ import annotations

import random
import re
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from docgen.cli import main

GOOD = """docgen: 1
piece: Trial
units: mm
sizes: {w: 800, lean: 12, n: 3, deep: 180}
materials:
  boards: {species: white oak, thickness: 20}
  ply: {sheet: "plywood, birch", thickness: 6}
parts:
  left side: {of: boards, grain: up, box: {across: [0, 20], deep: [0, deep], up: [0, 260]}}
  right side: {of: boards, grain: up, box: {across: [w - 20, w], deep: [0, deep], up: [0, 260]}}
  shelf: {of: boards, grain: across, box: {across: [left side.right, right side.left], deep: [0, 170], up: [180, 200]}}
  rail: {of: boards, grain: across, box: {across: [left side.right, right side.left], deep: [160, 180], up: [110, 180]}}
  slat: {of: boards, grain: across, box: {across: [left side.right, right side.left], deep: [10, 60], up: [20, 40]}, repeat: {along: deep, count: n, step: 50}}
joints:
  - housing: {shelf: shelf, into: [left side, right side], depth: 6, stop: {front: 15}}
  - housing: {shelf: rail, into: [left side, right side], depth: 6}
holes:
  - hole: {part: rail, face: front, diameter: 5, countersink: 10, name: W, at: [{across: 200, up: 145}, {across: 600, up: 145}]}
edges:
  - corner radius: {part: [left side, right side], face: left, along: [bottom front, top front], radius: 40}
  - outline: {part: shelf, face: top, width: 600, path: "M 0 0 H 600 V -130 C 500 -150 400 -110 300 -150 A 300 200 0 0 1 0 -120 Z", at: {across: 60, deep: 0}}
operations:
  - bevel: {part: slat.1, end: left, long point: top, angle: lean}
"""
FIGURE = re.compile(r"(?<![\w.\"#])\d+(?:\.\d+)?(?![\w\"])")
ODD = (
    "0",
    "1",
    "-3",
    "0.000001",
    "1/3",
    "0.5",
    "7.3",
    "19.999",
    "sqrt(2)",
    "12 deg",
    "3/4 in",
    "400",
    "39999",
    "99999",
    "9999999",
)


def changed(seed: int) -> str:
    """Return the file with one to three of its figures changed for odd ones."""
    chance = random.Random(seed)
    text = GOOD
    for _ in range(chance.randint(1, 3)):
        found = chance.choice(list(FIGURE.finditer(text, text.index("sizes"))))
        text = text[: found.start()] + chance.choice(ODD) + text[found.end() :]
    return text


def built(text: str, folder: Path) -> tuple[int, str]:
    """Return the exit status of a build, and what was told."""
    file, out = folder / "trial.yaml", folder / "trial.pdf"
    file.write_text(text, encoding="utf-8")
    result = CliRunner().invoke(main, ["--traceback", "build", str(file), "-o", str(out), "--force"])
    assert (result.exit_code == 0) == out.is_file()
    out.unlink(missing_ok=True)
    return result.exit_code, result.output


def test_the_good_file_builds(tmp_path: Path) -> None:
    status, told = built(GOOD, tmp_path)
    assert status == 0, told


@pytest.mark.parametrize("seed", range(10))
def test_odd_figures_give_a_packet_or_problems(seed: int, tmp_path: Path) -> None:
    status, told = built(changed(seed), tmp_path)
    assert status in (0, 2), told
    assert status == 0 or re.search(r"trial\.yaml:\d+:\d+: error: |paper-too-small", told), told


if __name__ == "__main__":  # many more: python -m tests.test_any_piece FOLDER FIRST LAST
    for number in range(int(sys.argv[2]), int(sys.argv[3])):
        status, told = built(changed(number), Path(sys.argv[1]))
        if status not in (0, 2):
            print(number, told[-800:], flush=True)
        print(number, status, end=" ", flush=True)
