import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.drawing.boxes import Box
from docgen.drawing.hatching import BREAK, SHORTEST, Cut, hatched, inked, interrupted, lines, pitches
from docgen.drawing.records import Line, Pen

SQUARE = [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)]
HOLE = [(10.0, 10.0), (10.0, 20.0), (30.0, 20.0), (30.0, 10.0)]


def ink(hatch: list[Line]) -> float:
    return sum(math.dist(h.a, h.b) for h in hatch)


@given(st.floats(0.0, 180.0), st.sampled_from(list(Cut)))
def test_the_ink_is_the_area_over_the_mean_pitch(degrees: float, cut: Cut) -> None:
    steps = pitches(cut)
    mean = sum(steps) / len(steps)
    wanted = (40 * 30 - 20 * 10) / mean
    assert ink(lines([SQUARE, HOLE], degrees, steps)) == pytest.approx(wanted, rel=0.18)


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
    assert len({pitches(c) for c in Cut}) == len(Cut)
    gaps = [b.a[1] - a.a[1] for a, b in itertools.pairwise(lines([SQUARE], 0.0, pitches(Cut.LONG)))]
    assert len({round(g, 6) for g in gaps}) > 3  # fibres lie unevenly


@pytest.mark.parametrize("degrees", [0.0, 37.0, 90.0])
@pytest.mark.parametrize("cut", list(Cut))
def test_long_grain_alone_is_drawn_in_strokes(cut: Cut, degrees: float) -> None:
    whole = hatched([SQUARE], degrees, cut)
    drawn = inked(whole, cut)
    if cut is not Cut.LONG:
        assert drawn == whole
        return
    lengths = {round(math.dist(h.a, h.b), 2) for h in drawn}
    assert len(lengths) > 8 and min(lengths) >= SHORTEST - 0.01
    assert 0.75 * ink(whole) < ink(drawn) < 0.92 * ink(whole)  # it stays about as dark
    for line in drawn:  # each stroke lies on one of the lines
        assert any(
            math.dist(h.a, line.a) + math.dist(line.a, line.b) + math.dist(line.b, h.b) < math.dist(h.a, h.b) + 1e-6
            for h in whole
        )


@given(st.floats(0.0, 180.0), st.floats(1.5, 40.0))
def test_even_a_small_place_in_long_grain_shows_breaks(degrees: float, size: float) -> None:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    ring = [(x * c - y * s, x * s + y * c) for x, y in ((3.0, 5.0), (3.0 + size, 5.0), (3.0 + size, 25.0), (3.0, 25.0))]
    whole = hatched([ring], degrees, Cut.LONG)
    drawn = inked(whole, Cut.LONG)
    assert ink(drawn) < ink(whole) - 2 * BREAK * min(size / 12.0, 1.0)
    assert ink(drawn) > 0.6 * ink(whole)


def test_strokes_go_on_alike_beyond_text_and_other_parts() -> None:
    line = Line((0.0, 7.0), (60.0, 7.0), Pen.HATCH)
    whole = inked([line], Cut.LONG)
    halves = inked([replace(line, b=(23.0, 7.0)), replace(line, a=(23.0, 7.0))], Cut.LONG)
    assert ink(whole) == pytest.approx(ink(halves), abs=2 * SHORTEST)
    assert {round(h.a[0], 6) for h in whole} <= {round(h.a[0], 6) for h in halves}
    turned = inked([replace(line, a=line.b, b=line.a)], Cut.LONG)
    assert [(h.a, h.b) for h in turned] == [(h.a, h.b) for h in whole]


def test_sheet_stock_cut_along_its_layers_is_crossed() -> None:
    ways = {
        round(math.degrees(math.atan2(h.b[1] - h.a[1], h.b[0] - h.a[0])) % 180)
        for h in hatched([SQUARE], 45.0, Cut.LAYER)
    }
    assert ways == {45, 135}


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
    assert ink(whole) - ink(left) == pytest.approx(4 * grown.half_w * grown.half_h / 2.0, rel=0.25)


def test_nothing_without_a_ring() -> None:
    assert lines([], 45.0, (2.0,)) == []
