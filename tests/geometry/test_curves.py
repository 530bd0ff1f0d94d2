"""Arcs that follow curves: exact where the curve is a circle, within the tolerance elsewhere, without corners."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry import curves
from docgen.geometry.outlines import area, bounds, faults, flatten_edge, pieces
from docgen.geometry.shapes import Edge, Outline, Vec2


def walked(start: Vec2, run: curves.Run) -> list[Vec2]:
    points = [start]
    for edge in run:
        points.extend(flatten_edge(points[-1], edge, 1e-4))
    return points


def off(points: list[Vec2], truth: np.ndarray) -> float:
    """The farthest of `points` from the chords of `truth`."""
    a, b = truth[:-1], truth[1:]
    worst = 0.0
    for p in points:
        v = b - a
        t = np.clip(((np.array(p) - a) * v).sum(1) / (v * v).sum(1), 0, 1)
        worst = max(worst, float(np.min(np.hypot(*(np.array(p) - a - t[:, None] * v).T))))
    return worst


def corners(start: Vec2, run: curves.Run) -> float:
    """The sharpest corner between neighbouring edges, degrees."""
    ways = []
    for edge in run:
        if edge.centre is None:
            d = (edge.end[0] - start[0], edge.end[1] - start[1])
            ways.append((d, d))
        else:
            s = 1 if edge.ccw else -1
            ends = [(-s * (p[1] - edge.centre[1]), s * (p[0] - edge.centre[0])) for p in (start, edge.end)]
            ways.append((ends[0], ends[1]))
        start = edge.end
    turns = [math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]) for (_, a), (b, _) in pairwise(ways)]
    return max((abs(math.degrees(t)) for t in turns), default=0.0)


def test_circle_through_three_points() -> None:
    centre, radius = curves.circle_through((0, 0), (50, 10), (100, 0))  # type: ignore[misc]
    assert radius == pytest.approx((100**2 + 4 * 10**2) / 80)  # chord and rise
    assert centre == pytest.approx((50, 10 - radius))
    assert curves.circle_through((0, 0), (1, 1), (5, 5)) is None


@pytest.mark.parametrize("middle", [(50, 10), (50, -10), (20, 30), (50, 80)])
def test_arc_goes_over_its_middle_point(middle: Vec2) -> None:
    run = curves.arc_through((0, 0), middle, (100, 0))
    assert min(math.dist(p, middle) for p in walked((0, 0), run)) < 0.3
    assert run[-1].end == (100, 0)


def test_three_points_in_line_are_a_line() -> None:
    assert curves.arc_through((0, 0), (5, 5), (9, 9)) == (Edge((9, 9)),)


@given(st.floats(5, 900), st.floats(5, 900))
@settings(max_examples=25, deadline=None)
def test_ellipse_within_the_tolerance_and_smooth(rx: float, ry: float) -> None:
    outline = curves.ellipse_outline((10, 20), (rx, ry))
    assert faults(outline) == ()
    assert area(outline) == pytest.approx(math.pi * rx * ry, rel=1e-4, abs=math.tau * max(rx, ry) * 0.005)
    (x0, y0), (x1, y1) = bounds(outline)
    assert (x0, y0, x1, y1) == pytest.approx((10 - rx, 20 - ry, 10 + rx, 20 + ry), abs=0.002)


@pytest.mark.parametrize(("start", "stop"), [(0, 180), (180, 0), (180, 360)])
def test_ellipse_points_lie_on_it(start: float, stop: float) -> None:
    run = curves.ellipse((0, 0), (200, 60), start, stop)
    for x, y in walked((200 if start == 0 else -200, 0), run):
        # The distance is nearly the value of the equation over its slope.
        value = (x / 200) ** 2 + (y / 60) ** 2 - 1
        assert abs(value) / math.hypot(2 * x / 200**2, 2 * y / 60**2) < curves.TOLERANCE + 2e-4
    assert corners((200 if start == 0 else -200, 0), run) < 0.5
    assert len(run) < 60


def test_backward_ellipse() -> None:
    run = curves.ellipse((0, 0), (200, 60), 180, 90)
    assert run[-1].end == pytest.approx((0, 60))


def test_circle_stays_a_true_circle() -> None:
    assert curves.ellipse_outline((1, 2), (30, 30)) == Outline.circle((1, 2), 30)
    assert [e.centre for e in curves.ellipse((1, 2), (30, 30), 0, 180)] == [(1, 2)] * 2


POINTS = st.floats(-200, 200)


@given(st.lists(st.tuples(POINTS, POINTS), min_size=4, max_size=4))
@settings(max_examples=60, deadline=None)
def test_any_cubic_is_followed(p: list[Vec2]) -> None:
    a, b, c, d = p
    if min(math.dist(a, b), math.dist(c, d), math.dist(a, d)) < 5:
        return
    run = curves.bezier(a, b, c, d)
    t = np.linspace(0, 1, 4001)[:, None]
    truth = (
        (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * np.array(b) + 3 * (1 - t) * t**2 * np.array(c) + t**3 * np.array(d)
    )
    assert off(walked(a, run), truth) < 0.02
    assert run[-1].end == pytest.approx(d)


def test_a_straight_cubic_is_one_line() -> None:
    assert curves.bezier((0, 0), (1, 1), (2, 2), (9, 9)) == (Edge((9, 9)),)


def natural(points: list[Vec2]) -> np.ndarray:
    """The natural spline by its second derivatives, solved as one full matrix: another way to the same curve."""
    p = np.array(points, dtype=float)
    h = np.hypot(*np.diff(p, axis=0).T)
    n = len(p)
    m, r = np.zeros((n, n)), np.zeros((n, 2))
    m[0, 0] = m[-1, -1] = 1
    for k in range(1, n - 1):
        m[k, k - 1 : k + 2] = h[k - 1], 2 * (h[k - 1] + h[k]), h[k]
        r[k] = 6 * ((p[k + 1] - p[k]) / h[k] - (p[k] - p[k - 1]) / h[k - 1])
    bend = np.linalg.solve(m, r)
    out = []
    for k in range(n - 1):
        s = np.linspace(0, h[k], 500)[(1 if k else 0) :, None]
        u = h[k] - s
        out.append(
            (bend[k] * u**3 + bend[k + 1] * s**3) / (6 * h[k])
            + (p[k] / h[k] - bend[k] * h[k] / 6) * u
            + (p[k + 1] / h[k] - bend[k + 1] * h[k] / 6) * s
        )
    return np.concatenate(out)


PINS: list[Vec2] = [(0, 40), (80, 12), (200, 30), (310, 5), (400, 40)]


def test_batten_is_the_natural_spline_through_its_pins() -> None:
    run = curves.batten(PINS)
    points = walked(PINS[0], run)
    assert off(points, natural(PINS)) < curves.TOLERANCE + 1e-3
    for pin in PINS:
        assert min(math.dist(pin, q) for q in [PINS[0], *(e.end for e in run)]) < 1e-9
    assert corners(PINS[0], run) < 0.5


def test_batten_through_a_straight_row_is_straight() -> None:
    assert all(e.centre is None for e in curves.batten([(0, 0), (10, 10), (30, 30)]))


def test_batten_refuses_a_doubled_pin() -> None:
    with pytest.raises(ValueError, match="one"):
        curves.batten([(0, 0), (10, 0), (10, 0)])


def test_biarc_leaves_and_arrives_along_its_tangents() -> None:
    run = curves.biarc((0, 0), (0, 1), (100, 0), (0, -1))
    assert run is not None
    outline = Outline((*run, Edge((0, 0))))
    assert [math.dist(s, e.centre) for s, e in pieces(outline) if e.centre] == pytest.approx([50, 50])
