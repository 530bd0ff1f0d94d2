import pytest

from docgen.geometry.make import box, cylinder
from docgen.geometry.reach import box_corners, corners, shared
from docgen.geometry.shapes import Frame, HalfSpace, Outline, Revolution, turned
from docgen.geometry.solids import blank, made


@pytest.mark.parametrize(
    "shape",
    [
        box((1.0, 2.0, 3.0), (11.0, 22.0, 33.0)),
        cylinder((5.0, 6.0, 7.0), (0.0, 1.0, 0.0), 4.0, 20.0),
        Revolution(Outline.polygon([(0.0, 0.0), (6.0, 0.0), (0.0, 9.0)]), Frame(origin=(3.0, 4.0, 5.0))),
    ],
)
def test_corners_hold_the_shape(shape: object) -> None:
    frame = turned(2, 30.0, (1.0, 2.0, 0.0))
    points = corners(shape, frame)  # type: ignore[arg-type]
    low, high = made(shape).moved(frame).bounds  # type: ignore[arg-type]
    assert (points.min(axis=0) <= [v + 1e-6 for v in low]).all()
    assert (points.max(axis=0) >= [v - 1e-6 for v in high]).all()


def test_a_half_space_has_no_corners() -> None:
    assert len(corners(HalfSpace((0, 0, 0), (1, 0, 0)), Frame())) == 0


def test_box_corners_are_placed() -> None:
    points = box_corners((0, 0, 0), (1, 2, 3), Frame(origin=(10.0, 0.0, 0.0)))
    assert points.min(axis=0).tolist() == [10, 0, 0] and points.max(axis=0).tolist() == [11, 2, 3]


def test_what_two_solids_share() -> None:
    a, b = blank((0, 0, 0), (20, 20, 20)), blank((15, 5, 5), (40, 10, 10))
    points = shared(a, b)
    assert points.min(axis=0).tolist() == [15, 5, 5] and points.max(axis=0).tolist() == [20, 10, 10]
    assert len(shared(a, blank((20, 0, 0), (40, 20, 20)))) == 0  # they only touch
