from itertools import product

import numpy as np
import pytest

from docgen.drawing.exploding import FURTHER, GAP, STEPS, Apart, Between, Whole, spread
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


def test_a_weak_link_parts_what_all_others_leave_together() -> None:
    """A rail under a shelf goes with it into the same sides."""
    moves = spread(SHELVES, LINKS, (), VIEW, ROOM, None, [Apart(3, 2, 2, 1)])
    assert moves[3, 2] - moves[2, 2] > 20 and moves[3, 0] == pytest.approx(moves[2, 0])


def test_a_weak_link_leaves_alone_what_is_apart_already() -> None:
    told = [Apart(2, 0, 2, 1), Apart(1, 3, 2, -1)]
    assert (spread(SHELVES, LINKS, (), VIEW, ROOM, None, told) == spread(SHELVES, LINKS, (), VIEW, ROOM)).all()


def test_a_weak_link_keeps_two_from_going_into_each_other() -> None:
    """The inner sides of two frames side by side."""
    frames = np.concatenate([SHELVES, SHELVES + np.array([802.0, 0.0, 0.0])])
    links = [*LINKS, *(Apart(i.a + 4, i.b + 4, i.axis, i.sign) for i in LINKS)]
    meet = [Apart(4, 1, 0, 1)]
    assert (spread(frames, links, (), VIEW, ROOM)[4] - spread(frames, links, (), VIEW, ROOM)[1])[0] < 0
    moves = spread(frames, links, (), VIEW, ROOM, None, meet)
    assert moves[4, 0] - moves[1, 0] > 20


@pytest.mark.parametrize("room", [ROOM, (180.0, 90.0), (60.0, 200.0)])
def test_no_part_of_what_it_leaves_overtakes_a_whole(room: tuple[float, float]) -> None:
    """A shelf is lifted off the other by a joint; what stands on it is lifted as a whole, and further."""
    boxes = np.concatenate([SHELVES, np.array([box((0, 0, 620), (800, 300, 640))])])
    moves = spread(boxes, [*LINKS, Apart(3, 2, 2, 1)], [Whole((4,), 2, 1)], VIEW, room)
    assert moves[4, 2] > moves[3, 2] > 0


def test_the_picture_is_not_drawn_too_small_for_the_sake_of_what_is_hidden() -> None:
    """A pile of boards: the last of them are hidden in part rather than all drawn tiny."""
    pile = np.array([box((0, 0, 25 * k), (800, 300, 25 * k + 20)) for k in range(12)])
    moves = spread(pile, [Apart(k + 1, k, 2, 1) for k in range(11)], (), VIEW, ROOM)
    flat = np.stack([pile, pile + moves[:, None, :]]) @ np.array([VIEW.right, VIEW.up]).T
    size = [np.ptp(p.reshape(-1, 2), axis=0) for p in flat]
    assert min(np.array(ROOM) / size[0]) / min(np.array(ROOM) / size[1]) < 2.6


def test_things_between_parts_are_to_be_seen_too() -> None:
    """A table's top hides the buttons under it, unless it is lifted further than its own parts ask."""
    table = np.array([box((0, 0, 0), (800, 800, 20)), box((100, 100, 20), (700, 700, 40))])
    buttons = np.array([box((x, y, 20), (x + 40, y + 40, 40)) for x in (300, 460) for y in (300, 460)])
    lifts = []
    for between in (None, Between(buttons, np.array([[1.0, 0.0]] * 4))):
        moves = spread(table, [Apart(1, 0, 2, 1)], (), VIEW, ROOM, between)
        lifts.append(moves[1, 2] - moves[0, 2])
    assert lifts[1] > 1.3 * lifts[0] > 0


@pytest.mark.parametrize(("half", "step"), [(100, STEPS[1]), (200, FURTHER)])
def test_a_lid_goes_further_than_others_where_it_hides_much(half: int, step: float) -> None:
    """Over a small thing the usual steps are enough; over a large one none of them shows what is under it."""
    low, high = 400 - half, 400 + half
    lid = np.array([box((0, 0, 0), (800, 800, 20)), box((low, low, 20), (high, high, 40))])
    moves = spread(lid, [Apart(0, 1, 2, -1)], (), VIEW, ROOM)
    assert moves[1, 2] - moves[0, 2] == pytest.approx(step * GAP * 800, rel=0.01)
