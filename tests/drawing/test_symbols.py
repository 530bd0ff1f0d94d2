import math

import pytest

from docgen.drawing import symbols
from docgen.drawing.placing import Bounds, arc_bounds, around, point_bounds
from docgen.drawing.records import Arc, Area, Line, Path, Record
from docgen.piece.records import Authority


def bounds(records: list[Record]) -> Bounds:
    out = []
    for r in records:
        if isinstance(r, Line):
            out.append(point_bounds((r.a, r.b)))
        elif isinstance(r, Path):
            out.append(point_bounds(r.points))
        elif isinstance(r, Arc):
            out.append(arc_bounds(r))
        elif isinstance(r, Area):
            out.append(point_bounds(p for ring in r.rings for p in ring))
    return around(out)


def test_diameter_is_a_circle_as_high_as_the_text_with_a_stroke_half_as_long_again() -> None:
    circle, stroke = symbols.symbol("diameter", (0, 0), 3.0)
    assert isinstance(circle, Arc)
    assert isinstance(stroke, Line)
    assert 2 * circle.radius == 3.0
    assert math.dist(stroke.a, stroke.b) == pytest.approx(4.5)  # 3 mm text makes it 4.5 mm (drafting symbols)
    angle = math.degrees(math.atan2(stroke.b[1] - stroke.a[1], stroke.b[0] - stroke.a[0]))
    assert angle == pytest.approx(60)


def test_countersink_is_a_right_angle_twice_as_wide_as_high() -> None:
    (v,) = symbols.symbol("countersink", (0, 0), 2.0)
    assert isinstance(v, Path)
    assert v.points == ((0, 2.0), (2.0, 0), (4.0, 2.0))


@pytest.mark.parametrize("name", symbols.CHARACTERS.values())
def test_signs_of_a_line_stay_in_their_width_and_height(name: str) -> None:
    x0, y0, x1, y1 = bounds(symbols.symbol(name, (0, 0), 1.0))
    wide = symbols.WIDTHS[name]
    assert -symbols.SIDE - 0.01 <= x0 <= x1 <= wide + symbols.SIDE + 0.01
    assert y0 >= -symbols.fall(name, 1.0) - 1e-9
    assert y1 <= symbols.rise(name, 1.0) + 1e-9


@pytest.mark.parametrize("height", [1.8, 2.5, 3.5, 7.0])
def test_arrowheads_open_15_degrees_and_are_as_long_as_the_text_up_to_3_mm(height: float) -> None:
    length = symbols.arrow_length(height)
    assert length == min(height, 3.0)
    (area,) = symbols.arrowhead((5, 5), 0, length)
    assert isinstance(area, Area)
    tip, one, two = area.rings[0]
    assert tip == (5, 5)
    opening = math.degrees(math.atan2(one[1] - tip[1], tip[0] - one[0]) - math.atan2(two[1] - tip[1], tip[0] - two[0]))
    assert opening == pytest.approx(15)
    assert tip[0] - one[0] == pytest.approx(length)


def test_projection_shows_the_small_end_where_each_angle_puts_it() -> None:
    """Seen from its small end, which points left: third angle draws that view on the left, first angle on the right."""
    for name, left in (("third angle", True), ("first angle", False)):
        records = symbols.symbol(name, (0, 0), 10.0)
        (cone,) = [r for r in records if isinstance(r, Path)]
        circles = sorted((r for r in records if isinstance(r, Arc)), key=lambda r: r.radius)
        ends = {round(x, 6): [p[1] for p in cone.points if round(p[0], 6) == round(x, 6)] for x, _ in cone.points}
        heights = [max(v) - min(v) for _, v in sorted(ends.items())]
        assert heights == pytest.approx([5.0, 10.0])  # the small end points left and is half the large one
        assert [2 * c.radius for c in circles] == pytest.approx(heights)
        assert (circles[0].centre[0] < min(ends)) is left


def test_every_authority_but_cut_has_a_sign_of_its_own_that_is_drawn() -> None:
    signs = [s for a, s in symbols.AUTHORITY.items() if a is not Authority.CUT]
    assert len(set(signs)) == len(Authority) - 1
    assert all(s in symbols.CHARACTERS for s in signs)
    assert symbols.AUTHORITY[Authority.CUT] == ""


def test_centre_lines_reach_past_the_circle() -> None:
    for line in symbols.centre_mark((0, 0), 5.0):
        assert isinstance(line, Line)
        assert math.dist(line.a, line.b) == pytest.approx(2 * (5 + 3))
