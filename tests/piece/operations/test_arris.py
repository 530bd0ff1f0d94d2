import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.arris import Chamfer, RoundOver
from docgen.piece.records import Face
from tests.piece.operations.trial import CHORDS, board, proven, taken

PAIRS = [(Face(2, s), Face(a, t)) for s in (0, 1) for a in (0, 1) for t in (0, 1)]


@pytest.mark.parametrize(("face", "edge"), [*PAIRS, (Face(0, 1), Face(1, 0))])
def test_round_over_on_every_arris(face: Face, edge: Face) -> None:
    over = RoundOver(face, edge, 6)
    run = {0: 400, 1: 120, 2: 20}[3 - face.axis - edge.axis]
    assert taken(over, board()) == pytest.approx(36 * (1 - math.pi / 4) * run, rel=2 * CHORDS)
    proven(over, board())


def test_stopped_round_over() -> None:
    over = RoundOver(Face(2, 1), Face(1, 0), 6, 50, 300)
    assert taken(over, board()) == pytest.approx(36 * (1 - math.pi / 4) * 250, rel=2 * CHORDS)
    proven(over, board())


@pytest.mark.parametrize(("face", "edge"), PAIRS)
def test_chamfer_on_every_arris(face: Face, edge: Face) -> None:
    chamfer = Chamfer(face, edge, 6, 4)
    run = {0: 400, 1: 120, 2: 20}[3 - face.axis - edge.axis]
    assert taken(chamfer, board()) == pytest.approx(12 * run)
    proven(chamfer, board())


def test_stopped_chamfer() -> None:
    chamfer = Chamfer(Face(2, 0), Face(1, 1), 5, 5, start=40)
    assert taken(chamfer, board()) == pytest.approx(12.5 * 360)
    proven(chamfer, board())


def test_no_room() -> None:
    for operation in (RoundOver(Face(2, 1), Face(1, 0), 21), Chamfer(Face(2, 1), Face(1, 0), 6, 21)):
        with pytest.raises(Fault):
            operation.made(board())
