import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.clipping import clip_area, clip_outline, clip_polyline
from docgen.geometry.make import stadium
from docgen.geometry.outlines import area, edge_length, length
from docgen.geometry.shapes import Outline

SLOT = stadium((0.0, 0.0), (30.0, 40.0), 6.0)


def run_length(path) -> float:
    start, total = path.start, 0.0
    for edge in path.edges:
        total += edge_length(start, edge)
        start = edge.end
    return total


def test_a_circle_cut_by_a_tile_keeps_its_centre() -> None:
    (path,) = clip_outline(Outline.circle((0.0, 0.0), 10.0), ((0.0, -20.0), (20.0, 20.0)))
    assert {e.centre for e in path.edges} == {(0.0, 0.0)}
    assert run_length(path) == pytest.approx(math.pi * 10)
    assert path.start == pytest.approx((0, -10), abs=1e-9)
    assert path.end == pytest.approx((0, 10), abs=1e-9)


def test_an_outline_inside_stays_whole_and_one_outside_vanishes() -> None:
    (path,) = clip_outline(SLOT, ((-100.0, -100.0), (100.0, 100.0)))
    assert run_length(path) == pytest.approx(length(SLOT))
    assert clip_outline(SLOT, ((200.0, 0.0), (300.0, 100.0))) == ()


@given(st.floats(-5, 35), st.floats(-5, 45))
@settings(max_examples=40, deadline=None)
def test_four_tiles_hold_the_whole_outline(x: float, y: float) -> None:
    far = 200.0
    tiles = [((a, b), (c, d)) for a, c in ((-far, x), (x, far)) for b, d in ((-far, y), (y, far))]
    assert sum(run_length(p) for t in tiles for p in clip_outline(SLOT, t)) == pytest.approx(length(SLOT))
    assert sum(area(o) for t in tiles for o in clip_area(SLOT, t)) == pytest.approx(area(SLOT), rel=2e-3)


def test_a_polyline_leaves_and_comes_back() -> None:
    runs = clip_polyline([(0, 0), (10, 0), (10, 5), (0, 5)], ((-1.0, -1.0), (6.0, 6.0)))
    assert runs == (((0, 0), (6.0, 0.0)), ((6.0, 5.0), (0, 5)))
