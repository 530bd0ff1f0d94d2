"""Path data: each command against points worked out by hand, and against a second renderer."""

from __future__ import annotations

import math
import random

import pytest

from docgen.geometry.outlines import area, bounds, faults
from docgen.geometry.svg_path import MOST, PathFault, all_points, outline_of, read_path, read_transform, times


def one(data: str):  # type: ignore[no-untyped-def]
    (loop,) = read_path(data)
    outline = outline_of(loop)
    assert faults(outline) == ()
    return outline


def test_lines_absolute_and_relative() -> None:
    square = one("M0,0 L10,0 L10,10 L0,10 Z")
    assert area(square) == 100
    assert area(one("m 5 5 h10 v10 h-10 z")) == 100
    assert area(one("M0 0H10V10H0z")) == 100
    assert area(one("M0 0 10 0 10 10 0 10 0 0")) == 100  # more points after M are lines; it comes back by itself
    assert area(one("m0-0l1e1.0 0 10-10 0z")) == 100


def test_several_loops() -> None:
    loops = read_path("M0 0H10V10H0Z m 2 2 h2 v2 h-2 z")
    assert [loop.start for loop in loops] == [(0, 0), (2, 2)]


def test_circle_of_two_arcs_is_a_true_circle() -> None:
    ring = one("M -50 0 A 50 50 0 0 1 50 0 A 50 50 0 0 1 -50 0 Z")
    assert area(ring) == pytest.approx(math.pi * 2500)
    assert all(e.centre == pytest.approx((0, 0)) for e in ring.edges)


@pytest.mark.parametrize(("large", "sweep", "centre"), [(0, 0, 1), (1, 0, -1), (0, 1, -1), (1, 1, 1)])
def test_arc_flags(large: int, sweep: int, centre: int) -> None:
    """From (0, 0) to (50, 50) on radius 50: the four arcs of figure 8.8 in SVG 1.1, circles about (50, 0) and (0, 50)."""
    outline = outline_of(read_path(f"M0 0A50 50 0 {large}{sweep} 50 50Z")[0])
    arcs = [e for e in outline.edges if e.centre is not None]
    assert arcs[0].centre == pytest.approx((50, 0) if centre > 0 else (0, 50))
    quarter = math.pi * 2500 / 4 - 1250
    assert area(outline) == pytest.approx(math.pi * 2500 - quarter if large else quarter)


def test_ellipse_turned() -> None:
    outline = one("M 40 30 A 50 20 36.8698976 0 1 -40 -30 A 50 20 36.8698976 0 1 40 30 Z")  # its long axis on (40, 30)
    assert area(outline) == pytest.approx(math.pi * 1000, rel=1e-3)


def test_radii_that_are_too_small_grow() -> None:
    outline = one("M 0 0 A 1 1 0 0 1 100 0 Z")
    assert area(outline) == pytest.approx(math.pi * 2500 / 2)


def test_cubic_quadratic_and_their_smooth_followers() -> None:
    hump = one("M0 0 C0 40 100 40 100 0 Z")
    assert area(hump) == pytest.approx(2400, rel=1e-4)  # 3/20 · (sum of cross products) worked by hand: 3/5 · 100 · 40
    para = one("M0 0 Q50 60 100 0 Z")
    assert area(para) == pytest.approx(2 / 3 * 100 * 30, rel=1e-4)  # Archimedes: two thirds of base by height 30
    wave = one("M0 0 Q25 30 50 0 T100 0 V-50 H0 Z")
    assert area(wave) == pytest.approx(5000, rel=1e-4)  # what swings up swings down again
    smooth = one("M0 0 C0 20 50 20 50 0 S100 -20 100 0 V-50 H0 Z")
    assert bounds(smooth)[1][1] == pytest.approx(15, abs=0.01)
    assert bounds(smooth)[1][0] == pytest.approx(100, abs=0.01)


def test_smooth_after_another_kind_starts_straight_on() -> None:
    (loop,) = read_path("M0 0 L50 0 S100 50 100 100 H0 Z")
    assert loop.segments[1].first == (50, 0)  # type: ignore[union-attr]


