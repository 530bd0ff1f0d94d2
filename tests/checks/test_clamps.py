"""A top of 1000 × 400 in the rough, glued from boards 200 wide."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import clamps
from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Material, Piece, Run
from docgen.schedules.cutting import cutting
from tests.support.checking import codes, found, subject
from tests.support.pieces import CHERRY, part, piece


def top(
    *, board: Fraction | None = Fraction(200), wide: float = 400, material: Material = CHERRY, **stated: object
) -> Piece:
    stock = None if board is None else (Fraction(3000), board)
    of = part("top", ((0, 1000), (0, wide), (700, 720)), "across", material=replace(material, stock=stock))
    return piece(of, shop=tuple(stated.items()))


def only(of: Piece) -> Finding:
    (f,) = found(clamps, of)
    return f


def rough(of: Piece) -> tuple[float, float]:
    at = subject(of)
    (row,) = cutting(of, at.solids, at.kinds)
    return float(row.rough[0]), float(row.rough[1])


def test_boards_are_as_few_as_the_stock_allows() -> None:
    of = top().parts[0]
    assert [clamps.glued(of, wide) for wide in (200, 200.1, 400, 400.1)] == [1, 2, 2, 3]
    assert clamps.glued(top(board=None).parts[0], 400) == 1


def test_clamps_by_the_45_degree_rule() -> None:
    long, wide = rough(top())
    boards = clamps.glued(top().parts[0], wide)
    needed = -(-long // (2 * wide / boards))
    assert needed > 2
    assert codes(clamps, top(clamps=int(needed))) == []
    f = only(top(clamps=int(needed) - 1))
    assert (f.grade, f.code) == (Grade.CARE, "clamps-few")
    assert f.figures[0][1] == needed
    assert f.figures[2][1] == pytest.approx(wide / boards)


def test_the_longest_clamp_opens_over_the_rough_width() -> None:
    wide = rough(top())[1]
    assert codes(clamps, top(clamp=wide)) == []
    f = only(top(clamp=wide - 0.01))
    assert (f.grade, f.code) == (Grade.CARE, "clamps-short")


def test_silent_where_nothing_is_glued_or_stated() -> None:
    assert codes(clamps, top()) == []
    assert codes(clamps, top(board=None, clamps=1, clamp=100)) == []
    wide = Fraction(str(rough(top())[1]))
    assert codes(clamps, top(board=wide, clamps=1, clamp=100)) == []
    assert codes(clamps, top(board=wide - Fraction(1, 100), clamps=1, clamp=100)) == ["clamps-short", "clamps-few"]


def test_a_blank_for_running_grain_is_glued_whole() -> None:
    wide = replace(CHERRY, stock=(Fraction(3000), Fraction(200)))
    of = piece(
        part("left", ((0, 20), (0, 300), (0, 500)), material=wide),
        part("top", ((0, 800), (0, 300), (480, 500)), "across", number=2, material=wide),
        runs=(Run("case", ("left", "top"), ("right", "bottom")),),
        shop=(("clamps", 1),),
    )
    f = only(of)
    assert f.code == "clamps-few" and "the blank case is glued from 2 boards" in f.message
