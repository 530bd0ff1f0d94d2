from dataclasses import replace
from fractions import Fraction

from docgen.checks import cross_grain, sag, unjudged
from docgen.checks.finding import Grade
from docgen.piece.model import Material, Piece
from docgen.trade.movement import species
from docgen.units import Kind, Quantity
from tests.checks.test_cross_grain import EDGE, held
from tests.support.checking import codes, found
from tests.support.pieces import part, piece

PEAR = Material("pear", Fraction(20), species="pear", density=700.0)


def shelf(material: Material, load: float = 0.0) -> Piece:
    loads = (("shelf load", Quantity(Fraction(load).limit_denominator(1000), Kind.MASS), "stated"),) if load else ()
    return piece(
        part("side", ((-20, 0), (0, 250), (0, 900))),
        part("shelf", ((0, 900), (0, 250), (300, 320)), "across", number=2, material=material),
        conditions=loads,
    )


def test_a_wood_that_nobody_knows_is_told_once_and_what_is_stated_ends_it() -> None:
    (f,) = found(unjudged, shelf(PEAR))
    assert (f.grade, f.code, f.parts) == (Grade.NOTE, "movement-not-judged", ("shelf",))
    assert "pear" in f.message and "tangential" in f.advice
    assert codes(unjudged, shelf(replace(PEAR, movement=(None, 0.0033)))) == []


def test_a_known_wood_and_a_sheet_are_not_told() -> None:
    assert codes(unjudged, shelf(replace(PEAR, species="European oak"))) == []
    assert codes(unjudged, shelf(replace(PEAR, species="", sheet="MDF"))) == []


def test_a_load_on_a_board_of_unknown_stiffness_is_told() -> None:
    moves = replace(PEAR, movement=(None, 0.0033))
    assert codes(unjudged, shelf(moves, 30.0)) == ["sag-not-judged"]
    assert codes(unjudged, shelf(replace(moves, stiffness=8000.0), 30.0)) == []
    assert codes(sag, shelf(replace(moves, stiffness=8000.0), 300.0)) == ["shelf-sags"]


def test_stated_figures_are_judged_by_as_those_of_the_tables() -> None:
    cherry = species("black cherry").tangential
    as_cherry = replace(PEAR, movement=(0.001, cherry))
    assert codes(cross_grain, held(EDGE + 1, grain="deep", material=as_cherry)) == ["cross-grain"]
    assert codes(cross_grain, held(EDGE - 1, grain="deep", material=as_cherry)) == []
    assert codes(cross_grain, held(EDGE + 1, grain="deep", material=replace(PEAR, movement=(0.001, cherry / 2)))) == []
    assert codes(cross_grain, held(EDGE + 1, grain="deep", material=PEAR)) == []  # told as not judged
