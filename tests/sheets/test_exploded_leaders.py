"""Where numbers of the piece taken apart stand, and what becomes of a way that a leader has to pass."""

from __future__ import annotations

import math

import numpy as np
import pytest

from docgen.drawing.boxes import crossing
from docgen.drawing.exploding import Floats
from docgen.drawing.records import Line, Pen, Point
from docgen.layout.model import Rect
from docgen.sheets.exploded_leaders import OPEN, OVER, OVER_LEADER, OVER_WAY, Found, Paper, crossings, fan, parted
from docgen.sheets.exploded_numbers import _settled


def paper(*lines: tuple[Point, Point], ways: int = 0, inside: Rect | None = None) -> Paper:
    """Return paper with lines, the last so many of them ways."""
    count = len(lines)
    return Paper(np.array(lines), np.arange(count) >= count - ways, 3.0, inside or Rect(0.0, 0.0, 100.0, 100.0))


def ring(x: float, y: float, half: float) -> list[tuple[Point, Point]]:
    """Return the sides of a square about a point."""
    a, b, c, d = (x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)
    return [(a, b), (b, c), (c, d), (d, a)]


def test_many_leaders_from_a_foot_cross_what_each_by_itself_crosses() -> None:
    rng = np.random.default_rng(7)
    foot, ends, others = rng.uniform(0, 9, 2), rng.uniform(0, 9, (40, 2)), rng.uniform(0, 9, (60, 2, 2))
    alone: Floats = np.array([[crossing(foot, end, *line) for line in others.tolist()] for end in ends.tolist()])
    assert 100 < alone.sum() < 2000
    assert (fan(foot, ends, others) == alone).all()
    assert (crossings(np.array([foot, ends[3]]), others) == alone[3]).all()


def test_a_leader_goes_over_an_outline_before_a_way_and_over_a_way_before_a_leader() -> None:
    """A place in a square with one side that is cheaper than the others; the square is too small for a number."""
    square = ring(50.0, 50.0, 3.0)
    alone = paper(*square).cheapest([(50.3, 50.1)], [])
    assert alone.cost == pytest.approx(OVER + 0.2 * math.dist(alone.foot, alone.centre)) and not alone.crosses
    for cheap in range(4):
        ways = [side for k, side in enumerate(square) if k != cheap]
        found = paper(square[cheap], *ways, ways=3).cheapest([(50.3, 50.1)], [])
        assert not found.crosses
        (x, y), (u, v) = found.foot, found.centre
        assert np.argmax([y - v, u - x, v - y, x - u]) == cheap
    shut = paper(*square, ways=4).cheapest([(50.3, 50.1)], [])
    assert shut.crosses and OVER_WAY < shut.cost < OVER_LEADER
    assert paper(*square, ways=4).cheapest([(50.3, 50.1), (20.0, 20.0)], []).foot == (20.0, 20.0)


def test_numbers_stand_clear_of_each_other_and_of_each_others_leaders() -> None:
    on = paper(((0.0, 0.0), (1.0, 0.0)))
    placed: list[Found] = []
    for k in range(4):
        placed.append(on.cheapest([(50.0 + 11 * k, 50.0)], placed))
    pairs = [(a, b) for a in placed for b in placed if a is not b]
    assert not any(on.disturbs(a, b) for a, b in pairs)
    assert on.disturbs(placed[0], placed[0])
    across = Found(0.0, placed[0].centre, placed[0].foot)
    assert on.disturbs(across, placed[0])


def test_a_number_makes_room_for_one_that_can_stand_nowhere_else() -> None:
    """The first number takes the only place that the second has without going over a way."""
    inside = Rect(50.0, 20.0, 15.0, 26.0)
    fence = [((30.0, 36.0), (90.0, 36.0)), ((30.0, 26.0), (90.0, 26.0))]
    on = paper(*fence, ways=2, inside=inside)
    feet = {"1": [(54.0, 31.0), (54.0, 42.0)], "2": [(54.0, 31.0)]}
    first = on.cheapest(feet["1"], [])
    assert on.cheapest(feet["2"], [first]).crosses
    made = _settled(feet, on)
    assert list(made) == ["1", "2"] and not any(found.crosses for found in made.values())
    assert not on.disturbs(made["1"], made["2"])


def test_a_way_is_left_open_where_a_leader_passes() -> None:
    way, edge = Line((10.0, 10.0), (40.0, 10.0), Pen.CENTRE), Line((10.0, 10.0), (40.0, 10.0))
    over: list[tuple[Point, Point]] = [((20.0, 0.0), (20.0, 30.0)), ((35.0, 5.0), (37.0, 15.0))]
    made = parted([edge, way], over, 1.0)
    assert made[0] is edge
    ends = [round(x, 6) for r in made[1:] if isinstance(r, Line) for x in (r.a[0], r.b[0])]
    assert ends == [10.0, 20.0 - OPEN, 20.0 + OPEN, 36.0 - OPEN, 36.0 + OPEN, 40.0]
    assert all(isinstance(r, Line) and r.pen is Pen.CENTRE and r.a[1] == r.b[1] == 10.0 for r in made[1:])
    assert len(parted([edge, way], over, 3.5)) == 3  # the bit beyond the second leader tells nothing
    assert parted([edge, way], [((20.0, 10.0), (20.0, 30.0))], 1.0) == [edge, way]  # a leader that starts on it
    assert parted([edge, way], [], 1.0) == [edge, way]
