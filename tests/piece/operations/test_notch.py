import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.notch import Notch
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize(
    ("notch", "volume"),
    [
        (Notch((None, 30), (None, 40)), 30 * 40 * 20),
        (Notch((350, None), (90, None)), 50 * 30 * 20),
        (Notch((100, 150), (None, 25)), 50 * 25 * 20),
        (Notch((100, 150), (20, 60), (None, 8)), 50 * 40 * 8),
        (Notch((100, 150), (20, 60), (12, None)), 50 * 40 * 8),
    ],
)
def test_notches(notch: Notch, volume: float) -> None:
    assert taken(notch, board()) == pytest.approx(volume)
    proven(notch, board())


def test_a_corner_notch_is_measured_from_its_own_sides() -> None:
    sizes = made(Notch((350, None), (90, None)), board()).sizes
    assert [s.value for s in sizes] == [50, 30]


def test_nothing_left_and_nothing_taken() -> None:
    for notch in (Notch(), Notch((50, 50), (None, 20)), Notch((-5, 50), (None, 20))):
        with pytest.raises(Fault):
            notch.made(board())
