from itertools import product

import numpy as np
import pytest

from docgen.drawing.exploding import Apart, Whole, spread
from docgen.geometry.lines import VIEWS

VIEW = VIEWS["axonometric"]
ROOM = (180.0, 200.0)


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> list[tuple[float, ...]]:
    return list(product(*zip(low, high, strict=True)))


SHELVES = np.array(
    [
        box((0, 0, 0), (20, 300, 900)),
        box((780, 0, 0), (800, 300, 900)),
        box((15, 0, 300), (785, 300, 320)),
        box((15, 0, 600), (785, 300, 620)),
    ]
)
LINKS = [Apart(2, 0, 0, 1), Apart(1, 2, 0, 1), Apart(3, 0, 0, 1), Apart(1, 3, 0, 1)]


def test_linked_parts_part_along_the_link_and_stay_level() -> None:
    moves = spread(SHELVES, LINKS, (), VIEW, ROOM)
    assert moves[0, 0] < moves[2, 0] - 20 and moves[2, 0] < moves[1, 0] - 20
    assert moves[2, 0] == pytest.approx(moves[3, 0]) and moves[0, 0] == pytest.approx(-moves[1, 0])
    assert np.abs(moves[:, 1:]).max() < 1e-6


def test_a_whole_goes_further_together() -> None:
    moves = spread(SHELVES, LINKS, [Whole((3,), 2, 1)], VIEW, ROOM)
    assert moves[3, 2] > 50 and np.abs(moves[:3, 2]).max() < 1e-6


def test_the_same_parts_go_the_same_way_each_time() -> None:
    assert (spread(SHELVES, LINKS, (), VIEW, ROOM) == spread(SHELVES, LINKS, (), VIEW, ROOM)).all()


def test_without_links_nothing_moves() -> None:
    assert not spread(SHELVES, [], (), VIEW, ROOM).any()


def test_a_whole_that_stands_before_another_goes_so_much_further() -> None:
    one = spread(SHELVES, LINKS, [Whole((3,), 2, 1)], VIEW, ROOM)
    two = spread(SHELVES, LINKS, [Whole((3,), 2, 1, 2), Whole((2,), 2, 1)], VIEW, ROOM)
    assert one[3, 2] > 0 and two[3, 2] == pytest.approx(2 * two[2, 2])
