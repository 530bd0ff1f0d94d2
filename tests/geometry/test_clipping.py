import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry.clipping import clip_polyline

LINE = [(0.0, 0.0), (30.0, 5.0), (25.0, 40.0), (-5.0, 30.0)]


def run_length(points: tuple[tuple[float, float], ...] | list[tuple[float, float]]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


@given(st.floats(-5, 35), st.floats(-5, 45))
@settings(max_examples=40, deadline=None)
def test_four_tiles_hold_the_whole_line(x: float, y: float) -> None:
    far = 200.0
    tiles = [((a, b), (c, d)) for a, c in ((-far, x), (x, far)) for b, d in ((-far, y), (y, far))]
    assert sum(run_length(r) for t in tiles for r in clip_polyline(LINE, t)) == pytest.approx(run_length(LINE))


def test_a_polyline_leaves_and_comes_back() -> None:
    runs = clip_polyline([(0, 0), (10, 0), (10, 5), (0, 5)], ((-1.0, -1.0), (6.0, 6.0)))
    assert runs == (((0, 0), (6.0, 0.0)), ((6.0, 5.0), (0, 5)))


def test_a_line_outside_vanishes_and_one_inside_stays() -> None:
    assert clip_polyline(LINE, ((200.0, 0.0), (300.0, 100.0))) == ()
    assert clip_polyline(LINE, ((-100.0, -100.0), (100.0, 100.0))) == (tuple(LINE),)
