import math
from fractions import Fraction

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.end_cut import Bevel, EndCut
from docgen.piece.records import Face, SizeKind
from tests.piece.operations.trial import (
    board,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    proven,
    taken,
)

T = math.tan(math.radians(14))


@pytest.mark.parametrize("side", [0, 1])
def test_square_end_cut(side: int) -> None:
    cut = EndCut(Face(0, side), 30 if not side else 370)
    assert taken(cut, board()) == pytest.approx(30 * 120 * 20)
    figures_measure_what_they_say(cut, board())


@pytest.mark.parametrize(("side", "slope"), [(1, 14), (1, -14), (0, 14), (0, -14)])
def test_end_slanted_on_the_face(side: int, slope: int) -> None:
    cut = EndCut(Face(0, side), 340 if side else 60, (slope, 0))
    middle = 340 + math.copysign(T * 60, slope) if side else 60 + math.copysign(T * 60, slope)
    gone = (400 - middle if side else middle) * 120 * 20
    assert taken(cut, board()) == pytest.approx(gone)
    every_parameter_moves_the_solid(cut, board())
    figures_measure_what_they_say(cut, board())


def test_long_and_short_points_are_measured_from_the_far_end() -> None:
    sizes = {s.label: s for s in made(EndCut(Face(0, 1), 340, (14, 0)), board()).sizes}
    assert float(sizes["long point"].value) == pytest.approx(340 + 120 * T)
    assert float(sizes["short point"].value) == pytest.approx(340)
    assert sizes["from square"].value == 14
    assert "76° from the edge" in sizes["from square"].note


def test_a_plane_gives_back_its_slopes() -> None:
    cut = EndCut(Face(0, 1), 340, (14, -9))
    again = EndCut.through(Face(0, 1), (float(cut.reach(50, 7)), 50.0, 7.0), cut.normal())
    assert float(again.at) == pytest.approx(340)
    assert [float(s) for s in again.slopes] == pytest.approx([14, -9])


def test_compound_cut_tells_both_scales() -> None:
    cut = EndCut(Face(0, 1), 340, (10, 20))
    values = {n: float(v) for n, v, k in made(cut, board()).settings[0].values if k == "angle"}
    tilt = math.degrees(
        math.asin(
            math.tan(math.radians(20))
            / math.sqrt(1 + math.tan(math.radians(10)) ** 2 + math.tan(math.radians(20)) ** 2)
        )
    )
    assert values["gauge, from square"] == pytest.approx(10)
    assert values["gauge, from the blade"] == pytest.approx(80)
    assert values["blade, from upright"] == pytest.approx(tilt)
    assert values["blade, from the table"] == pytest.approx(90 - tilt)
    middle = 340 + 60 * math.tan(math.radians(10)) + 10 * math.tan(math.radians(20))
    assert taken(cut, board()) == pytest.approx((400 - middle) * 120 * 20)
    every_parameter_moves_the_solid(cut, board())
    figures_measure_what_they_say(cut, board())


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1), Face(1, 0), Face(1, 1)])
@pytest.mark.parametrize("keep", [Face(2, 0), Face(2, 1)])
def test_mitre_keeps_the_length_on_its_long_face(end: Face, keep: Face) -> None:
    mitre = Bevel(end, keep)
    run = 120 if end.axis == 0 else 400
    assert taken(mitre, board()) == pytest.approx(20 * 20 / 2 * run)
    assert "long point at the end of the stated length" in [a.text for a in made(mitre, board()).assumed]
    short = next(s for s in made(mitre, board()).sizes if s.label == "short point")
    assert short.value == board().size[end.axis] - 20  # exact at 45°
    figures_measure_what_they_say(mitre, board())


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1), Face(1, 0)])
@pytest.mark.parametrize("keep", [Face(2, 0), Face(2, 1)])
def test_bevel_set_back_from_the_end(end: Face, keep: Face) -> None:
    proven(Bevel(end, keep, 30, 5), board(), derived=["short point"])


def test_points_of_a_tilted_cut_are_marked_on_the_faces_where_they_lie() -> None:
    for keep in (Face(2, 0), Face(2, 1)):
        long, short = made(Bevel(Face(0, 1), keep), board()).marks
        assert (long.position, long.face) == (400, keep)
        assert (short.position, short.face) == (380, Face(2, 1 - keep.side))
    flat = made(Bevel(Face(0, 1), Face(1, 0)), board()).marks  # across the face: both on it
    assert {m.face for m in flat} == {Face(2, 1)}


def test_mitre_across_the_width() -> None:
    mitre = Bevel(Face(0, 1), Face(1, 0), Fraction(45))
    assert taken(mitre, board()) == pytest.approx(120 * 120 / 2 * 20)


def test_template_of_a_raking_end_hatches_the_waste() -> None:
    (template,) = made(EndCut(Face(0, 1), 340, (14, 0)), board()).templates
    corners = [e.end for e in template.outline.edges]
    assert (340.0, 0.0) in corners and corners[2] == pytest.approx((340 + 120 * T, 120))
    assert template.waste and template.face == Face(2, 1)


def test_template_of_a_compound_end_shows_the_line_on_the_wide_face() -> None:
    # The plane rises by tan 14° across the width and tan 10° through the thickness of 20: on the high face, 20 · tan 10°
    # farther out than on the low one.
    (template,) = made(EndCut(Face(0, 1), 340, (14, 10)), board()).templates
    high = 340 + 20 * math.tan(math.radians(10))
    corners = [e.end for e in template.outline.edges]
    assert corners[1] == pytest.approx((high, 0)) and corners[2] == pytest.approx((high + 120 * T, 120))
    assert any("leans 10°" in note for note in template.notes)
    assert made(EndCut(Face(0, 1), 340, (0, 10)), board()).templates == ()


def test_cuts_that_miss_or_take_all() -> None:
    for at, code in ((401, "cut-misses"), (-200, "cut-all")):
        with pytest.raises(Fault) as fault:
            EndCut(Face(0, 1), at, (14, 0)).made(board())
        assert fault.value.code == code


def test_angle_sizes_open_about_their_axis() -> None:
    sizes = [s for s in made(EndCut(Face(0, 0), 60, (10, 20)), board()).sizes if s.kind is SizeKind.ANGLE]
    assert [(float(s.value), s.along) for s in sizes] == [(10, (0, 0, 1)), (20, (0, 1, 0))]
