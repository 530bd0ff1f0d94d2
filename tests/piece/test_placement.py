import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.make import box, cross, cylinder
from docgen.geometry.shapes import HalfSpace
from docgen.geometry.solids import made as solid_of
from docgen.piece.faults import Fault
from docgen.piece.model import FACE_WORDS
from docgen.piece.placement import DIRECTIONS, moved, place
from docgen.piece.records import Face

ORDERS = [(g, t) for g in range(3) for t in range(3) if g != t]


def spans(length: int, thick: int) -> tuple[tuple[int, int], ...]:
    size = {length: 400, thick: 20, 3 - length - thick: 120}
    return tuple((100 + 10 * i, 100 + 10 * i + size[i]) for i in range(3))


@pytest.mark.parametrize(("length", "thick"), ORDERS)
def test_axes_face_words_and_frame_agree(length: int, thick: int) -> None:
    where = spans(length, thick)
    placed = place(where, DIRECTIONS[length], 20)  # type: ignore[arg-type]
    assert placed.size == (400, 120, 20)
    columns = [tuple(placed.frame.rotation[i][j] for i in range(3)) for j in range(3)]
    assert cross(columns[0], columns[1]) == columns[2]  # type: ignore[arg-type]
    for word, (direction, side) in FACE_WORDS.items():
        face = dict(placed.words)[word]
        p = [s / 2 for s in placed.size]
        p[face.axis] = placed.size[face.axis] * face.side
        assert placed.frame.point((float(p[0]), float(p[1]), float(p[2])))[direction] == where[direction][side]


def test_length_and_width_point_along_plus() -> None:
    placed = place(((0, 20), (0, 300), (0, 900)), "up", 20)
    assert dict(placed.words)["bottom"] == Face(0, 0)
    assert dict(placed.words)["front"] == Face(1, 0)
    assert dict(placed.words)["left"] == Face(2, 1)  # up × deep points to the left


def test_square_stock_has_its_thickness_on_the_later_axis() -> None:
    placed = place(((0, 40), (0, 40), (0, 700)), "up", 40)
    assert dict(placed.words)["front"].axis == 2


@pytest.mark.parametrize(
    ("where", "grain", "code"),
    [
        (((0, 400), (0, 120), (20, 0)), "across", "box-empty"),
        (((0, 400), (120, 120), (0, 20)), "across", "box-empty"),
        (((0, 400), (0, 0.0099), (0, 20)), "across", "box-empty"),
        (((0, 400), (0, 120), (0, 19)), "across", "thickness-differs"),
        (((0, 20), (0, 120), (0, 400)), "across", "grain-thickness"),
    ],
)
def test_boxes_that_cannot_be(where: tuple, grain: str, code: str) -> None:  # type: ignore[type-arg]
    with pytest.raises(Fault) as fault:
        place(where, grain, 20)
    assert fault.value.code == code
    if code == "thickness-differs":
        assert all(figure in str(fault.value) for figure in ("400 mm", "120 mm", "19 mm", "20 mm"))


def test_an_exact_box_stays_exact() -> None:
    board = Fraction(13 * 254, 160)
    placed = place(((0, board), (0, 300), (0, 900)), "up", board)
    assert placed.size[2] == board and isinstance(placed.size[2], Fraction)


def test_turns_are_right_handed_about_their_line_innermost_first() -> None:
    placed = place(((0, 20), (0, 100), (0, 400)), "up", 20, ((0, 90, 0, 0),))
    # About across, +90 degrees takes deep into up: the foot end stays at the line, the length points to −deep.
    assert placed.frame.direction((1.0, 0.0, 0.0)) == pytest.approx((0, -1, 0), abs=1e-12)
    twice = place(((0, 20), (0, 100), (0, 400)), "up", 20, ((0, 90, 0, 0), (2, 90, 0, 0)))
    assert twice.frame.direction((1.0, 0.0, 0.0)) == pytest.approx((1, 0, 0), abs=1e-12)
    assert place(((0, 20), (0, 100), (0, 400)), "up", 20, ((0, 30, 50, 60),)).frame.point((60.0, 50.0, 0.0))[
        1:
    ] == pytest.approx((50, 60))


@settings(max_examples=25, deadline=None)
@given(st.floats(-180, 180), st.floats(-180, 180), st.floats(-300, 300))
def test_shapes_keep_their_volume_and_come_back(a: float, b: float, at: float) -> None:
    frame = place(((0, 400), (0, 120), (0, 20)), "across", 20, ((0, a, at, 5), (1, b, 7, at))).frame
    for shape in (box((0.0, 0.0, 0.0), (30.0, 20.0, 10.0)), cylinder((5.0, 5.0, 0.0), (0.0, 0.6, 0.8), 4.0, 10.0)):
        there = moved(shape, frame)
        assert solid_of(there).volume == pytest.approx(solid_of(shape).volume, rel=1e-5)
        back = moved(there, frame.inverse())
        assert back.frame.origin == pytest.approx(shape.frame.origin, abs=1e-9)  # type: ignore[union-attr]
    plane = moved(HalfSpace((1.0, 2.0, 3.0), (0.0, 0.6, 0.8)), frame)
    assert math.hypot(*plane.normal) == pytest.approx(1)  # type: ignore[union-attr]


def test_square_stuff_is_as_thick_as_its_show_face_says_else_a_rail_stands_on_edge() -> None:
    rail = ((Fraction(0), Fraction(300)), (Fraction(0), Fraction(20)), (Fraction(100), Fraction(120)))
    post = ((Fraction(0), Fraction(20)), (Fraction(0), Fraction(20)), (Fraction(0), Fraction(400)))

    def thick(box: object, grain: str, show: str | None) -> int:
        placed = place(box, grain, Fraction(20), show=show)  # type: ignore[arg-type]
        return next(FACE_WORDS[word][0] for word, face in placed.words if face.axis == 2)

    assert [thick(rail, "across", s) for s in (None, "front", "top", "left")] == [1, 1, 2, 1]  # deep, up
    assert [thick(post, "up", s) for s in (None, "front", "right")] == [1, 1, 0]
