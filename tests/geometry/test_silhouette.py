"""Outlines found again in solids: arcs by their true circles, openings, edges within, seen from either side."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.make import along_axis
from docgen.geometry.outlines import area, bounds
from docgen.geometry.shapes import Edge, HalfSpace, Outline
from docgen.geometry.silhouette import face_shape, left_over, with_arcs
from docgen.geometry.solids import blank, cut
from docgen.geometry.topology import topology

SIZE = (200.0, 80.0, 20.0)


def shape_of(shapes, axis: int = 2, side: int = 1, size=SIZE):
    solid = cut(blank((0.0, 0.0, 0.0), size), shapes)
    return face_shape(solid, topology(solid), axis, side)


def corner(radius: float) -> Outline:
    """What goes when the corner at (200, 80) is rounded, with 1 mm over."""
    x, y = 200.0 - radius, 80.0 - radius
    return Outline(
        (Edge((200.0, y)), Edge((x, 80.0), (x, y), True), Edge((x, 81.0)), Edge((201.0, 81.0)), Edge((201.0, y)))
    )


@settings(max_examples=30, deadline=None)
@given(st.floats(3.0, 75.0).map(lambda r: round(r, 2)))
def test_a_rounded_corner_is_one_arc_of_its_own_circle(radius: float) -> None:
    found = shape_of([along_axis(corner(radius), 2, -1.0, 21.0)])
    (arc,) = (e for e in found.outside.edges if e.centre)
    assert arc.centre == pytest.approx((200.0 - radius, 80.0 - radius), abs=2e-4)
    assert area(found.outside) == pytest.approx(200 * 80 - (1 - math.pi / 4) * radius**2, abs=0.02)
    assert len(found.outside.edges) == 5


@pytest.mark.parametrize("side", [0, 1])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_an_opening_stands_at_its_place_in_the_two_axes_of_the_face(axis: int, side: int) -> None:
    size = (100.0, 100.0, 100.0)
    found = shape_of([along_axis(Outline.circle((30.0, 60.0), 8.0), axis, -1.0, 101.0)], axis, side, size)
    (opening,) = found.openings
    (edge,) = opening.edges
    assert edge.centre == pytest.approx((30.0, 60.0), abs=1e-4)
    assert area(opening) == pytest.approx(math.pi * 64, rel=1e-4)


def test_an_octagon_stays_an_octagon_and_a_slot_has_two_arcs() -> None:
    octagon = [(math.cos(k * math.pi / 4), math.sin(k * math.pi / 4)) for k in range(8)]
    assert all(e.centre is None for e in with_arcs(octagon).edges)
    slot = Outline(
        (
            Edge((90.0, 30.0)),
            Edge((90.0, 50.0), (90.0, 40.0), True),
            Edge((60.0, 50.0)),
            Edge((60.0, 30.0), (60.0, 40.0), True),
        )
    )
    (opening,) = shape_of([along_axis(slot, 2, -1.0, 21.0)]).openings
    assert sorted(e.centre for e in opening.edges if e.centre) == [
        pytest.approx((60.0, 40.0)),
        pytest.approx((90.0, 40.0)),
    ]


def test_a_slanted_end_reaches_to_its_long_point_and_shows_its_arris() -> None:
    # The plane through (190, ·, 0) and (180, ·, 20): the low face is the longer one.
    found = shape_of([HalfSpace((190.0, 0.0, 0.0), (20.0, 0.0, 10.0))])
    assert bounds(found.outside)[1] == pytest.approx((190.0, 80.0))
    assert any(a[0] == pytest.approx(180.0) and b[0] == pytest.approx(180.0) for a, b in found.lines)
    assert shape_of([HalfSpace((190.0, 0.0, 0.0), (20.0, 0.0, 10.0))], side=0).lines == ()


@pytest.mark.parametrize("side", [0, 1])
def test_a_trench_shows_its_edges_on_its_own_face_alone(side: int) -> None:
    trench = along_axis(Outline.rectangle(50.0, 15.0, 70.0, 81.0), 2, 14.0, 21.0)  # in the high face
    lines = shape_of([trench], side=side).lines
    if side == 0:
        assert lines == ()
    else:
        ends = {tuple(round(c, 3) for c in p) for line in lines for p in line}
        assert ends == {(50.0, 15.0), (70.0, 15.0), (50.0, 80.0), (70.0, 80.0)}


def test_what_goes_is_the_rectangle_less_what_stays() -> None:
    found = shape_of([along_axis(corner(30.0), 2, -1.0, 21.0)])
    (waste,) = left_over(((0.0, 0.0), (200.0, 80.0)), found.outside)
    assert area(waste) == pytest.approx((1 - math.pi / 4) * 900, abs=0.3)
    assert left_over(((0.0, 0.0), (200.0, 80.0)), Outline.rectangle(0.0, 0.0, 200.0, 80.0)) == ()
