from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.geometry.make import along_axis
from docgen.geometry.outlines import signed_area
from docgen.geometry.shapes import HalfSpace, Outline
from docgen.piece.model import Kind, Piece, TemplateWish
from docgen.piece.records import (
    Authority,
    Cut,
    Face,
    Feature,
    HoleRow,
    Made,
    Purpose,
    Sink,
    Size,
    SizeKind,
    Stage,
    Template,
)
from docgen.piece.solids import Solids
from docgen.schedules.gauges import gauges
from docgen.schedules.template_rows import as_seen, seen_mirrored
from docgen.schedules.templates import templates
from docgen.units import Units
from tests.support.pieces import part

CORNER = Outline.polygon([(0.0, 0.0), (80.0, 0.0), (80.0, 60.0), (0.0, 40.0)])


def template(face: Face = Face(2, 1), **more) -> Template:  # noqa: B008
    return Template("end, 14°", face, CORNER, **more)


def leg(path: str, number: int, *made: Made):
    features = tuple(Feature(f"cut {i}", "cut", f"cut {i}", Stage.PART, m) for i, m in enumerate(made))
    return part(path, [(0, 20), (0, 60), (0, 700)], "up", number=number, features=features)


def piece(*parts) -> Piece:
    return Piece("Bench", "", "", "", "", Units(), "third angle", "", (), (), parts)


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_a_face_is_seen_with_its_outward_direction_toward_the_eye(axis: int) -> None:
    # u × v for the two axes in rising order: + for axes 0 and 2, − for axis 1.
    up = -1 if axis == 1 else 1
    for side in (0, 1):
        outward = 1 if side else -1
        assert seen_mirrored(Face(axis, side)) == (up * outward < 0)


def test_seen_outline_stays_counter_clockwise_and_keeps_its_datum_end() -> None:
    turned = as_seen(template(Face(2, 0), holes=((10.0, 20.0, 5.0),), grain=0.0))
    assert signed_area(turned.outline) > 0
    assert turned.holes == ((10.0, -20.0, 5.0),)
    assert as_seen(template()) == template()


def test_equal_templates_are_printed_once_and_shared_radii_too() -> None:
    radius = replace(template(), title="corner radius", shared="radius 12")
    a, b = leg("a", 1, Made(templates=(template(), radius, radius))), leg("b", 2, Made(templates=(template(), radius)))
    rows = templates(piece(a, b), (Kind(("a",)), Kind(("b",))))
    assert sorted((r.title, r.parts, r.uses) for r in rows) == [
        ("corner radius", ("a", "b"), 3),
        ("end, 14°", ("a", "b"), 2),
    ]


def test_the_other_hand_has_a_sheet_of_its_own() -> None:
    a, b = leg("a", 1, Made(templates=(template(),))), leg("b", 2, Made(templates=(template(Face(2, 0)),)))
    rows = templates(piece(a, b), (Kind(("a",), ("b",)),))
    assert [r.parts for r in rows] == [("a",), ("b",)]
    assert rows[0].hand == "Not for b: that is the other hand. It has a sheet of its own."
    alone = replace(piece(a, b), templates=(TemplateWish(("b",), none=True),))
    assert templates(alone, (Kind(("a",), ("b",)),))[0].hand == "Not for b: that is the other hand."
    assert rows[0].face != rows[1].face


def bored(face: Face) -> Made:
    points = ((Fraction(40), Fraction(20), Fraction(0)), (Fraction(300), Fraction(20), Fraction(0)))
    return Made(holes=(HoleRow("A", Purpose.PLAIN, face, points, (0.0, 0.0, 1.0), Fraction(6), "6 mm"),))


def test_holes_within_the_outline_are_drawn_in() -> None:
    (row,) = templates(piece(leg("a", 1, Made(templates=(template(),)), bored(Face(2, 1)))), (Kind(("a",)),))
    assert row.seen.holes == ((40.0, 20.0, 6.0),)


def test_holes_that_the_mate_rules_are_shown_to_be_checked_alone() -> None:
    ruled = replace(bored(Face(2, 1)).holes[0], authority=Authority.MATE, mate="case")
    (row,) = templates(piece(leg("a", 1, Made(templates=(template(),)), Made(holes=(ruled,)))), (Kind(("a",)),))
    assert row.seen.holes == ()
    assert row.seen.checks == ((40.0, 20.0, 6.0),)
    assert row.mates == ("case",)


