from fractions import Fraction

import pytest

from docgen.trade.buttons import move, places, seat
from docgen.trade.movement import species


def test_a_point_of_the_top_moves_by_its_distance_from_the_middle() -> None:
    """White oak, flat-sawn, 0.00365 a per cent (Wood Handbook, Table 13-5): 150 mm over 4 % are 2.19 mm."""
    assert move(150, species("white oak").tangential, 4) == pytest.approx(2.19)
    assert move(-150, species("white oak").tangential, 4) == pytest.approx(2.19)
    assert move(150, 0.0, 4) == 0


def test_the_gap_is_the_movement_rounded_up_and_the_tongue_stays_in() -> None:
    sits = seat(12, 2.19, Fraction(1, 2))
    assert (sits.gap, sits.enters) == (Fraction(5, 2), Fraction(19, 2))
    assert sits.least == pytest.approx(7.31) and sits.deepest == pytest.approx(11.69)
    assert seat(12, 2.5, Fraction(1, 2)).gap == Fraction(5, 2)
    assert seat(12, 0.0, Fraction(1, 2)).gap == 0


@pytest.mark.parametrize(
    ("length", "ends", "spacing", "found"),
    [(366, 60, 250, (60, 306)), (366, 60, 200, (60, 183, 306)), (100, 60, 200, (50,)), (120, 20, 40, (20, 60, 100))],
)
def test_buttons_stand_equally_and_no_further_apart(
    length: int, ends: int, spacing: int, found: tuple[int, ...]
) -> None:
    assert places(length, ends, Fraction(spacing)) == found
