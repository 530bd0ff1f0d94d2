from fractions import Fraction

import pytest

from docgen.trade.fingers import by_count, by_cutter


@pytest.mark.parametrize(("width", "count", "play"), [(99, 11, Fraction(1, 10)), (Fraction(700, 3), 7, 0)])
def test_fingers_by_count_share_the_width(width: Fraction, count: int, play: Fraction) -> None:
    plan = by_count(width, count, play)
    assert plan.pitch * count == width and plan.socket - plan.finger == play and plan.last == plan.pitch


@pytest.mark.parametrize("width", range(30, 130, 7))
def test_the_last_finger_is_from_half_to_two_and_a_half_of_the_others(width: int) -> None:
    plan = by_cutter(Fraction(width), Fraction(8), Fraction(1, 5))
    assert plan.count % 2 == 1 and plan.socket == 8 and plan.finger == Fraction(78, 10)
    assert plan.pitch / 2 <= plan.last < Fraction(5, 2) * plan.pitch
    assert (plan.count - 1) * plan.pitch + plan.last == width
