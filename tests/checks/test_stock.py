from fractions import Fraction

import pytest

from docgen.checks import stock
from docgen.checks.finding import Grade
from docgen.piece.model import Material, Piece, Run
from tests.support.checking import codes, found
from tests.support.pieces import part, piece

INCH = Fraction(254, 10)


def board(thick: Fraction, bought: str, **more: object) -> Piece:
    material = Material("cherry", thick, species="black cherry", bought=bought, **more)  # type: ignore[arg-type]
    return piece(part("side", ((0, float(thick)), (0, 300), (0, 700)), material=material))


@pytest.mark.parametrize(
    ("sixteenths", "code"),
    [
        (Fraction(12), None),  # 3/4 from 4/4 (13/16): 1/16 left
        (Fraction(121, 10), "stock-little-to-flatten"),
        (Fraction(13), "stock-little-to-flatten"),
        (Fraction(131, 10), "stock-rough-only"),
        (Fraction(16), "stock-rough-only"),
        (Fraction(161, 10), "stock-too-thin"),
    ],
)
def test_thickness_against_quarters(sixteenths: Fraction, code: str | None) -> None:
    assert codes(stock, board(sixteenths * INCH / 16, "4/4")) == ([code] if code else [])


def test_grades_of_thin_stock() -> None:
    grades = [found(stock, board(t * INCH / 16, "4/4"))[0].grade for t in (13, 15, 17)]
    assert grades == [Grade.NOTE, Grade.CARE, Grade.STOP]


def test_an_inch_finished_comes_from_five_quarters() -> None:
    assert codes(stock, board(INCH, "5/4")) == []
    assert codes(stock, board(INCH, "by the piece")) == []


def test_stock_length_against_the_rough_length() -> None:
    # 700 finished, 725 rough
    assert codes(stock, board(Fraction(19), "4/4", stock=(Fraction(725), Fraction(150)))) == []
    (f,) = found(stock, board(Fraction(19), "4/4", stock=(Fraction(724), Fraction(150))))
    assert (f.grade, f.code) == (Grade.STOP, "stock-too-short")


def test_sheets_are_not_glued_up_to_width() -> None:
    def sheet(wide: int) -> Piece:
        material = Material("ply", Fraction(12), sheet="plywood, birch", stock=(Fraction(2440), Fraction(wide)))
        return piece(part("back", ((0, 500), (0, 12), (0, 700)), material=material))

    assert codes(stock, sheet(500)) == []
    assert codes(stock, sheet(499)) == ["stock-too-short"]


def test_a_blank_is_measured_whole() -> None:
    def case(length: int) -> Piece:
        material = Material(
            "cherry", Fraction(19), species="black cherry", bought="4/4", stock=(Fraction(length), Fraction(320))
        )
        return piece(
            part("left", ((0, 19), (0, 300), (0, 500)), material=material),
            part("top", ((0, 800), (0, 300), (481, 500)), "across", number=2, material=material),
            runs=(Run("case", ("left", "top"), ("right", "bottom")),),
        )

    need = 1300 + 3 * 2**0.5 + 1.5 + 50  # 1355.74
    assert codes(stock, case(int(need) + 1)) == []
    (f,) = found(stock, case(int(need)))
    assert "the blank case" in f.message
