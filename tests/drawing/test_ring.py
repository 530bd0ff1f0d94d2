"""What of a drawing lies inside the ring of a detail."""

import math

import pytest

from docgen.drawing.records import Arc, Line, Path, Pen, Text
from docgen.drawing.ring import ring, within


def test_a_line_is_cut_where_it_leaves_the_ring() -> None:
    (cut,) = within([Line((-20.0, 3.0), (20.0, 3.0), Pen.HIDDEN)], (0.0, 0.0), 5.0)
    assert isinstance(cut, Line)
    assert cut.pen is Pen.HIDDEN
    assert (cut.a, cut.b) == (pytest.approx((-4.0, 3.0)), pytest.approx((4.0, 3.0)))


def test_what_lies_inside_stays_and_what_lies_outside_goes() -> None:
    inside = Line((-1.0, 0.0), (1.0, 0.0))
    outside = [Line((6.0, -9.0), (6.0, 9.0)), Line((-9.0, 0.0), (-6.0, 0.0)), Arc((20.0, 0.0), 3.0, 0.0, 360.0)]
    around = Arc((0.0, 0.0), 9.0, 0.0, 360.0)
    assert within([inside, *outside, around, Text((0.0, 0.0), "7")], (0.0, 0.0), 5.0) == [inside]


def test_a_path_is_cut_into_the_runs_that_lie_inside() -> None:
    path = Path(((-3.0, -9.0), (-3.0, 9.0), (3.0, 9.0), (3.0, -9.0)), Pen.THIN, closed=True)
    runs = within([path], (0.0, 0.0), 5.0)
    assert [r.points for r in runs if isinstance(r, Path)] == [
        (pytest.approx((-3.0, -4.0)), pytest.approx((-3.0, 4.0))),
        (pytest.approx((3.0, 4.0)), pytest.approx((3.0, -4.0))),
    ]
    whole = Path(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), closed=True)
    assert within([whole], (0.0, 0.0), 5.0) == [whole]


@pytest.mark.parametrize(("start", "end"), [(0.0, 360.0), (90.0, 450.0), (-30.0, 200.0)])
def test_an_arc_is_cut_at_the_ring_and_stays_an_arc(start: float, end: float) -> None:
    arc = Arc((5.0, 0.0), 5.0, start, end)
    cut = within([arc], (0.0, 0.0), 5.0)
    ends = sorted(round(d % 360, 6) for r in cut if isinstance(r, Arc) for d in (r.start, r.end))
    within_ring = {"whole": [120.0, 240.0], "part": [120.0, 200.0]}
    assert sorted(dict.fromkeys(ends)) in ([120.0, 240.0], [90.0, 120.0, 240.0], within_ring["part"])
    for r in cut:
        assert isinstance(r, Arc)
        for t in (r.start, (r.start + r.end) / 2, r.end):
            p = (5.0 + 5.0 * math.cos(math.radians(t)), 5.0 * math.sin(math.radians(t)))
            assert math.hypot(*p) <= 5.0 + 1e-6


def test_the_ring_is_a_thin_circle() -> None:
    assert ring((1.0, 2.0), 3.0) == Arc((1.0, 2.0), 3.0, 0.0, 360.0, Pen.THIN)