def test_transforms_in_order() -> None:
    m = read_transform("translate(10, 20) rotate(90) scale(2)")
    (loop,) = read_path("M0 0H10V5H0Z")
    (x0, y0), (x1, y1) = bounds(outline_of(loop, m))
    assert (x0, y0, x1, y1) == pytest.approx((0, 20, 10, 40))
    assert read_transform("rotate(30 5 5)") == pytest.approx(
        times(times((1, 0, 0, 1, 5, 5), read_transform("rotate(30)")), (1, 0, 0, 1, -5, -5))
    )
    assert read_transform("matrix(1 2 3 4 5 6)") == (1, 2, 3, 4, 5, 6)
    assert read_transform("skewX(45)") == pytest.approx((1, 0, 1, 1, 0, 0))
    assert read_transform(" ") == (1, 0, 0, 1, 0, 0)


def test_a_mirroring_transform_keeps_arcs() -> None:
    (loop,) = read_path("M -50 0 A 50 50 0 0 1 50 0 A 50 50 0 0 1 -50 0 Z")
    assert area(outline_of(loop, (1, 0, 0, -1, 0, 0))) == pytest.approx(math.pi * 2500)
    assert area(outline_of(loop, (2, 0, 0, 1, 0, 0))) == pytest.approx(math.pi * 5000, rel=1e-4)


@pytest.mark.parametrize(
    ("data", "offset"),
    [
        ("", 0),
        ("L 0 0", 0),
        ("M 0 0 L 10 0 L 10 10", 19),
        ("M 0 0 X 10", 6),
        ("M 0 0 L 10", 9),
        ("M 0 0 L 10 a", 11),
        ("M 0 0 A 5 5 0 2 1 9 9 Z", 14),
        ("M 0 0 L 1e9 0 Z", 8),
        ("M 0 0 H 10 V 10 Z 5 5", 18),
        ("M0 0" + "h1" * (MOST + 1) + "z", None),
    ],
)
def test_what_is_no_path_is_told_with_its_place(data: str, offset: int | None) -> None:
    with pytest.raises(PathFault) as fault:
        read_path(data)
    if offset is not None:
        assert fault.value.offset == offset


@pytest.mark.parametrize("text", ["turn(3)", "rotate(1 2)", "scale()", "translate(1,2) foo"])
def test_what_is_no_transform(text: str) -> None:
    with pytest.raises(PathFault):
        read_transform(text)


@pytest.mark.parametrize(
    "data",
    ["M0 0S1e3 11e3 0 0", "M0 0 C 0 0 100 100 0 0 L 50 0 Z", "M0 0 C 100 0 -50 0 50 0 Z", "M0 0 C 5 5 0 0 0 0 Z"],
)
def test_a_curve_that_runs_out_and_back_on_a_line_bounds_nothing(data: str) -> None:
    (loop,) = read_path(data)
    try:
        assert area(outline_of(loop)) == 0
    except PathFault as fault:
        assert "no extent" in fault.message


def test_a_curve_that_runs_out_and_back_beside_sound_sides_adds_nothing() -> None:
    assert area(one("M0 0H100V50C100 50 150 100 100 50L0 50Z")) == pytest.approx(5000)


def test_whatever_is_drawn_is_an_outline_or_a_fault() -> None:
    chance = random.Random(3)
    words = [
        *"MmLlHhVvCcSsQqTtAaZz",
        "0",
        "1",
        "-1",
        "1e3",
        "-1e-300",
        ".5",
        "5.",
        ",",
        " 10 0 1 0 50 50",
        "100",
        "7 8 9",
    ]
    for _ in range(4000):
        data = "M0 0" + "".join(chance.choice(words) + chance.choice([" ", ""]) for _ in range(chance.randint(1, 12)))
        try:
            for loop in read_path(data):
                outline_of(loop)
        except PathFault:
            pass


def test_an_arc_reaches_as_far_as_it_bows() -> None:
    """An ellipse written as one arc to a point beside its start is as large as its axes, not as the gap."""
    points = list(all_points(read_path("M 0 0 A 50 30 0 1 1 0.001 0 Z")))
    (left, low), (right, high) = (tuple(pick(p[i] for p in points) for i in (0, 1)) for pick in (min, max))
    assert 90 < right - left <= 100 and 55 < high - low <= 60
    flat = list(all_points(read_path("M 0 0 A 5000 5000 0 0 1 10 0 Z")))
    assert max(p[1] for p in flat) - min(p[1] for p in flat) < 0.01
