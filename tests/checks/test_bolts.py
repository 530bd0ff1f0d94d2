from fractions import Fraction

import pytest

from docgen.checks import bolts
from docgen.checks.finding import Grade
from docgen.piece.model import Fastener, Piece
from docgen.trade.fasteners import bolt_length, stock_lengths
from tests.support.checking import codes, found
from tests.support.pieces import piece

INCH = Fraction(254, 10)


def screw(**more: object) -> Piece:
    said = {
        "key": "A", "what": "machine screw", "thread": "1/4-20 UNC", "length": INCH * 3 / 2, "count": 1,
        "engagement": INCH / 2, "tapped_depth": INCH * 5 / 8, "wood_behind": Fraction(3), "parts": ("side", "leg"),
    }  # fmt: skip
    return piece(fasteners=(Fastener(**(said | more)),))  # type: ignore[arg-type]


def test_a_good_screw_is_silent() -> None:
    assert codes(bolts, screw()) == []


def test_a_screw_that_bottoms() -> None:
    assert codes(bolts, screw(engagement=INCH * 5 / 8)) == []
    (f,) = found(bolts, screw(engagement=INCH * 5 / 8 + Fraction(1, 100)))
    assert (f.grade, f.code) == (Grade.STOP, "bolt-bottoms")
    assert "0.01" in f.message


def test_a_screw_that_stands_out_of_a_through_hole() -> None:
    (f,) = found(bolts, screw(engagement=INCH * 3 / 4, wood_behind=None))
    assert (f.grade, f.code) == (Grade.CARE, "bolt-bottoms")


def test_a_screw_that_holds_under_two_diameters() -> None:
    assert codes(bolts, screw(engagement=INCH / 2)) == []
    (f,) = found(bolts, screw(engagement=INCH / 2 - Fraction(1, 100)))
    assert f.code == "bolt-holds-little"
    assert f.figures[1][1] == pytest.approx(2 - 0.01 / 6.35)


def test_a_screw_in_metal_needs_one_diameter() -> None:
    """A quarter of an inch of thread in a nut or an insert is enough for a 1/4 in bolt."""
    assert codes(bolts, screw(engagement=INCH / 4)) == ["bolt-holds-little"]
    assert codes(bolts, screw(engagement=INCH / 4, metal=True)) == []
    (f,) = found(bolts, screw(engagement=INCH / 4 - Fraction(1, 100), metal=True))
    assert (f.code, f.rule) == ("bolt-holds-little", "engagement in metal at least 1 diameter")


@pytest.mark.parametrize(
    ("behind", "expected"),
    [(Fraction(3), []), (Fraction(299, 100), ["drill-near-surface"]), (Fraction(1, 100), ["drill-near-surface"]),
     (Fraction(0), ["drill-breaks-through"]), (Fraction(-1), ["drill-breaks-through"]), (None, [])],
)  # fmt: skip
def test_wood_behind_the_drill(behind: Fraction | None, expected: list[str]) -> None:
    assert codes(bolts, screw(wood_behind=behind)) == expected


def test_a_sixteenth_of_thickness_decides() -> None:
    """Grip 13/16 and washer 1/16: 1 1/2 gives 5/8 of thread; 1/16 less board, and the same screw bottoms."""
    stock = stock_lengths("unified")
    planned = bolt_length(washer=INCH / 16, grip=INCH * 13 / 16, engagement=INCH / 2, stock=stock)
    thin = planned.length - INCH / 16 - INCH * 12 / 16
    assert codes(bolts, screw(length=planned.length, engagement=planned.engagement)) == []
    assert codes(bolts, screw(length=planned.length, engagement=thin)) == ["bolt-bottoms"]
