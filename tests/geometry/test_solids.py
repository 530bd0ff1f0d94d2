import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.make import along_axis, box, cylinder
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Outline, Revolution, turned
from docgen.geometry.solids import SolidFault, blank, cut, joined, made, overlap, wood_between
from tests.support.recipes import ROUNDED, round_over

BOARD = blank((0, 0, 0), (600, 200, 20))


def test_a_blank_takes_exact_fractions() -> None:
    assert blank((0, 0, 0), (Fraction(1, 3), 3, 2)).volume == pytest.approx(2, abs=1e-5)  # snapped to 1e-6 mm
    assert BOARD.bounds == ((0, 0, 0), (600, 200, 20))
    assert BOARD.centroid == pytest.approx((300, 100, 10))


def test_a_dado_takes_its_own_volume() -> None:
    cutter = box((100.0, -1.0, 12.0), (119.0, 201.0, 21.0))
    assert cut(BOARD, [cutter]).volume == pytest.approx(600 * 200 * 20 - 19 * 200 * 8)


def test_overshoot_leaves_no_skin() -> None:
    through = cut(BOARD, [box((100.0, -1.0, -1.0), (119.0, 201.0, 21.0))])
    assert through.pieces == 2
    assert BOARD.pieces == 1


@pytest.mark.parametrize(("radius", "within"), [(2.0, 0.007), (5.0, 0.003), (8.0, 0.001), (40.0, 0.001)])
def test_a_hole_is_round_within_the_sag(radius: float, within: float) -> None:
    taken = BOARD.volume - cut(BOARD, [cylinder((300.0, 100.0, 20.0), (0, 0, -1), radius, 12.0)]).volume
    assert taken == pytest.approx(math.pi * radius**2 * 12, rel=within)


def test_a_round_over_takes_the_corner_less_a_quarter_circle() -> None:
    taken = BOARD.volume - cut(BOARD, [round_over(0, (200.0, 20.0), (1, 1), 10.0, 600.0)]).volume
    assert taken == pytest.approx((1 - math.pi / 4) * 100 * 600, rel=5e-3)  # chords within the sag


def test_turned_shapes_have_the_volumes_of_the_textbook() -> None:
    ring = made(Revolution(Outline.rectangle(15.0, 0.0, 25.0, 7.0), Frame()))
    assert ring.volume == pytest.approx(math.pi * (25**2 - 15**2) * 7, rel=1e-3)
    cone = made(Revolution(Outline.polygon([(0.0, 0.0), (20.0, 0.0), (0.0, 30.0)]), Frame()))
    assert cone.volume == pytest.approx(math.pi * 400 * 10, rel=1e-3)
    torus = made(Revolution(Outline.circle((30.0, 0.0), 6.0), Frame()))
    assert torus.volume == pytest.approx(2 * math.pi**2 * 30 * 36, rel=4e-3)
    assert torus.pieces == 1


