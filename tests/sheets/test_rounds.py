"""What is turned or cut round has its centre lines where it is seen as a circle."""

import pytest

from docgen.drawing.records import Line, Pen
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Setting
from tests.sheets.test_part_sheets import METRICS, subjects


def crosses(name: str, path: str, axis: int) -> list[tuple[float, float]]:
    """Return the lengths of pairs of lines that cross at their middles in the views that look along an axis, in mm at 1 : 1."""
    subject = next(s for s in subjects(name, "a4") if s.part.path == path)
    faces = tuple(f for f in subject.plan.faces if f.axis == axis)
    made = spread(subject.restricted(faces, ""), Setting((1, 1), 2.5, False), METRICS)
    assert made is not None
    lines = [r for r in made.records if isinstance(r, Line) and r.pen is Pen.CENTRE]
    middles = [tuple(round((p + q) / 2, 2) for p, q in zip(r.a, r.b, strict=True)) for r in lines]
    long = [abs(r.b[0] - r.a[0]) + abs(r.b[1] - r.a[1]) for r in lines]
    return [(long[i], long[j]) for i, m in enumerate(middles) for j in range(i) if middles[j] == m]


@pytest.mark.parametrize(
    ("name", "path", "axis", "diameter"),
    [
        ("tool-tote", "handle", 0, 31.75),
        ("splayed-stool", "front left leg", 0, 38.0),
        ("splayed-stool", "seat", 2, 330.0),
    ],
)
def test_a_circle_has_one_cross_a_little_wider_than_itself(name: str, path: str, axis: int, diameter: float) -> None:
    found = [c for c in crosses(name, path, axis) if c[0] > 0.9 * diameter]
    assert len(found) == 1
    assert found[0] == pytest.approx((diameter + 6.0, diameter + 6.0))


@pytest.mark.parametrize("upright", [True, False])
@pytest.mark.parametrize(("name", "path"), [("tool-tote", "handle"), ("splayed-stool", "front left leg")])
def test_what_is_turned_has_its_axis_in_the_view_from_the_side(name: str, path: str, upright: bool) -> None:
    subject = next(s for s in subjects(name, "a4") if s.part.path == path)
    faces = tuple(f for f in subject.plan.faces if f.axis != 0)
    made = spread(subject.restricted(faces, ""), Setting((1, 5), 2.5, upright), METRICS)
    assert made is not None
    along = 1 if upright else 0
    long = float(subject.part.span(0)[1] - subject.part.span(0)[0]) / 5
    axes = [
        r
        for r in made.records
        if isinstance(r, Line) and r.pen is Pen.CENTRE and abs(r.b[along] - r.a[along]) == pytest.approx(long + 6.0)
    ]
    assert len(axes) == len(faces)
