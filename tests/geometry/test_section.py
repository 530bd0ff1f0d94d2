import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.hidden import draw
from docgen.geometry.outlines import area
from docgen.geometry.section import _corners, behind, hatched, section, section_view, windowed
from docgen.geometry.shapes import Frame
from docgen.geometry.solids import blank
from docgen.geometry.topology import topology
from tests.support.recipes import DADOED, HOLED, ROUNDED


def test_a_box_is_cut_in_a_rectangle_seen_from_the_normals_side() -> None:
    (ring,) = section(blank((0, 0, 0), (60, 40, 20)), (0, 10, 0), (0, -1, 0), (1, 0, 0))
    assert ring == ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (0.0, 20.0))
    (ring,) = section(blank((0, 0, 0), (60, 40, 20)), (0, 10, 0), (0, 1, 0), (-1, 0, 0))
    assert ring == ((-60.0, 0.0), (0.0, 0.0), (0.0, 20.0), (-60.0, 20.0))


def test_a_plane_that_misses_cuts_nothing() -> None:
    assert section(blank((0, 0, 0), (60, 40, 20)), (0, 50, 0), (0, -1, 0), (1, 0, 0)) == ()


def test_a_hole_is_a_hole_in_the_hatching() -> None:
    rings = section(HOLED.solid(), (0, 0, 20.0), (0, 0, 1), (1, 0, 0))
    (face,) = hatched(rings)
    assert len(face.holes) == 4  # three drilled ones and the countersink, 4 mm below the face
    radii = sorted(math.sqrt(area(h) / math.pi) for h in face.holes)
    assert radii == pytest.approx([4, 4, 9, 10], rel=3e-3)


@given(st.floats(1.0, 399.0))
@settings(max_examples=15, deadline=None)
def test_slices_add_up_to_the_volume_behind(x: float) -> None:
    solid = ROUNDED.solid()
    (face,) = hatched(section(solid, (x, 0, 0), (1, 0, 0), (0, 1, 0)))
    left = behind(solid, (x, 0, 0), (1, 0, 0))
    more = behind(solid, (x + 0.5, 0, 0), (1, 0, 0))
    assert left is not None
    assert more is not None
    if not 99.0 < x < 126.0:  # not across the wall of the trench
        assert more.volume - left.volume == pytest.approx(0.5 * area(face.outside), rel=1e-3)


def test_what_stands_behind_lies_on_the_rings() -> None:
    """Every corner of the cut is a corner of the lines drawn behind it."""
    point, normal, x = (200.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
    left = behind(DADOED.solid(), point, normal)
    assert left is not None
    drawn = draw([(topology(left), Frame())], section_view(normal, x))
    ends = {(round(p[0], 3), round(p[1], 3)) for s in drawn.visible for p in (s.a, s.b)}
    for ring in section(DADOED.solid(), point, normal, x):
        assert {(round(p[0], 3), round(p[1], 3)) for p in ring} <= ends


@pytest.mark.parametrize("over", [0.0, 1e-12, -1e-12])
def test_what_touches_the_plane_from_the_viewers_side_is_before_it(over: float) -> None:
    board = blank((0, 0, 0), (60, 40, 20))
    assert behind(board, (0, 0, over), (0, 0, 1)) is None
    left = behind(board, (0, 0, 20 + over), (0, 0, 1))
    assert left is not None and left.volume == pytest.approx(board.volume)


def test_before_and_behind() -> None:
    solid = blank((0, 0, 0), (60, 40, 20))
    assert behind(solid, (0, 0, 30), (0, 0, 1)) is solid
    assert behind(solid, (0, 0, -1), (0, 0, 1)) is None


def test_a_window_breaks_a_cut_off_where_it_ends() -> None:
    rings = section(blank((0, 0, 0), (60, 40, 20)), (0, 10, 0), (0, -1, 0), (1, 0, 0))
    (piece,) = windowed(rings, ((-5.0, -5.0), (30.0, 25.0)))
    assert sorted(piece.broken) == [((30.0, 20.0), (30.0, 0.0))] or sorted(piece.broken) == [
        ((30.0, 0.0), (30.0, 20.0))
    ]
    length = sum(math.dist(a, b) for edge in piece.edges for a, b in itertools.pairwise(edge))
    assert length == pytest.approx(30 + 20 + 30)
    assert windowed(rings, ((100.0, 0.0), (120.0, 20.0))) == ()


def test_a_window_keeps_holes_and_parts_a_cut_in_two() -> None:
    rings = section(HOLED.solid(), (0, 0, 20.0), (0, 0, 1), (1, 0, 0))
    (whole,) = windowed(rings, ((-10.0, -10.0), (310.0, 90.0)))
    assert len(whole.rings) == 5 and not whole.broken
    (cut,) = windowed(rings, ((30.0, -10.0), (60.0, 90.0)))
    assert len(cut.rings) == 2 and len(cut.broken) == 2
    two = windowed(section(DADOED.solid(), (0, 100, 0), (0, -1, 0), (1, 0, 0)), ((0.0, 13.0), (200.0, 30.0)))
    assert len(two) == 2  # the dado parts what lies above its bottom


def test_a_ring_that_crosses_itself_is_still_shown() -> None:
    bow = ((0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0))
    shown = windowed((bow,), ((-1.0, -1.0), (6.0, 11.0)))
    assert sum(len(w.rings) for w in shown) == 2


def test_a_corner_that_stands_at_the_seam_twice_is_kept() -> None:
    """Slices begin and end their ring with one corner where an edge lies in the plane; both were taken for points of a line."""
    ring = [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0), (0.0, 10.0), (0.0, 1e-6)]
    assert _corners(ring) == [(20.0, 0.0), (20.0, 10.0), (0.0, 10.0), (0.0, 1e-6)]
    assert _corners([*ring[:5], (0.0, 0.0)]) == [(20.0, 0.0), (20.0, 10.0), (0.0, 10.0), (0.0, 0.0)]
