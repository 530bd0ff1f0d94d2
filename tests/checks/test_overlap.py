from dataclasses import replace
from fractions import Fraction

from docgen.checks import overlap
from docgen.checks.finding import Grade
from docgen.piece.model import Joint, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def pair(gap: float) -> Piece:
    return piece(
        part("side", ((0, 20), (0, 300), (0, 700))),
        part("shelf", ((20 + gap, 400), (0, 300), (100, 120)), "across", number=2),
    )


def test_parts_that_run_into_each_other() -> None:
    (f,) = found(overlap, pair(-0.06))
    assert (f.grade, f.code, f.parts) == (Grade.STOP, "parts-overlap", ("side", "shelf"))
    figures = {name: value for name, value, _ in f.figures}
    assert abs(figures["thickness"] - 0.06) < 1e-6
    assert abs(figures["volume"] - 0.06 * 300 * 20) < 0.01


def test_touching_or_a_hair_is_no_overlap() -> None:
    assert codes(overlap, pair(0)) == []
    assert codes(overlap, pair(-0.04)) == []


def test_a_declared_fit_is_compared_by_its_number() -> None:
    def with_fit(mm: Fraction) -> Piece:
        joint = Joint("dowelled", "press fit", ("side", "shelf"), (), (("interference", mm, "length"),))
        return replace(pair(-0.2), joints=(joint,))

    assert codes(overlap, with_fit(Fraction(21, 100))) == []
    assert codes(overlap, with_fit(Fraction(19, 100))) == ["parts-overlap"]
