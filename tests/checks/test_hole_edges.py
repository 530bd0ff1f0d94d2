import math
from fractions import Fraction

import pytest

from docgen.checks import hole_edges
from docgen.checks.finding import Grade
from docgen.geometry.make import box, cylinder
from docgen.piece.model import Piece
from docgen.piece.records import Cut, Face, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import PLY, feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
D = Fraction(6)


def drilled(
    x: float, y: float, *, purpose: Purpose = Purpose.CLEARANCE, material: object = None, more: tuple[Cut, ...] = ()
) -> Piece:
    x_, y_ = Fraction(x).limit_denominator(1000), Fraction(y).limit_denominator(1000)
    row = HoleRow("A", purpose, Face(2, 0), ((x_, y_, 0),), (0.0, 0.0, 1.0), D, "6 mm")
    hole = Cut(cylinder((x, y, 0.0), (0.0, 0.0, 1.0), 3.0, 21.0))
    kind = {"material": material} if material else {}
    return piece(part("side", SIDE, features=(feature("hole", Made(holes=(row,), cuts=(hole, *more))),), **kind))  # type: ignore[arg-type]


@pytest.mark.parametrize(("y", "expected"), [(9.01, []), (8.98, ["hole-near-edge"]), (3.1, ["hole-near-edge"])])
def test_a_diameter_and_a_half_to_the_edge(y: float, expected: list[str]) -> None:
    assert codes(hole_edges, drilled(300, y)) == expected


@pytest.mark.parametrize(("y", "expected"), [(6.01, []), (5.98, ["hole-near-edge"])])
def test_a_dowel_takes_up_to_half_of_the_thickness(y: float, expected: list[str]) -> None:
    assert codes(hole_edges, drilled(300, y, purpose=Purpose.DOWEL)) == expected


@pytest.mark.parametrize(("x", "expected"), [(24.01, []), (23.98, ["hole-near-end"])])
def test_four_diameters_to_the_end_of_a_loaded_hole(x: float, expected: list[str]) -> None:
    assert codes(hole_edges, drilled(x, 150)) == expected


def test_unloaded_holes_and_sheets_need_less_to_the_end() -> None:
    assert codes(hole_edges, drilled(9.01, 150, purpose=Purpose.PLAIN)) == []
    assert codes(hole_edges, drilled(8.98, 150, purpose=Purpose.PLAIN)) == ["hole-near-end"]
    of = drilled(9.01, 150)
    sheet = piece(part("side", ((0, 12), (0, 300), (0, 700)), material=PLY, features=of.parts[0].features))
    assert codes(hole_edges, sheet) == []


def test_a_hole_that_breaks_out() -> None:
    (f,) = found(hole_edges, drilled(300, 2.99))
    assert (f.grade, f.code) == (Grade.STOP, "hole-breaks-out")


def test_the_finished_wood_counts() -> None:
    rabbet = Cut(box((-1.0, -1.0, -1.0), (701.0, 10.0, 21.0)))  # the edge is now at 10
    assert codes(hole_edges, drilled(300, 18.98, more=(rabbet,))) == ["hole-near-edge"]
    assert codes(hole_edges, drilled(300, 19.02, more=(rabbet,))) == []


def test_the_next_hole_is_no_edge() -> None:
    other = Cut(cylinder((310.0, 150.0, 0.0), (0.0, 0.0, 1.0), 3.0, 21.0))
    assert codes(hole_edges, drilled(300, 150, more=(other,))) == []


@pytest.mark.parametrize(("y", "expected"), [(10.3, []), (10.2, ["hole-near-edge"])])
def test_a_slanting_hole_is_judged_where_it_comes_out_of_the_end(y: float, expected: list[str]) -> None:
    """Out of the end of a board 20 thick, its axis y under the face there.

    It is measured a diameter before, square to the axis: (y − 6 · sin 15°) / cos 15° is to be 1.5 × 6 = 9, so y = 10.25.
    """
    lean = math.radians(15)
    way = (-math.cos(lean), 0.0, math.sin(lean))
    run = y / math.sin(lean)
    mouth = (Fraction(y / math.tan(lean)).limit_denominator(10**6), Fraction(150), 0)
    row = HoleRow("A", Purpose.CLEARANCE, Face(2, 0), (mouth,), way, D, "6 mm", reach=run)
    hole = Cut(cylinder((float(mouth[0]), 150.0, 0.0), way, 3.0, run + 40.0, before=40.0))
    of = piece(part("side", SIDE, features=(feature("hole", Made(holes=(row,), cuts=(hole,))),)))
    assert codes(hole_edges, of) == expected
