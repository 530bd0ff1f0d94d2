import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.cheeks import Cheeks
from docgen.piece.records import Authority, Stage
from tests.piece.operations.trial import (
    board,
    every_parameter_is_told_once,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    taken,
)


@pytest.mark.parametrize(
    ("cheeks", "gone"),
    [
        (Cheeks(350, None, 6, 14), 50 * 120 * 12),  # at the right end
        (Cheeks(None, 50, 6, 14), 50 * 120 * 12),  # at the left end
        (Cheeks(100, 160, 6, 14), 60 * 120 * 12),  # a tee
        (Cheeks(350, None, 0, 12), 50 * 120 * 8),  # bare-faced
        (Cheeks(350, None, 8, 20), 50 * 120 * 8),
    ],
)
def test_what_stays_between_the_cheeks(cheeks: Cheeks, gone: float) -> None:
    assert taken(cheeks, board()) == pytest.approx(gone)
    if cheeks.low > 0 and cheeks.high < 20:
        every_parameter_is_told_once(cheeks, board())
    figures_measure_what_they_say(cheeks, board())


def test_fat_stays_until_it_is_fitted() -> None:
    cheeks = Cheeks(350, None, 6, 14, 1)
    assert taken(cheeks, board()) == pytest.approx(50 * 120 * 12)
    assert taken(cheeks, board(), Stage.PART) == pytest.approx(50 * 120 * 11)
    every_parameter_moves_the_solid(Cheeks(100, 160, 6, 14, 1), board())
    (fit,) = (s for s in made(cheeks, board()).sizes if s.authority is Authority.FIT)
    assert (fit.value, fit.over) == (8, 1)
    assert made(cheeks, board()).settings[0].note == "fit each tenon to its slot"
    assert [v for _, v, _ in made(cheeks, board()).settings[0].values] == [9, 5.5, 5.5]
    assert [(m.position, m.wood) for m in made(Cheeks(100, 160, 6, 14), board()).marks] == [(100, -1), (160, 1)]


@pytest.mark.parametrize(
    ("cheeks", "code"),
    [
        (Cheeks(350, None, 0, 20), "tongue-range"),
        (Cheeks(350, None, 14, 6), "tongue-range"),
        (Cheeks(160, 100, 6, 14), "length-range"),
        (Cheeks(350, 450, 6, 14), "outside-part"),
    ],
)
def test_impossible_cheeks(cheeks: Cheeks, code: str) -> None:
    with pytest.raises(Fault) as fault:
        cheeks.made(board())
    assert fault.value.code == code
