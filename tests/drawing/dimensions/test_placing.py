"""How one dimension is set: where its heads stand, which angle its arc spans, what a row and a leader keep clear of."""

from __future__ import annotations

import math

import numpy as np
import pytest

from docgen.drawing import symbols
from docgen.drawing.boxes import inside_length
from docgen.drawing.dimensions.label import label
from docgen.drawing.dimensions.leaders import STRIKE, leader_trials
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Rules, Wanted
from docgen.drawing.records import Arc, Line, Point
from tests.drawing.dimensions.test_engine import LEVEL, METRICS, arranged

HEAD = symbols.arrow_length(3.5)


@pytest.mark.parametrize(("more", "outside"), [(-0.05, True), (0.05, False)])
def test_heads_stand_outside_where_two_and_a_gap_have_no_room_between(more: float, outside: bool) -> None:
    """Two heads and 2 mm of line between them; else the line runs on by two heads at each end and they point inward."""
    long = 2 * HEAD + 2 + more
    _, result = arranged([Linear("w", (100, 0), (100 + long / 0.25, 0), LEVEL, "3")])
    (placed,) = result.placed
    assert placed.arrows is not None
    level = placed.arrows[0][1]
    (line,) = [r for r in placed.records if isinstance(r, Line) and r.a[1] == r.b[1] == level]
    assert math.dist(line.a, line.b) == pytest.approx(long + (4 * HEAD if outside else 0))


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("degrees", [30, 90, 150, 179])
def test_an_arc_spans_the_angle_between_its_arms_not_the_rest_of_the_round(degrees: int, turned: bool) -> None:
    arms: list[Point] = [
        (300, 100),
        (200 + 100 * math.cos(math.radians(degrees)), 100 + 100 * math.sin(math.radians(degrees))),
    ]
    _, result = arranged([Angular("a", (200, 100), *(arms[::-1] if turned else arms), text=f"{degrees}°")], scale=0.5)
    (placed,) = result.placed
    (arc,) = [r for r in placed.records if isinstance(r, Arc)]
    assert (arc.start + arc.end) / 2 == pytest.approx(degrees / 2)  # its middle lies between the arms
    tails = [0.0, 2 * math.degrees(2 * HEAD / arc.radius)]  # where the heads stand outside it runs on beyond the arms
    assert any((arc.end - arc.start) % 360 == pytest.approx(degrees + tail) for tail in tails)


@pytest.mark.parametrize(("beside", "how"), [(160, "running"), (122, "lane")])
def test_a_row_of_figures_gives_way_to_an_extension_line_that_is_to_come(beside: int, how: str) -> None:
    row: list[Wanted] = [Linear(f"p{n}", (0, 0), (n * 60, 0), LEVEL, str(n * 60), datum=True) for n in range(1, 6)]
    whole = Linear("whole", (beside, 0), (400, 0), LEVEL, str(400 - beside), overall=True)
    _, result = arranged([*row, whole])
    assert {p.wanted.key: p.how for p in result.placed} == {**{w.key: how for w in row}, "whole": "lane"}


def test_leaders_keep_off_the_texts_that_stand() -> None:
    rules = Rules()
    text = label(("⌀8",), 3.5, METRICS)
    occupied = Occupied()
    inked = [text.box((12.0 * k, 10.0 + 7.0 * (k % 2))) for k in range(-3, 4)]
    for box in inked:
        occupied.add_box(box)
    trials = list(leader_trials(Callout("h", (0.0, 0.0), 2.0, ("⌀8",)), (0.0, 0.0), 2.0, text, occupied, rules))
    assert trials
    for trial in trials:
        heel, bend, _ = trial.lines[0]
        assert all(inside_length(box.grown(STRIKE - 1e-6), heel, bend) == 0 for box in inked)
    assert STRIKE >= 0.45


def test_no_leader_runs_through_the_circle_of_another_hole() -> None:
    """It would be read as that hole's: the cheapest leader leaves upward to the right, where the other one lies."""
    holes = {"a": (200.0, 100.0), "b": (212.0, 112.0), "c": (224.0, 88.0)}
    _, result = arranged([Callout(key, at, 4.0, (f"{key}: ⌀8",)) for key, at in holes.items()], scale=0.5)
    assert len(result.placed) == len(holes)
    for placed in result.placed:
        heel, bend = next((r.a, r.b) for r in placed.records if isinstance(r, Line))
        for key, (x, y) in holes.items():
            if key != placed.wanted.key:
                run = [
                    (heel[0] + s * (bend[0] - heel[0]), heel[1] + s * (bend[1] - heel[1]))
                    for s in np.linspace(0, 1, 99)
                ]
                assert min(math.dist((x / 2, y / 2), p) for p in run) > 2.0 - 1e-6


def test_a_copy_of_what_stands_is_added_to_apart() -> None:
    one = Occupied()
    one.add_line((0.0, 0.0), (40.0, 0.0), "view")
    two = one.copy()
    two.add_line((0.0, 5.0), (40.0, 5.0), "leader")
    two.add_box(label(("⌀8",), 3.5, METRICS).box((20.0, 20.0)))
    assert len(one.lines) == 1 and not one.boxes and one.bounds() == (0.0, 0.0, 40.0, 0.0)
    assert two.crossed((20.0, -2.0), (20.0, 8.0)) == ["view", "leader"] and one.crossed((20.0, -2.0), (20.0, 8.0)) == [
        "view"
    ]
    assert one.screen.free(np.array([[10.0, 15.0, 30.0, 25.0]])).tolist() == [True]
    assert two.screen.free(np.array([[10.0, 15.0, 30.0, 25.0]])).tolist() == [False]
