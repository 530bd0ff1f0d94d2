import pytest

from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.scribed_cut import ScribedCut
from docgen.piece.records import Face
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
