"""The small pictures beside the joinery details fill no more room than they say."""

from __future__ import annotations

import pytest

from docgen.drawing.records import Arc, Line
from docgen.schedules.planes import Plane
from docgen.sheets.key_view import key_view
from tests.support.printed import context

EPS = 1e-6
PLANES = [
    Plane((0, 0, 0), (0, 0, 1), (1, 0, 0), (0, 0), (1, 1), (), (), (), 1),
    Plane((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0), (1, 1), (), (), (), 1),
]


@pytest.mark.parametrize("plane", [None, *PLANES])
@pytest.mark.parametrize("spot", [(0.0, 0.0, 0.0), (900.0, 280.0, 1800.0), (450.0, 140.0, 900.0)])
def test_a_ring_at_a_corner_lies_in_the_room_that_is_told(
    plane: Plane | None, spot: tuple[float, float, float]
) -> None:
    records, (x0, y0, x1, y1) = key_view(context("bookcase", "a4"), plane, spot, "MM")
    rings = [r for r in records if isinstance(r, Arc) and (r.start, r.end) == (0, 360)]
    assert len(rings) == 1
    for ring in rings:
        (x, y), r = ring.centre, ring.radius
        assert x0 - EPS <= x - r
        assert x + r <= x1 + EPS
        assert y0 - EPS <= y - r
        assert y + r <= y1 + EPS
    for line in (r for r in records if isinstance(r, Line)):
        assert all(x0 - EPS <= p[0] <= x1 + EPS and y0 - EPS <= p[1] <= y1 + EPS for p in (line.a, line.b))
