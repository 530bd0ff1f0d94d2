from fractions import Fraction

import pytest

from docgen.checks import openings
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.operations.arched_edge import ArchedEdge
from docgen.piece.operations.cut_out import HandHole, RoundOut, Window
from docgen.piece.records import Face
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
WIDE = Face(2, 1)


def cut(*operations: HandHole | RoundOut | Window | ArchedEdge) -> Piece:
    bare = part("side", SIDE)
    return piece(part("side", SIDE, features=tuple(feature(o.label, o.made(bare)) for o in operations)))


def hand_hole(beside: Fraction | int) -> HandHole:
    """A hand hole 30 wide with so much wood between it and the low edge."""
    return HandHole(WIDE, (350, beside + 15), (100, 30))


@pytest.mark.parametrize(
    ("beside", "expected"),
    [(Fraction(201, 10), []), (Fraction(199, 10), ["opening-thin"]), (4, ["opening-thin"])],
)
def test_as_much_wood_as_the_part_is_thick(beside: Fraction, expected: list[str]) -> None:
    assert codes(openings, cut(hand_hole(beside))) == expected


def test_less_than_three_millimetres_is_none() -> None:
    arch = ArchedEdge(WIDE, Face(1, 0), Fraction(271, 10), 100, 600)
    assert codes(openings, cut(hand_hole(30), ArchedEdge(WIDE, Face(1, 0), Fraction(269, 10), 100, 600))) == [
        "opening-thin"
    ]
    (f,) = found(openings, cut(hand_hole(30), arch))
    assert (f.grade, f.code) == (Grade.STOP, "opening-breaks-out")
    assert f.figures[0][1] == pytest.approx(2.9, abs=0.05)


def test_an_opening_that_runs_into_a_curve() -> None:
    (f,) = found(openings, cut(hand_hole(30), ArchedEdge(WIDE, Face(1, 0), 40, 100, 600)))
    assert (f.code, f.figures[0][1]) == ("opening-breaks-out", 0.0)


def test_two_openings_side_by_side() -> None:
    both = cut(RoundOut(WIDE, (200, 150), 100), RoundOut(WIDE, (Fraction(3195, 10), 150), 100))
    assert codes(openings, both) == ["opening-thin", "opening-thin"]
    assert codes(openings, cut(RoundOut(WIDE, (200, 150), 100), RoundOut(WIDE, (321, 150), 100))) == []


def test_a_window_with_square_corners() -> None:
    assert codes(openings, cut(Window(WIDE, (350, 150), (500, 258)))) == []
    assert codes(openings, cut(Window(WIDE, (350, 150), (500, 262)))) == ["opening-thin"]
