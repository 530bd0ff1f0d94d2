import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.drawing.boxes import Box
from docgen.drawing.hatching import Cut, interrupted, lines, pitches
from docgen.drawing.records import Line

SQUARE = [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)]
HOLE = [(10.0, 10.0), (10.0, 20.0), (30.0, 20.0), (30.0, 10.0)]


def inked(hatch: list[Line]) -> float:
    return sum(math.dist(h.a, h.b) for h in hatch)


@given(st.floats(0.0, 180.0), st.sampled_from(list(Cut)))
def test_the_ink_is_the_area_over_the_mean_pitch(degrees: float, cut: Cut) -> None:
    steps = pitches(cut)
    mean = sum(steps) / len(steps)
    wanted = (40 * 30 - 20 * 10) / mean
    assert inked(lines([SQUARE, HOLE], degrees, steps)) == pytest.approx(wanted, rel=0.18)


def test_lines_stay_out_of_holes() -> None:
    for line in lines([SQUARE, HOLE], 45.0, (2.0,)):
        middle = ((line.a[0] + line.b[0]) / 2, (line.a[1] + line.b[1]) / 2)
        assert not (10 < middle[0] < 30 and 10 < middle[1] < 20)
        for x, y in (line.a, line.b):
            assert -1e-9 <= x <= 40 + 1e-9 and -1e-9 <= y <= 30 + 1e-9


def test_areas_side_by_side_hatch_on_one_lattice() -> None:
    left = lines([[(0.0, 0.0), (20.0, 0.0), (20.0, 30.0), (0.0, 30.0)]], 0.0, (2.0,))
    right = lines([[(20.0, 0.0), (40.0, 0.0), (40.0, 30.0), (20.0, 30.0)]], 0.0, (2.0,))
    assert [h.a[1] for h in left] == pytest.approx([h.a[1] for h in right])


def test_the_cuts_are_told_apart() -> None:
    assert len({pitches(c) for c in Cut}) == 4  # sheet stock along its layers by its slope
    gaps = [b.a[1] - a.a[1] for a, b in itertools.pairwise(lines([SQUARE], 0.0, pitches(Cut.LONG)))]
    assert len({round(g, 6) for g in gaps}) > 3  # fibres lie unevenly


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
def test_hatching_is_interrupted_for_text(angle: float) -> None:
    whole = lines([SQUARE], 45.0, (2.0,))
    box = Box(20.0, 15.0, 6.0, 2.0, angle)
    left = interrupted(whole, [box])
    room = box.grown(0.45)
    for line in left:
        for k in range(21):
            p = tuple(a + (b - a) * k / 20 for a, b in zip(line.a, line.b, strict=True))
            u, v = room.inside((p[0], p[1]))
            assert abs(u) > room.half_w - 1e-9 or abs(v) > room.half_h - 1e-9
    grown = box.grown(0.5)
    assert inked(whole) - inked(left) == pytest.approx(4 * grown.half_w * grown.half_h / 2.0, rel=0.25)


def test_nothing_without_a_ring() -> None:
    assert lines([], 45.0, (2.0,)) == []
