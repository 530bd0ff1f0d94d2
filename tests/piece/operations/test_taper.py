import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.taper import Taper
from docgen.piece.records import Face
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize("face", [Face(1, 0), Face(1, 1), Face(2, 0), Face(2, 1)])
@pytest.mark.parametrize("side", [0, 1])
def test_taper_takes_a_wedge(face: Face, side: int) -> None:
    taper = Taper(face, Face(0, side), 100, 8)
    run = 300 if side else 100
    across = 20 if face.axis == 1 else 120
    assert taken(taper, board()) == pytest.approx(8 * run / 2 * across)
    proven(taper, board())


def test_setting_tells_both_readings() -> None:
    values = {n: float(v) for n, v, _ in made(Taper(Face(1, 0), Face(0, 1), 100, 8), board()).settings[0].values}
    assert values["taper, from the edge"] + values["taper, from square"] == pytest.approx(90)


def test_impossible_tapers() -> None:
    for taper in (
        Taper(Face(1, 0), Face(0, 1), 400, 8),
        Taper(Face(1, 0), Face(0, 1), 100, 120),
        Taper(Face(1, 0), Face(1, 1), 100, 8),
    ):
        with pytest.raises(Fault):
            taper.made(board())
