import math

from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.tiling.hatch import hatch
from docgen.geometry.shapes import Edge, Outline


def test_lines_lie_within_and_cover_the_area() -> None:
    lines = hatch((Outline.rectangle(0, 0, 60, 40),), spacing=2.0)
    for line in lines:
        for x, y in (line.a, line.b):
            assert -1e-9 <= x <= 60 + 1e-9
            assert -1e-9 <= y <= 40 + 1e-9
    # Length × spacing is the area, but for what is lost at corners.
    assert abs(sum(math.dist(a.a, a.b) for a in lines) * 2.0 - 2400) < 0.02 * 2400


def test_holes_stay_free() -> None:
    lines = hatch((Outline.rectangle(0, 0, 60, 40), Outline.circle((30, 20), 10)), spacing=1.0)
    for line in lines:
        for t in (0.01, 0.3, 0.5, 0.7, 0.99):
            x, y = (a + t * (b - a) for a, b in zip(line.a, line.b, strict=True))
            assert math.hypot(x - 30, y - 20) > 9.99
    assert abs(sum(math.dist(a.a, a.b) for a in lines) - (2400 - math.pi * 100)) < 40


def test_ends_lie_on_the_arc() -> None:
    quarter = Outline((Edge((20.0, 0.0)), Edge((0.0, 20.0), (0.0, 0.0), True), Edge((0.0, 0.0))))
    lines = hatch((quarter,), spacing=3.0, degrees=45.0)
    on_arc = [p for line in lines for p in (line.a, line.b) if min(p) > 1e-9]
    assert on_arc
    assert all(abs(math.hypot(*p) - 20) < 1e-9 for p in on_arc)


@settings(max_examples=40, deadline=None)
@given(st.floats(5, 200), st.floats(5, 200), st.floats(0, 179), st.floats(0.8, 6))
def test_any_rectangle_at_any_angle_is_covered_evenly(width, height, degrees, spacing) -> None:
    lines = hatch((Outline.rectangle(0, 0, width, height),), spacing, degrees)
    area = sum(math.dist(a.a, a.b) for a in lines) * spacing
    assert abs(area - width * height) <= spacing * (width + height) + 1e-6
