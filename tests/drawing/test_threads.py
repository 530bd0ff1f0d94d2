"""Tapped holes are told from plain ones in every view: the conventional lines of ISO 6410-1."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from docgen.drawing.records import Arc, Line, Pen
from docgen.drawing.threads import APART, full, major_radius, of_holes
from docgen.geometry.lines import VIEWS
from docgen.piece.records import Face, HoleRow, Purpose

SIZE = (100.0, 40.0, 30.0)
TAPPED = HoleRow(
    name="A",
    purpose=Purpose.TAPPED,
    face=Face(1, 0),
    points=((50, 0, 15),),
    direction=(0.0, 1.0, 0.0),
    diameter=5,
    drill="5 mm",
    depth=20,
    thread="M6 × 1",
    thread_depth=14,
)


def test_three_quarters_of_a_circle_where_one_looks_into_the_hole() -> None:
    (arc,) = of_holes([TAPPED], SIZE, VIEWS["front"], 2.0)
    assert isinstance(arc, Arc) and arc.pen is Pen.THIN
    assert arc.end - arc.start == 270 and arc.radius == pytest.approx(6.0)  # M6: 3 mm, at 2 : 1
    assert arc.centre == (100.0, 30.0)


def test_a_blind_hole_is_hidden_from_behind_and_a_through_hole_is_not() -> None:
    (behind,) = of_holes([TAPPED], SIZE, VIEWS["back"], 2.0)
    (through,) = of_holes([replace(TAPPED, depth=None, thread_depth=None)], SIZE, VIEWS["back"], 2.0)
    assert isinstance(behind, Arc) and behind.pen is Pen.HIDDEN
    assert isinstance(through, Arc) and through.pen is Pen.THIN


def test_dashes_along_a_hole_to_the_end_of_its_full_thread() -> None:
    made = of_holes([TAPPED], SIZE, VIEWS["top"], 2.0)
    lines = [r for r in made if isinstance(r, Line)]
    assert len(lines) == len(made) == 3 and {line.pen for line in lines} == {Pen.HIDDEN}
    low, high, across = sorted(lines, key=lambda line: (line.a[1] + line.b[1], line.a))[0], lines[1], lines[2]
    assert {round(x, 6) for line in (low, high) for x in (line.a[0], line.b[0])} <= {94.0, 106.0}
    assert math.dist(low.a, low.b) == pytest.approx(28.0)  # 14 mm of full thread
    assert math.dist(across.a, across.b) == pytest.approx(12.0)


def test_a_thread_through_the_wood_has_no_line_across() -> None:
    through = replace(TAPPED, depth=None, thread_depth=None)
    lines = of_holes([through], SIZE, VIEWS["top"], 1.0)
    assert len(lines) == 2 and all(isinstance(r, Line) and math.dist(r.a, r.b) == pytest.approx(40) for r in lines)
    assert full(through, 40.0) == (40.0, False)


def test_small_threads_stand_clear_of_their_hole() -> None:
    (arc,) = of_holes([TAPPED], SIZE, VIEWS["front"], 0.1)
    assert isinstance(arc, Arc) and arc.radius == pytest.approx(0.25 + APART)


def test_holes_one_behind_the_other_have_one_thread() -> None:
    twice = replace(TAPPED, points=((50, 0, 15), (80, 0, 15)))
    assert len(of_holes([twice], SIZE, VIEWS["right"], 1.0)) == 3
    assert len(of_holes([twice], SIZE, VIEWS["top"], 1.0)) == 6


def test_only_tapped_holes_with_a_known_thread_have_one() -> None:
    assert major_radius(TAPPED) == pytest.approx(3.0)
    assert major_radius(replace(TAPPED, thread="1/4-20 UNC")) == pytest.approx(3.175)
    for row in (
        replace(TAPPED, purpose=Purpose.BORE),
        replace(TAPPED, thread=""),
        replace(TAPPED, thread="its own"),
        replace(TAPPED, direction=(0.0, 0.8, 0.6)),
    ):
        assert not of_holes([row], SIZE, VIEWS["right" if row.direction[2] == 0 else "front"], 1.0)