def test_a_pattern_of_holes_that_the_mate_rules_is_checked_alone() -> None:
    ruled = replace(bored(Face(2, 1)).holes[0], authority=Authority.MATE, mate="case")
    box = Template("holes", Face(2, 1), Outline.rectangle(0.0, 0.0, 700.0, 60.0), holes=((40.0, 20.0, 6.0),))
    (row,) = templates(piece(leg("a", 1, Made(templates=(box,), holes=(ruled,)))), (Kind(("a",)),))
    assert row.seen.holes == ()
    assert row.seen.checks == ((40.0, 20.0, 6.0), (300.0, 20.0, 6.0))


def test_a_shared_corner_with_a_bore_in_it_is_the_part_s_own() -> None:
    radius = replace(template(), title="corner radius", shared="radius 12")
    a, b = leg("a", 1, Made(templates=(radius,)), bored(Face(2, 1))), leg("b", 2, Made(templates=(radius,)))
    rows = templates(piece(a, b), (Kind(("a",)), Kind(("b",))))
    assert [(r.title, r.parts, r.seen.holes) for r in rows] == [
        ("corner radius with its hole", ("a",), ((40.0, 20.0, 6.0),)),
        ("corner radius", ("b",), ()),
    ]
    assert rows[0].seen.shared == ""


def test_a_loose_corner_tells_nothing_of_holes() -> None:
    radius = replace(template(), title="corner radius", shared="radius 12", loose=True)
    (row,) = templates(piece(leg("a", 1, Made(templates=(radius,)), bored(Face(2, 1)))), (Kind(("a",)),))
    assert row.seen.holes == () and row.seen.shared == "radius 12"


def test_a_cut_square_through_is_laid_on_the_face_that_is_drilled() -> None:
    square = Made(templates=(template(),), cuts=(Cut(HalfSpace((0.0, 0.0, 0.0), (-1.0, 0.2, 0.0))),))
    (row,) = templates(piece(leg("a", 1, square, bored(Face(2, 0)))), (Kind(("a",)),))
    part_a = leg("a", 1)
    assert row.face == f"{part_a.word(Face(2, 0))} face"
    assert row.seen.holes == ((40.0, -20.0, 6.0),)
    slanted = replace(square, cuts=(Cut(HalfSpace((0.0, 0.0, 0.0), (-1.0, 0.2, 0.1))),))
    (row,) = templates(piece(leg("a", 1, slanted, bored(Face(2, 0)))), (Kind(("a",)),))
    assert row.face == f"{part_a.word(Face(2, 1))} face"
    assert row.seen.holes == ()


def test_patterns_on_the_plain_face_go_into_the_shaped_template() -> None:
    box = Template("holes", Face(2, 1), Outline.rectangle(0.0, 0.0, 700.0, 60.0), holes=((500.0, 30.0, 5.0),))
    (row,) = templates(piece(leg("a", 1, Made(templates=(box, template())))), (Kind(("a",)),))
    assert row.title == "end, 14°"
    assert row.seen.holes == ((500.0, 30.0, 5.0),)


def angle(value: float) -> Size:
    return Size(SizeKind.ANGLE, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), value, other=(1.0, 1.0, 0.0))


def test_each_angle_has_one_gauge_and_complements_share_it() -> None:
    a = leg("a", 1, Made(sizes=(angle(14.0), angle(45.0), angle(90.0))), Made(sizes=(angle(76.0), angle(16.001))))
    b = leg("b", 2, Made(sizes=(angle(104.0), angle(16.0))))
    found = gauges(piece(a, b), (Kind(("a",)), Kind(("b",))))
    assert [round(g.angle, 3) for g in found] == [14.0, 16.001]
    assert found[0].uses == ("a: cut 0", "a: cut 1", "b: cut 0")


def test_the_cone_of_a_countersink_has_no_gauge() -> None:
    sunk = replace(bored(Face(2, 1)).holes[0], sink=Sink(Fraction(10), angle=Fraction(82)))
    a = leg("a", 1, Made(sizes=(angle(82.0), angle(14.0)), holes=(sunk,)), Made(sizes=(angle(82.0),)))
    assert [(round(g.angle, 3), g.uses) for g in gauges(piece(a), (Kind(("a",)),))] == [
        (8.0, ("a: cut 1",)),
        (14.0, ("a: cut 0",)),
    ]


def asking(*wishes: TemplateWish) -> list[tuple[str, str, tuple[str, ...]]]:
    """Return title, face and parts of the templates of two equal legs, 20 × 60 × 700, under these wishes."""
    legs = (
        leg("a", 1, Made(templates=(template(),)), bored(Face(2, 0))),
        leg("b", 2, Made(templates=(template(),)), bored(Face(2, 0))),
    )
    whole = replace(piece(*legs), templates=wishes)
    return [
        (r.title, r.face.removesuffix(" face"), r.parts) for r in templates(whole, (Kind(("a", "b")),), Solids(whole))
    ]


