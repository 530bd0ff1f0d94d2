"""A size of the blank that reaches outside the finished outline ends on the blank's edge, drawn in phantom line."""

import math

import pytest

from docgen.drawing.records import Line, Pen
from docgen.drawing.unfold import Station
from docgen.piece.records import Stage
from docgen.sheets.part_blank import blank_edges
from docgen.sheets.part_view import Subject, wanted_in
from tests.sheets.test_part_shoulders import subject


def edges(part: Subject, station: Station) -> list[Line]:
    drawn, bounds = part.drawn(station, False, Stage.PART), part.bounds(station, False)
    return blank_edges(part.part, station, drawn, wanted_in(part, station), bounds, 1.0, part.gone)


def principal(part: Subject) -> Station:
    return next(s for s in part.stations(False) if s.face == part.first)


def test_a_curve_that_takes_a_whole_edge_leaves_the_blanks_edge_in_phantom_line() -> None:
    front = subject("tool-tote", "front")
    made = edges(front, principal(front))
    wide = float(front.part.size[1])
    assert {r.pen for r in made} == {Pen.PHANTOM}
    whole = [r for r in made if abs(r.a[1] - r.b[1]) < 1e-6]
    assert [(abs(r.a[0] - r.b[0]), r.a[1]) for r in whole] == [(pytest.approx(24.5 * 25.4), pytest.approx(wide))]
    feet = [sorted((r.a[1], r.b[1])) for r in made if r not in whole]  # down to where the curve begins and ends
    assert len(feet) == 2 and all(
        low == pytest.approx(wide - 25.4 / 8) and top == pytest.approx(wide) for low, top in feet
    )


def test_the_long_point_of_a_foot_that_is_rounded_off_is_drawn_to_its_corner() -> None:
    leg = subject("sketching-desk", "stand.left front")
    made = edges(leg, principal(leg))
    assert len(made) == 2  # the edge and the slanted end, drawn on to where they meet
    assert all(0 < math.dist(r.a, r.b) < 15 for r in made)
    ends = [(round(x, 6), round(y, 6)) for r in made for x, y in (r.a, r.b)]
    (corner,) = {p for p in ends if ends.count(p) == 2}
    assert corner[0] == 0.0 < principal_low(leg)


def principal_low(part: Subject) -> float:
    return part.bounds(principal(part), False)[0]


@pytest.mark.parametrize(("name", "path"), [("tool-tote", "back"), ("tool-tote", "bottom"), ("bookcase", "left side")])
def test_a_part_that_reaches_its_blank_has_no_such_line(name: str, path: str) -> None:
    part = subject(name, path)
    assert [r for s in part.stations(False) for r in edges(part, s)] == []
