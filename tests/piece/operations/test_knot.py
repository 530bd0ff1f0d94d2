"""Knots take nothing away; they are told with their place and size."""

from fractions import Fraction

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.knot import WORD, Knot
from docgen.piece.records import Face
from tests.piece.desk import HEAD, PARTS, built
from tests.piece.operations.trial import board, made, taken


def test_a_knot_takes_nothing_and_is_told_where_it_lies() -> None:
    knot = Knot(Face(2, 1), (100, 40), Fraction(18))
    assert taken(knot, board()) == pytest.approx(0)
    answer = made(knot, board())
    (defect,) = answer.defects
    assert (defect.what, defect.point, defect.diameter, defect.depth) == ("knot", (100, 40, 20), 18, 20)
    (size,) = answer.sizes
    assert (size.value, size.label) == (18, "knot")


def test_a_shallow_one_keeps_its_depth() -> None:
    (defect,) = made(Knot(Face(2, 0), (100, 40), 18, 5, "pitch pocket"), board()).defects
    assert (defect.what, defect.depth) == ("pitch pocket", 5)


def test_a_knot_outside_its_part_is_refused() -> None:
    with pytest.raises(Fault):
        made(Knot(Face(2, 1), (500, 40), 18), board())


def test_the_file_says_it() -> None:
    of = built(f"{HEAD}{PARTS}operations:\n  - {WORD.example}\n")
    assert [d.what for p in of.parts for f in p.features for d in f.made.defects] == ["knot"]
