"""The other examples and the starter, in millimetres, and what holds for all of them."""

from functools import cache
from math import pi
from pathlib import Path

import pytest

from docgen.piece.kinds import kinds
from tests.piece.joints.making import Trial, built

ROOT = Path(__file__).parents[2]
FILES = (*sorted((ROOT / "examples").glob("*.yaml")), ROOT / "shared" / "starters" / "start.yaml")
CORNER = 1 - pi / 4


@cache
def example(name: str) -> Trial:
    path = next(f for f in FILES if f.stem == name)
    return built(path.read_text(encoding="utf-8"), str(path))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_file_is_short_and_tells_its_story(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) < 120
    assert lines[0].startswith("# ") and max(map(len, lines)) <= 130


def test_wall_shelf_is_what_a_newcomer_writes():
    assert len((ROOT / "examples" / "wall-shelf.yaml").read_text(encoding="utf-8").splitlines()) < 20


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_nothing_overlaps(path):
    assert example(path.stem).clashes() == []


def test_wall_shelf():
    shelf = example("wall-shelf")
    # From the side's lower end: the rail at 110 to 180, the shelf at 180 to 200.
    assert shelf.marks("left side", "rabbet") == [(110, -1), (180, 1)]  # the rail stands at the back edge
    assert shelf.marks("left side", "dado") == [(180, -1), (200, 1)]
    # Shelf: 760 + 2 × 6 long, its tongues notched 15.
    assert shelf.volume("shelf") == pytest.approx(772 * 180 * 20 - 2 * 15 * 6 * 20, abs=0.1)
    # The rail: two holes of 5 through 20, each with a countersink of 90° from 10 wide, 2.5 deep.
    sink = pi * 2.5 / 3 * (25 + 12.5 + 6.25) - pi * 6.25 * 2.5
    assert shelf.volume("rail") == pytest.approx(772 * 70 * 20 - 2 * (pi * 6.25 * 20 + sink), rel=1e-5)
    told = {k.first: k for k in kinds(shelf.piece, shelf.solids)}
    assert told["left side"].mirrored == ("right side",)


def test_bookcase():
    case = example("bookcase")
    # Steps of (1800 − 60 − 40 − 20) / 4 = 420 between five shelves from 60 up.
    ups = [60 + 420 * n for n in range(5)]
    assert case.marks("left side", "dado") == sorted([(u, -1) for u in ups] + [(u + 20, 1) for u in ups])
    # A shelf: 860 + 12 long, 274 deep, tongues notched by 15; its front arris rounded by 3 over the whole blank.
    shelf = 872 * 274 * 20 - 2 * 15 * 6 * 20 - CORNER * 9 * 860
    assert case.volume("shelf.3") == pytest.approx(shelf, rel=1e-5)
    # A side: five dados from 15 behind the front to the rabbet's wall (the back has taken the rest), a half disc
    # before each, and the rabbet of 11 × 6 all along.
    dado = ((274 - 15) * 20 + pi * 100 / 2) * 6
    assert case.volume("left side") == pytest.approx(1800 * 280 * 20 - 5 * dado - 1800 * 66, rel=1e-5)
    told = {k.first: k for k in kinds(case.piece, case.solids)}
    assert told["shelf.1"].count == 5 and told["left side"].mirrored == ("right side",)
    assert case.part("back panel").authority == "measure"


def test_starter():
    stool = example("start")
    assert [p.path for p in stool.piece.parts] == ["seat", "left side", "right side", "rail"]
    # The sides' tongues enter the seat by 6, notched by 15 at both edges: 281 × 210 × 19 + 6 × 180 × 19, less the
    # rail's dado of 19 × 6, 101 high, which runs out through the tongue.
    assert stool.volume("left side") == pytest.approx(281 * 210 * 19 + 6 * 180 * 19 - 19 * 107 * 6, abs=0.1)
    told = {k.first: k.count for k in kinds(stool.piece, stool.solids)}
    assert told["left side"] == 2


def test_side_table():
    table = example("side-table")
    # Height of the legs 560 − 20; the aprons' boxes lie between the legs: 500 − 2 × (25 + 42) and 400 − 2 × (25 + 42).
    assert [float(table.part(f"{p} apron").size[0]) for p in ("front", "left")] == [366, 266]
    # Tenons of 8 × (90 − 14 − 8) × 20 at both ends; two slots for buttons, 25 + 8 long with round ends, 12 deep.
    slot = (25 * 8 + pi * 16) * 12
    assert table.volume("front apron") == pytest.approx(366 * 90 * 20 + 2 * 8 * 68 * 20 - 2 * slot, rel=1e-5)
    # A leg: tapered from 420 above the floor by 16 on two faces. At the height z it is 42 − 16 · (1 − z / 420) square:
    # a frustum of a pyramid from 26² to 42², and 120 above it, less two mortises of 68 × 8 × 21.5.
    foot = 420 / 3 * (26 * 26 + 26 * 42 + 42 * 42)
    assert table.volume("front left leg") == pytest.approx(foot + 120 * 42 * 42 - 2 * 68 * 8 * 21.5, rel=1e-6)
    # Mortises from 560 − 20 − 90 + 8 to 560 − 20 − 14 above the floor.
    assert set(table.marks("back right leg", "mortise")) == {(458, -1), (526, 1)}
    # White oak moves 0.00365 a per cent: 161 mm from the middle, the front apron's buttons go 2.35 mm either way in 4 %.
    moves = [{n: float(v) for n, v, _ in j.figures} for j in table.piece.joints if j.word == "buttons"]
    assert [round(m["room to move, either way"], 2) for m in moves] == [2.35, 2.35, 1.07, 1.07]
    assert moves[0]["tongue in the slot"] == 9.5 and sum(f.count for f in table.piece.fasteners) == 8
    told = {k.first: k for k in kinds(table.piece, table.solids)}
    assert told["front apron"].count == 2 and told["left apron"].count == 2