def test_the_file_leaves_out_what_it_does_not_want() -> None:
    word = leg("a", 1).word(Face(2, 1))
    other = leg("a", 1).word(Face(2, 0))
    own = ("end, 14°", word, ("a", "b"))
    assert asking() == [own]
    assert asking(TemplateWish(("a",), none=True)) == [("end, 14°", word, ("b",))]
    assert asking(TemplateWish(("a",), word, none=True)) == [("end, 14°", word, ("b",))]
    assert asking(TemplateWish(("a",), other, none=True)) == [own]
    assert asking(TemplateWish((), none=True)) == []


def test_the_file_asks_for_a_whole_face_with_its_holes() -> None:
    bottom = leg("a", 1).word(Face(2, 0))
    assert asking(TemplateWish(("b",), bottom))[1:] == [(f"{bottom} face", bottom, ("b",))]
    a = leg("a", 1, bored(Face(2, 0)))
    whole = replace(piece(a), templates=(TemplateWish(("a",), bottom), TemplateWish((), none=True)))
    (row,) = templates(whole, (Kind(("a",)),), Solids(whole))
    assert row.seen.holes == ((40.0, -20.0, 6.0), (300.0, -20.0, 6.0))
    assert row.asked and row.seen.waste == () and row.seen.openings == ()
    assert (
        gauges(replace(piece(leg("a", 1, Made(sizes=(angle(14.0),)))), templates=whole.templates), (Kind(("a",)),))
        == ()
    )


def test_without_a_word_the_face_that_is_seen_is_meant() -> None:
    shown = leg("a", 1).word(Face(2, 1))
    assert asking(TemplateWish(("a", "b")))[1:] == [(f"{shown} face", shown, ("a", "b"))]


def nibbled(x: float, y: float, title: str) -> Made:
    """Return a feature that saws a square of 20 out of a corner, with a template of the whole face."""
    bite = Outline.rectangle(
        min(x, x - 20) if x else -1.0, y - 20 if y else -1.0, x + 1.0 if x else 20.0, y + 1.0 if y else 20.0
    )
    whole = Template(title, Face(2, 1), Outline.rectangle(0.0, 0.0, 700.0, 60.0), whole=True, notes=(title,))
    return Made(templates=(whole,), cuts=(Cut(along_axis(bite, 2, -1.0, 21.0)),))


def test_whole_faces_show_all_that_is_cut_through_the_part_on_one_sheet() -> None:
    a = leg("a", 1, nibbled(0.0, 0.0, "low corner"), nibbled(700.0, 60.0, "high corner"))
    whole = piece(a)
    (row,) = templates(whole, (Kind(("a",)),), Solids(whole))
    assert row.title == "low corner and high corner"
    corners = {(round(e.end[0], 3), round(e.end[1], 3)) for e in row.seen.outline.edges}
    assert corners == {(20, 0), (700, 0), (700, 40), (680, 40), (680, 60), (0, 60), (0, 20), (20, 20)}
    assert len(row.seen.waste) == 2 and row.seen.notes == ("low corner", "high corner")


def test_holes_drilled_from_the_other_face_are_no_openings_of_a_whole_face() -> None:
    """A panel's many screw holes, drilled from behind, would have the whole of it printed for the sake of one hand hole."""
    through = HoleRow("A", Purpose.PLAIN, Face(2, 0), ((300, 30, 0),), (0.0, 0.0, 1.0), 6, "6 mm")
    pipe = along_axis(Outline.circle((300.0, 30.0), 3.0), 2, -1.0, 21.0)
    own = bored(Face(2, 1))
    a = leg("a", 1, nibbled(0.0, 0.0, "low corner"), Made(holes=(through,), cuts=(Cut(pipe),)), own)
    whole = piece(a)
    (row,) = templates(whole, (Kind(("a",)),), Solids(whole))
    assert row.title == "low corner" and row.seen.face == Face(2, 1)
    assert row.seen.openings == () and row.seen.holes == ((40.0, 20.0, 6.0), (300.0, 20.0, 6.0))


def test_holes_of_other_features_are_told_apart() -> None:
    a = leg("a", 1, Made(templates=(template(holes=((10.0, 10.0, 4.0),)),)), bored(Face(2, 1)))
    (row,) = templates(piece(a), (Kind(("a",)),))
    assert row.seen.holes == ((10.0, 10.0, 4.0), (40.0, 20.0, 6.0))
    assert row.beside == ((40.0, 20.0, 6.0),)


def test_parts_are_called_by_a_maker_s_words() -> None:
    named = replace(leg("stand.left", 1, Made(templates=(template(),))), called="left leg")
    (row,) = templates(piece(named), (Kind(("stand.left",)),))
    assert row.called == ("left leg",)
