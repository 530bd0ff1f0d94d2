from dataclasses import replace
from math import radians, tan

import pytest

from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.scribed_cut import ScribedCut
from docgen.piece.operations.turned import Station, Turned
from docgen.piece.records import Face, Feature, Stage
from tests.piece.operations.trial import board, made, proven, worked


def test_the_same_wood_goes_by_hand() -> None:
    cut = ScribedCut(Face(0, 1), 380, (10, 4))
    machine = EndCut(Face(0, 1), 380, (10, 4))
    assert worked(cut, board()).volume == pytest.approx(worked(machine, board()).volume)
    proven(cut, board(), derived=["short point"])
    answer = made(cut, board())
    assert [c.key for c in answer.cautions] == ["hand saw", "chisel"]
    (setting,) = answer.settings
    assert setting.machine == "hand saw" and "flat top" in setting.note
    assert [n for n, _, _ in setting.values] == [
        "across the width, from square",
        "through the thickness, from square",
    ]
    assert float(setting.values[0][1]) == pytest.approx(10)


@pytest.mark.parametrize("slope", [15, -15])
def test_the_points_of_a_turned_part_lie_on_its_round(slope: int) -> None:
    square = board(400, 40, 40)
    turned = made(Turned((Station(0, 26), Station(200, 26), Station(400, 26))), square)
    leg = replace(square, features=(Feature("turning", "turned", "turning", Stage.PART, turned),))
    cut = ScribedCut(Face(0, 0), 10 - 20 * tan(radians(slope)), (0, slope))
    (long, _), (short, _) = cut.points(leg)
    assert float(long) == pytest.approx(10 - 13 * tan(radians(15)))  # half of 26, not of 40
    assert float(short) == pytest.approx(10 + 13 * tan(radians(15)))
    assert {mark.face for mark in made(cut, leg).marks} == {Face(2, 1)}
    angle = next(s for s in made(cut, leg).sizes if s.kind == "angle")
    assert angle.other is not None
    assert angle.other[0] > angle.start[0]  # from the long point the cut falls away into the wood
    assert (angle.other[2] - angle.start[2]) * slope > 0


def test_the_points_of_a_tapered_round_agree_with_its_thickness_there() -> None:
    square = board(400, 40, 40)
    turned = made(Turned((Station(0, 20), Station(400, 40))), square)
    leg = replace(square, features=(Feature("turning", "turned", "turning", Stage.PART, turned),))
    for x, _ in ScribedCut(Face(0, 0), 100 - 20 * tan(radians(10)), (0, 10)).points(leg):
        assert abs(float(x) - 100) == pytest.approx(tan(radians(10)) * (10 + float(x) / 40), abs=1e-6)


def test_an_end_that_comes_through_is_pared_flush_not_scribed() -> None:
    (setting,) = made(ScribedCut(Face(0, 1), 380, (10, 4), mate="seat"), board()).settings
    assert "flush" in setting.note and "seat" in setting.note and "pencil" not in setting.note
