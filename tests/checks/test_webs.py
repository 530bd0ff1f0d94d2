import pytest

from docgen.checks import webs
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.records import Face
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 14), (0, 100), (0, 300))
BOX = ((0, 300), (0, 100), (0, 14))


def board(low: float, outer: float, inner: float, *, along: int = 0) -> Piece:
    """A board 300 × 100 × 14: a groove 10 to 16 up its width in one face, another from `low` in the other one."""
    blank = part("side", SIDE)
    ops = (Dado(Face(2, 0), 0, 10.0, 16.0, inner), Dado(Face(2, 1), along, low, low + 8.0, outer))
    return piece(part("side", SIDE, features=tuple(feature("groove", op.made(blank)) for op in ops)))


@pytest.mark.parametrize(
    ("outer", "expected"), [(6.0, []), (6.01, ["web-thin"]), (8.99, ["web-thin"]), (9.0, ["web-breaks"])]
)
def test_grooves_behind_each_other(outer: float, expected: list[str]) -> None:
    # 14 less 5 leaves 9 behind the inner groove.
    assert codes(webs, board(12.0, outer, 5.0)) == expected


@pytest.mark.parametrize(
    ("low", "expected"), [(19.0, []), (18.99, ["web-thin"]), (16.01, ["web-thin"]), (16.0, ["web-breaks"])]
)
def test_grooves_beside_each_other(low: float, expected: list[str]) -> None:
    # Both 7 deep: their floors lie level, and their walls are told from one another.
    assert codes(webs, board(low, 7.0, 7.0)) == expected


def test_corners_of_grooves_are_measured_aslant() -> None:
    # 2 in the thickness and 2 along the face: 2.83 from corner to corner.
    (finding,) = found(webs, board(18.0, 7.0, 5.0))
    assert finding.figures[0][1] == pytest.approx(8**0.5) and finding.grade is Grade.CARE
    assert codes(webs, board(18.3, 7.0, 5.0)) == []


def test_a_dado_behind_a_groove() -> None:
    assert codes(webs, board(200.0, 6.0, 5.0, along=1)) == []
    assert codes(webs, board(200.0, 6.1, 5.0, along=1)) == ["web-thin"]


def test_grooves_in_one_face_are_no_web() -> None:
    blank = part("side", SIDE)
    ops = (Dado(Face(2, 0), 0, 10.0, 16.0, 5.0), Dado(Face(2, 0), 0, 17.0, 20.0, 5.0))
    assert codes(webs, piece(part("side", SIDE, features=tuple(feature("groove", op.made(blank)) for op in ops)))) == []


def test_it_stops_where_no_wood_is_left() -> None:
    (finding,) = found(webs, board(12.0, 10.0, 5.0))
    assert (finding.code, finding.grade) == ("web-breaks", Grade.STOP)
