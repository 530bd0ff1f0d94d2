"""The beam formulas against a second method: the bending line integrated step by step, twice, from the moments."""

from itertools import pairwise

import pytest

from docgen.trade import beams

STEPS = 4000


def integrated(span: float, stiffness: float, moment_at: list[float]) -> float:
    """Return the sag at mid-span of a beam on two supports, from the moments at equal steps (trapezoids).

    y'' = −M / (E · I); both ends stay where they are, so that the first slope follows from the last height.
    """
    step = span / (len(moment_at) - 1)
    slope, height = [0.0], [0.0]
    for a, b in pairwise(moment_at):
        slope.append(slope[-1] - (a + b) / 2 * step / stiffness)
        height.append(height[-1] + (slope[-2] + slope[-1]) / 2 * step)
    first = -height[-1] / span
    middle = len(moment_at) // 2
    return height[middle] + first * span / 2


@pytest.mark.parametrize(
    ("load", "span", "wide", "thick", "modulus"),
    [(200.0, 900.0, 250.0, 20.0, 10273.0), (445.0, 914.4, 304.8, 19.05, 8000.0), (60.0, 468.0, 300.0, 6.0, 10000.0)],
)
def test_the_sag_under_a_spread_load(load: float, span: float, wide: float, thick: float, modulus: float) -> None:
    inertia = beams.second_moment(wide, thick)
    at = [span * k / STEPS for k in range(STEPS + 1)]
    spread = [load / span * x * (span - x) / 2 for x in at]
    assert beams.sag_uniform(load, span, modulus, inertia) == pytest.approx(
        integrated(span, modulus * inertia, spread), rel=1e-6
    )


def test_the_second_moment_by_slices() -> None:
    """∫ y² dA over thin slices of a board 250 × 20."""
    slices = 20000
    step = 20.0 / slices
    total = sum((-10 + (k + 0.5) * step) ** 2 * 250 * step for k in range(slices))
    assert beams.second_moment(250, 20) == pytest.approx(total, rel=1e-8)
