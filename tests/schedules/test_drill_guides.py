"""Which faces get a guide for their holes, and which holes it shows."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.geometry.shapes import HalfSpace, Outline
from docgen.piece.model import Kind, Piece, TemplateWish
from docgen.piece.records import Authority, Cut, Face, Feature, HoleRow, Made, Purpose, Stage, Template
from docgen.piece.solids import Solids
from docgen.schedules.template_rows import TemplateRow
from docgen.schedules.templates import templates
from docgen.units import Units
from tests.support.pieces import part

Place = tuple[float, float]
TRIANGLE = ((60.0, 20.0), (100.0, 45.0), (140.0, 20.0))
FACE = Face(2, 1)


def holes(*places: Place, authority: Authority = Authority.CUT, mate: str = "") -> Made:
    points = tuple((Fraction(x), Fraction(y), Fraction(20)) for x, y in places)
    row = HoleRow("A", Purpose.PLAIN, FACE, points, (0.0, 0.0, -1.0), Fraction(6), "6 mm")
    return Made(holes=(replace(row, authority=authority, mate=mate),))


def rows(*made: Made, wishes: tuple[TemplateWish, ...] = ()) -> tuple[TemplateRow, ...]:
    """Return the templates of two equal boards, 700 × 60 × 20."""
    features = tuple(Feature(f"cut {i}", "cut", f"cut {i}", Stage.PART, m) for i, m in enumerate(made))
    box = [(0, 20), (0, 60), (0, 700)]
    boards = tuple(part(path, box, "up", number=n, features=features) for n, path in ((1, "a"), (2, "b")))
    piece = Piece("Bench", "", "", "", "", Units(), "third angle", "", (), (), boards, templates=wishes)
    return templates(piece, (Kind(("a", "b")),), Solids(piece))


def test_holes_off_one_line_get_one_guide_for_all_equal_parts() -> None:
    (row,) = rows(holes(*TRIANGLE))
    assert row.title == "drill guide" and row.parts == ("a", "b") and row.uses == 2
    assert row.seen.holes == tuple((x, y, 6.0) for x, y in TRIANGLE)
    assert row.seen.datum == (((0.0, 0.0), (700.0, 0.0)), ((0.0, 0.0), (0.0, 60.0)))
    assert row.beside == () and row.seen.grain == 0.0


@pytest.mark.parametrize(
    "places",
    [TRIANGLE[:2], ((60.0, 20.0), (100.0, 20.0), (300.0, 20.0)), ((60.0, 10.0), (60.0, 30.0), (60.0, 50.0))],
)
def test_two_holes_and_lines_along_or_across_are_left_to_the_rule(places: tuple[Place, ...]) -> None:
    assert rows(holes(*places)) == ()


def test_holes_of_several_features_make_one_pattern() -> None:
    (row,) = rows(holes(*TRIANGLE[:2]), holes(TRIANGLE[2]))
    assert len(row.seen.holes) == 3


def test_what_comes_through_the_mate_is_checked_and_alone_makes_no_guide() -> None:
    ruled = holes((80.0, 30.0), (600.0, 30.0), authority=Authority.MATE, mate="rail")
    (row,) = rows(holes(*TRIANGLE), ruled)
    assert row.seen.checks == ((80.0, 30.0, 6.0),)
    assert row.beside == row.seen.checks and row.mates == ("rail",)
    assert rows(holes(*TRIANGLE, authority=Authority.MATE)) == ()


def test_a_long_pattern_is_taken_in_groups_and_the_rest_is_left_to_the_rule() -> None:
    (row,) = rows(holes(*TRIANGLE, (690.0, 10.0), (690.0, 50.0)))
    assert [h for h in row.seen.holes if h not in row.beside] == [(x, y, 6.0) for x, y in TRIANGLE]
    corners = [(x, y) for x in (10.0, 690.0) for y in (10.0, 50.0)]
    assert rows(holes(*corners)) == ()
    rack = [(30.0 + 32 * n, y) for n in range(20) for y in (10.0, 50.0)]
    assert rows(holes(*rack)) == ()


def test_the_file_refuses_it_or_asks_for_the_whole_face_in_its_place() -> None:
    assert rows(holes(*TRIANGLE), wishes=(TemplateWish(("a", "b"), none=True),)) == ()
    (row,) = rows(holes(*TRIANGLE), wishes=(TemplateWish(("a",), none=True),))
    assert row.parts == ("b",)
    word = part("a", [(0, 20), (0, 60), (0, 700)], "up").word(FACE)
    found = rows(holes(*TRIANGLE), wishes=(TemplateWish(("a",), word),))
    assert {(r.asked, r.parts) for r in found} == {(True, ("a",)), (False, ("b",))}


def test_a_template_that_holds_the_pattern_takes_its_place_and_shows_it_for_sure() -> None:
    big = Template("arch", FACE, Outline.polygon([(0.0, 0.0), (700.0, 0.0), (700.0, 60.0), (0.0, 50.0)]))
    (row,) = rows(holes(*TRIANGLE), Made(templates=(big,)))
    assert row.title == "arch" and len(row.seen.holes) == 3 and row.beside == ()
    small = Template("end", FACE, Outline.polygon([(600.0, 0.0), (700.0, 0.0), (690.0, 60.0), (600.0, 60.0)]))
    assert {r.title for r in rows(holes(*TRIANGLE), Made(templates=(small,)))} == {"end", "drill guide"}


@pytest.mark.parametrize(("normal", "told"), [((1.0, 0.0, 0.3), True), ((1.0, 0.3, 0.0), False)])
def test_ends_that_lean_over_are_told(normal: tuple[float, float, float], told: bool) -> None:
    slanted = Made(cuts=(Cut(HalfSpace((700.0, 0.0, 20.0), normal)),))
    (row,) = rows(holes(*TRIANGLE), slanted)
    assert any("long points" in note for note in row.seen.notes) is told
