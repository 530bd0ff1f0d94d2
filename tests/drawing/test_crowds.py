"""Where figures crowd: several in one small place that stand for little or were moved far out."""

import pytest

from docgen.drawing.crowds import AIR, FINE, LED, crowded, place, spots, strained
from docgen.drawing.dimensions.wanted import Callout, Linear, Placed, Wanted
from docgen.drawing.records import Line, Point, Text
from docgen.piece.records import Size, SizeKind

SIZE = Size(SizeKind.RADIUS, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 1)


def linear(key: str, a: Point, b: Point, **more: bool) -> Linear:
    return Linear(key, a, b, (1.0, 0.0), "7", (SIZE,), **more)


def set_(w: Linear, scale: float = 1.0, text: Point | None = None, how: str = "lane") -> Placed:
    a, b = ((p[0] * scale, p[1] * scale) for p in (w.a, w.b))
    return Placed(w, how, (a, b), (Text(text or ((a[0] + b[0]) / 2, a[1] + 1.0), "7"),))


def short(key: str, x: float, long: float = 2.0) -> Placed:
    return set_(linear(key, (x, 0.0), (x + long, 0.0)))


def test_a_figure_is_hard_to_read_that_stands_for_next_to_nothing_or_far_from_its_place() -> None:
    assert strained(short("a", 0, FINE - 0.1))
    assert not strained(short("a", 0, FINE + 0.1))
    long = linear("b", (0.0, 0.0), (8.0, 0.0))
    assert strained(set_(long, text=(4.0, 14.0)))
    assert not strained(set_(long, text=(4.0, 4.0)))


@pytest.mark.parametrize(("long", "hard"), [(LED - 1, False), (LED + 1, True)])
def test_a_long_leader_makes_a_figure_hard_to_read(long: float, hard: bool) -> None:
    w = Callout("c", (0.0, 0.0), 0.0, ("R 3",), (SIZE,))
    assert strained(Placed(w, "leader", None, (Line((0.0, 0.0), (long, 0.0)), Text((long, 0.0), "R 3")))) is hard


def test_three_figures_in_one_place_make_a_crowd_two_do_not() -> None:
    here = [short("a", 0), short("b", 2), short("c", 4)]
    assert crowded(here, 1.0)[0] == {"a", "b", "c"}
    assert crowded(here[:2], 1.0) == []
    assert crowded([short("a", 0), short("b", 60), short("c", 120)], 1.0) == []


def test_figures_that_read_well_make_no_crowd() -> None:
    assert crowded([short(key, 8.0 * n, 5.0) for n, key in enumerate("abc")], 1.0) == []


def test_what_belongs_to_the_whole_view_is_in_no_crowd() -> None:
    over = [short("a", 0), short("b", 2), set_(linear("c", (4.0, 0.0), (6.0, 0.0), overall=True))]
    assert crowded(over, 1.0) == []
    row = [short("a", 0), short("b", 2), set_(linear("c", (4.0, 0.0), (6.0, 0.0)), how="running")]
    assert crowded(row, 1.0) == []
    assert spots(Callout("h", (0.0, 0.0), 2.0, ("4",), (SIZE,), others=((50.0, 0.0),))) == ()
    assert len(spots(Callout("h", (0.0, 0.0), 2.0, ("4",), (SIZE,)))) == 4


def test_the_place_holds_all_that_is_measured_with_air_around() -> None:
    every: list[Wanted] = [p.wanted for p in (short("a", 0), short("b", 8), short("c", 14))]
    found = place(every, frozenset("abc"), 1.0, 400.0)
    assert found is not None
    assert found.centre == (8.0, 0.0)
    assert found.radius == pytest.approx(max(8.0 * (1 + AIR), 11.0))
    assert found.least == pytest.approx(2.0)


def test_what_lies_in_the_place_besides_goes_with_it() -> None:
    more: list[Wanted] = [
        p.wanted for p in (short("a", 0), short("b", 8), short("c", 14), short("d", 5), short("e", 40))
    ]
    found = place(more, frozenset("abc"), 1.0, 400.0)
    assert found is not None
    assert found.keys == {"a", "b", "c", "d"}


def test_a_place_as_wide_as_half_the_view_or_a_loose_one_is_none() -> None:
    every: list[Wanted] = [p.wanted for p in (short("a", 0), short("b", 8), short("c", 14))]
    assert place(every, frozenset("abc"), 1.0, 30.0) is None
    apart: list[Wanted] = [p.wanted for p in (short("a", 0), short("b", 12), short("c", 24))]
    assert place(apart, frozenset("abc"), 1.0, 400.0) is None


def test_all_of_an_arc_that_a_leader_may_point_at_lies_in_the_place() -> None:
    w = Callout("r", (0.0, 0.0), 10.0, ("R 10",), (SIZE,), 90.0, 20.0)
    low, top, high = spots(w)
    assert top == pytest.approx((0.0, 10.0))
    assert low[0] == pytest.approx(-high[0])
    assert abs(low[0]) == pytest.approx(10.0 * 0.342, abs=0.01)
