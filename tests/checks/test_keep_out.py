import math
from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import keep_out
from docgen.geometry.make import along_axis, box
from docgen.geometry.shapes import Edge, HalfSpace, Outline
from docgen.piece.model import Piece, Run
from docgen.piece.operations.knot import Knot
from docgen.piece.records import Cut, Face, Feature, HoleRow, Made, Purpose, Stage
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
SIZE = 16.0


def knot(x: float, y: float) -> Feature:
    """A knot 16 mm over, through a side 20 thick."""
    return feature("knot", Knot(Face(2, 0), (x, y), SIZE).made(part("side", SIDE)))


def side(*features: Feature, **more: object) -> Piece:
    return piece(part("side", SIDE, features=features), **more)


def test_a_knot_in_sound_wood_is_silent() -> None:
    assert codes(keep_out, side(knot(350, 150))) == []


@pytest.mark.parametrize(("away", "expected"), [(11.1, []), (10.8, ["knot-in-cut"]), (0.0, ["knot-in-cut"])])
def test_a_knot_beside_a_dado(away: float, expected: list[str]) -> None:
    """The knot's edge lies 8 from its middle; 3 more are kept sound."""
    dado = feature("dado", Made(cuts=(Cut(box((100.0, -1.0, -1.0), (120.0, 301.0, 6.0))),)), title="dado for shelf")
    findings = found(keep_out, side(dado, knot(120 + away, 150)))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert "dado for shelf" in f.message


@pytest.mark.parametrize(("away", "expected"), [(11.1, []), (10.7, ["knot-in-cut"])])
def test_a_knot_at_a_slanting_end(away: float, expected: list[str]) -> None:
    k = 2**-0.5
    cut = feature("end cut", Made(cuts=(Cut(HalfSpace((600.0, 150.0, 0.0), (k, k, 0.0))),)))
    assert codes(keep_out, side(cut, knot(600 - away * k, 150 - away * k))) == expected


def test_knots_that_do_not_go_through_matter_only_where_they_are() -> None:
    shallow = feature("knot", Knot(Face(2, 0), (110, 150), SIZE, 5).made(part("side", SIDE)))
    behind = feature("dado", Made(cuts=(Cut(box((100.0, -1.0, 14.0), (120.0, 301.0, 21.0))),)))
    before = feature("dado", Made(cuts=(Cut(box((100.0, -1.0, -1.0), (120.0, 301.0, 6.0))),)))
    assert codes(keep_out, side(shallow, behind)) == []
    assert codes(keep_out, side(shallow, before)) == ["knot-in-cut"]


KERF = 3.0  # of the blank's saw where none is stated
ZONE = 20 + KERF / math.sqrt(2) + 3


def running(x: float) -> Piece:
    """A side and a top cut in turn from one blank: the corner is at the side's upper end."""
    top = part("top", ((0, 800), (0, 300), (680, 700)), "across", number=2)
    left = part("side", SIDE, features=(knot(x, 150),))
    return piece(left, top, runs=(Run("case", ("side", "top"), ("right", "bottom"), False, Fraction(28)),))


@pytest.mark.parametrize(("more", "expected"), [(0.1, []), (-0.1, ["knot-at-corner"])])
def test_a_knot_near_the_corner_of_a_blank(more: float, expected: list[str]) -> None:
    findings = found(keep_out, running(700 - ZONE - SIZE / 2 - more))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[1][1] == pytest.approx(ZONE)


def test_the_free_end_of_an_open_run_is_no_corner() -> None:
    assert codes(keep_out, running(SIZE / 2 + 1)) == []


def rounded(at: float) -> Piece:
    """A screw hole 4 mm wide, `at` from the end of a side whose corner is rounded to 20 after glue-up."""
    r = 20.0
    spandrel = Outline(
        (Edge((-1.0, -1.0)), Edge((r, -1.0)), Edge((r, 0.0)), Edge((0.0, r), (r, r), False), Edge((-1.0, r)))
    )
    # seen along the width: x is the length, y the thickness
    cut = feature(
        "corner", Made(cuts=(Cut(along_axis(spandrel, 1, -1.0, 301.0)),)), stage=Stage.GLUED, title="outside corner"
    )
    row = HoleRow("A", Purpose.PILOT, Face(2, 1), ((at, 150.0, 20.0),), (0.0, 0.0, -1.0), 4.0, "4 mm", 15.0)
    return side(feature("hole", Made(holes=(row,)), title="pilot holes A"), cut)


@pytest.mark.parametrize(("at", "expected"), [(9.0, []), (2.2, ["hole-in-later-cut"])])
def test_a_hole_that_a_later_rounding_opens(at: float, expected: list[str]) -> None:
    """At 5 mm from the low face the arc lies 6.8 from the end: a hole at 9 with its 2 mm of radius stays whole."""
    assert 20 - math.sqrt(20**2 - 15**2) == pytest.approx(6.77, abs=0.01)
    assert codes(keep_out, rounded(at)) == expected


@pytest.mark.parametrize(("at", "expected"), [(8.8, []), (7.4, ["hole-in-later-cut"])])
def test_at_the_edge_of_the_arc(at: float, expected: list[str]) -> None:
    assert codes(keep_out, rounded(at)) == expected


def test_what_is_cut_before_is_not_judged_here() -> None:
    of = rounded(2.2)
    (hole, corner) = of.part("side").features
    early = replace(corner, stage=Stage.PART)
    assert codes(keep_out, side(hole, early)) == []
