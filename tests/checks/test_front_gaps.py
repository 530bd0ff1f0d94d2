import pytest

from docgen.checks import front_gaps
from docgen.checks.finding import Grade
from docgen.piece.model import Drawer, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def bay(left: float = 1.0, right: float = 1.0, top: float = 1.0, lean: float = 0.0) -> Piece:
    """A front 300 × 100 with its stated gap of 1 mm, between two sides and under a top; nothing stands below."""
    return piece(
        part("drawer.front", ((0, 300), (0, 20), (0, 100)), "across"),
        part("left side", ((-20 - left, -left), (0, 300), (-100, 120)), number=2),
        part("right side", ((300 + right, 320 + right), (0, 300), (-100, 120)), number=3),
        part("top", ((-1, 301), (0, 300), (100 + top, 120 + top)), "across", number=4),
        drawers=(Drawer("drawer", ("drawer.front",), ((0, 300), (0, 300), (0, 100)), 0, 0, 1.0),),
    )


@pytest.mark.parametrize("gap", [0.9, 1.0, 1.1])
def test_a_gap_as_asked_for_is_silent(gap: float) -> None:
    assert codes(front_gaps, bay(left=gap, right=gap, top=gap)) == []


@pytest.mark.parametrize("side", ["left", "right", "top"])
@pytest.mark.parametrize(
    ("gap", "grade", "code"),
    [(1.12, Grade.CARE, "front-gap"), (0.88, Grade.CARE, "front-gap"), (-0.3, Grade.STOP, "front-rubs")],
)
def test_a_gap_that_differs(side: str, gap: float, grade: Grade, code: str) -> None:
    (f,) = found(front_gaps, bay(**{side: gap}))
    assert (f.grade, f.code) == (grade, code)
    assert side in f.message
    assert f.figures[0][1] == pytest.approx(gap, abs=1e-3)


@pytest.mark.parametrize(("away", "expected"), [(9.9, ["front-gap"]), (10.1, [])])
def test_what_stands_further_away_is_no_neighbour(away: float, expected: list[str]) -> None:
    assert codes(front_gaps, bay(left=away)) == expected
