from math import pi

import pytest

from docgen.piece.records import Authority
from tests.piece.joints.making import trial

CASE = """
sizes:
  step: 250
assemblies:
  case:
    housed case:
      box: {across: [0, 600], deep: [0, 250], up: [0, 800]}
      material: board
      thickness: 20
      shelves: [50, 50 + step, 50 + 2 * step]
      housing: 6
      %s
"""
BACK = "back: {material: thin, thickness: 6, rabbet: 10, gap: 1}"


def test_shelves_stand_at_their_heights_in_housings():
    case = trial(CASE % "")
    assert [p.path for p in case.piece.parts] == [
        f"case.{n}" for n in ("left", "right", "shelf 1", "shelf 2", "shelf 3")
    ]
    assert case.marks("case.left", "dado") == [
        (50.0, -1), (70.0, 1), (300.0, -1), (320.0, 1), (550.0, -1), (570.0, 1)]  # fmt: skip
    assert case.part("case.shelf 2").box == ((20, 580), (0, 250), (300, 320))
    # 560 + 2 × 6 long, as deep as the sides.
    assert case.volume("case.shelf 2") == pytest.approx(572 * 250 * 20, abs=0.1)
    assert case.clashes() == []


def test_back_takes_its_rabbets_and_shortens_the_shelves():
    case = trial(CASE % f"stop: 15\n      setback: 5\n      {BACK}")
    back = case.part("case.back")
    # 20 − 10 + 1 from the outside; the shelves from 5 behind the front to 244.
    assert back.box == ((11, 589), (244, 250), (0, 800)) and back.authority is Authority.MEASURE
    assert case.part("case.shelf 1").box[1] == (5, 244)
    # Each housing: from 5 + 15 to the rabbet, 224 long, and its half round end; the rabbet 10 × 6 all along.
    dado = (224 * 20 + pi * 100 / 2) * 6
    assert case.volume("case.left") == pytest.approx(800 * 250 * 20 - 3 * dado - 800 * 60, rel=1e-5)
    assert case.clashes() == []


def test_tongues_may_be_thinner_and_fat():
    case = trial(CASE % "tongue: 12\n      fat: 0.3")
    assert case.marks("case.left", "dado")[:2] == [(54.0, -1), (66.0, 1)]
    assert {float(s.over) for s in case.sizes("case.shelf 1", "tongue") if s.authority is Authority.FIT} == {0.3}


@pytest.mark.parametrize("step", [200, 300])
def test_heights_move_the_housings(step):
    case = trial((CASE % "").replace("step: 250", f"step: {step}"))
    assert case.marks("case.right", "dado")[-2:] == [(50.0 + 2 * step, -1), (70.0 + 2 * step, 1)]