def test_a_clockwise_outline_and_a_mirrored_frame_still_make_wood() -> None:
    backward = Extrusion(Outline.polygon([(0, 0), (0, 10), (10, 10), (10, 0)]), Frame(), 5.0, 0.0)
    assert made(backward).volume == pytest.approx(500)
    left_handed = Frame(((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
    assert made(Extrusion(Outline.rectangle(0, 0, 10, 10), left_handed, 0.0, 5.0)).volume == pytest.approx(500)


def test_a_half_space_cuts_a_mitre() -> None:
    mitred = cut(BOARD, [HalfSpace((600.0, 0.0, 0.0), (1.0, 0.0, 1.0))])
    assert mitred.volume == pytest.approx(600 * 200 * 20 - 200 * 20 * 20 / 2)
    assert mitred.bounds[1][0] == pytest.approx(600)


@pytest.mark.parametrize(
    ("shape", "code"),
    [
        (Extrusion(Outline.polygon([(0, 0), (9, 9), (9, 0), (0, 12)]), Frame(), 0.0, 1.0), "outline-crosses"),
        (Extrusion(Outline.polygon([(0, 0), (9, 9)]), Frame(), 0.0, 1.0), "no-area"),
        (Extrusion(Outline.rectangle(0, 0, 1, 1), Frame(), 2.0, 2.0), "no-volume"),
        (Revolution(Outline.rectangle(-1, 0, 1, 1), Frame()), "profile-side"),
        (box((-1.0, -1.0, -1.0), (601.0, 201.0, 21.0)), "empty"),
    ],
)
def test_what_is_no_shape_or_leaves_nothing_is_told(shape: object, code: str) -> None:
    with pytest.raises(SolidFault) as told:
        cut(BOARD, [shape])  # type: ignore[list-item]
    assert told.value.code == code


def test_a_blank_without_thickness_is_told() -> None:
    with pytest.raises(SolidFault) as told:
        blank((0, 0, 0), (10, 10, 0))
    assert told.value.code == "no-volume"


@given(st.floats(-170, 170), st.sampled_from([0, 1, 2]))
@settings(max_examples=20, deadline=None)
def test_moving_and_mirroring_keep_the_volume(degrees: float, axis: int) -> None:
    solid = ROUNDED.solid()
    assert solid.moved(turned(axis, degrees, (1.0, 2.0, 3.0))).volume == pytest.approx(solid.volume)
    other = solid.mirrored(axis)
    assert other.volume == pytest.approx(solid.volume)
    assert other.bounds[0][axis] == pytest.approx(-solid.bounds[1][axis])
    assert other.centroid[axis] == pytest.approx(-solid.centroid[axis])


def test_true_surfaces_follow_the_solid() -> None:
    solid = cut(BOARD, [cylinder((300.0, 100.0, 20.0), (0, 0, -1), 8.0, 30.0)])
    placed = solid.moved(turned(0, 90.0, (0.0, 0.0, 0.0))).mirrored(0)
    (surface,) = placed.marked.surfaces
    points = placed.marked.vertices
    round_ones = points[np.unique(placed.marked.triangles[placed.marked.facet_surface[placed.marked.facet] == 0])]
    _, r, _ = surface.heights(round_ones)
    assert np.abs(r - 8.0).max() < 1e-5
    assert surface.radius == 8.0


def test_wood_in_wood_is_told_with_its_thickness() -> None:
    found = overlap(BOARD, blank((590, 0, 18), (700, 200, 200)))
    assert found is not None
    assert found.volume == pytest.approx(10 * 200 * 2)
    assert found.thickness == pytest.approx(2)
    assert found.centre == pytest.approx((595, 100, 19))


@pytest.mark.parametrize("gap", [-10.0, 0.0, 0.04])
def test_touching_is_no_overlap(gap: float) -> None:
    assert overlap(BOARD, blank((600 - gap, 0, 0), (700, 200, 20))) is None


def test_a_twentieth_of_a_millimetre_is_the_edge_of_an_overlap() -> None:
    found = overlap(BOARD, blank((599.94, 0, 0), (700, 200, 20)))
    assert found is not None and found.thickness == pytest.approx(0.06, abs=1e-6)


def test_a_curled_shell_is_as_thick_as_its_wood() -> None:
    hole = cylinder((50.0, 50.0, 21.0), (0, 0, -1), 10.0, 40.0)
    plug = made(cylinder((50.0, 50.0, 20.0), (0, 0, -1), 10.005, 20.0, before=0.0))
    assert overlap(cut(BOARD, [hole]), plug) is None
    assert overlap(cut(BOARD, [hole]), made(cylinder((50.0, 50.0, 20.0), (0, 0, -1), 11.0, 20.0, before=0.0)))


def test_wood_along_a_ray() -> None:
    drilled = cut(BOARD, [cylinder((300.0, 100.0, 20.0), (0, 0, -1), 5.0, 12.0)])
    assert wood_between(drilled, (300.1, 100.1, 30.0), (0, 0, -1)) == pytest.approx(8)
    assert wood_between(drilled, (300.1, 100.1, 4.0), (0, 0, -1)) == pytest.approx(4)
    assert wood_between(drilled, (100.1, 90.1, 30.0), (0, 0, 1)) == 0
    assert drilled.contains((300.1, 100.1, 4.0))
    assert not drilled.contains((300.1, 100.1, 15.0))


def test_parts_glued_together_are_one_piece() -> None:
    assert joined([BOARD, blank((600, 0, 0), (700, 200, 20))]).pieces == 1


def test_a_groove_on_each_axis_lies_where_it_is_drawn() -> None:
    for axis in range(3):
        outline = Outline.rectangle(2.0, 3.0, 5.0, 9.0)  # in the two other axes in rising order
        low, high = made(along_axis(outline, axis, 10.0, 14.0)).bounds
        others = [i for i in range(3) if i != axis]
        assert (low[axis], high[axis]) == pytest.approx((10, 14))
        assert [(low[i], high[i]) for i in others] == [pytest.approx((2, 5)), pytest.approx((3, 9))]


def test_a_prism_with_holes_leaves_what_lies_in_them() -> None:
    around = Outline.rectangle(-1, -1, 101, 61)
    shape = Extrusion(around, Frame(), -1, 21, (Outline.circle((50, 30), 25), Outline.rectangle(2, 2, 8, 8)))
    left = cut(blank((0, 0, 0), (100, 60, 20)), [shape])
    assert left.volume == pytest.approx((math.pi * 625 + 36) * 20, rel=1e-3)
    assert left.pieces == 2
    assert {s.kind for s in left.marked.surfaces} == {"cylinder"}


def test_a_hole_across_the_prisms_outline_is_refused() -> None:
    shape = Extrusion(Outline.rectangle(0, 0, 100, 60), Frame(), 0, 20, (Outline.circle((0, 30), 25),))
    with pytest.raises(SolidFault) as fault:
        made(shape)
    assert fault.value.code == "outline-crosses"


@pytest.mark.parametrize("start", [0.0, 75.0, -130.0])
@pytest.mark.parametrize("turn", [5.0, 90.0, 200.0])
def test_a_part_of_a_turn_takes_its_share(start: float, turn: float) -> None:
    stops = tuple(start + turn * k / 60 for k in range(61))
    ring = Revolution(Outline.rectangle(20, 0, 30, 8), Frame(), stops)
    solid = made(ring)
    assert solid.volume == pytest.approx(math.pi * (900 - 400) * 8 * turn / 360, rel=3e-3)
    middle = math.radians(start + turn / 2 + turn / 120)
    assert solid.contains((25 * math.cos(middle), 25 * math.sin(middle), 4))
    after = math.radians(start + turn + 1)
    assert not solid.contains((25 * math.cos(after), 25 * math.sin(after), 4))
    wedge = made(Revolution(Outline.rectangle(0, 0, 30, 8), Frame(), stops))
    assert wedge.volume == pytest.approx(math.pi * 900 * 8 * turn / 360, rel=3e-3)


def test_seams_may_be_said_for_a_full_round() -> None:
    stops = tuple(10.0 + 360 * k / 100 for k in range(101))
    ring = made(Revolution(Outline.rectangle(20, 0, 30, 8), Frame(), stops))
    assert ring.volume == pytest.approx(math.pi * 500 * 8, rel=1e-3)
    assert ring.pieces == 1
    vertices, _ = ring.mesh()
    assert np.abs(vertices - (30 * math.cos(math.radians(10)), 30 * math.sin(math.radians(10)), 0)).sum(1).min() < 1e-5
