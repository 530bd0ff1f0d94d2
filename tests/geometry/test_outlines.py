import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry import outlines
from docgen.geometry.make import stadium
from docgen.geometry.shapes import Edge, Outline

SLOT = stadium((0.0, 0.0), (30.0, 40.0), 6.0)
CORNER = Outline((Edge((20.0, 0.0)), Edge((20.0, 10.0)), Edge((10.0, 20.0), (10.0, 10.0)), Edge((0.0, 20.0)), Edge((0.0, 0.0))))  # fmt: skip


def test_a_slot_has_the_area_and_length_of_its_parts() -> None:
    assert outlines.signed_area(SLOT) == pytest.approx(50 * 12 + math.pi * 36)
    assert outlines.length(SLOT) == pytest.approx(100 + math.tau * 6)


def test_a_rounded_corner_loses_what_the_round_over_takes() -> None:
    assert outlines.area(CORNER) == pytest.approx(400 - (1 - math.pi / 4) * 100)


@pytest.mark.parametrize("radius", [0.5, 2.0, 3.2, 12.0, 150.0, 2000.0])
def test_a_full_circle_is_flattened_by_sag_in_a_multiple_of_four(radius: float) -> None:
    points = outlines.flatten(Outline.circle((5.0, 7.0), radius))
    assert len(points) >= 96
    assert len(points) % 4 == 0
    assert radius * (1 - math.cos(math.pi / len(points))) <= outlines.SAG
    assert max(abs(math.dist(p, (5.0, 7.0)) - radius) for p in points) < 1e-9


def test_an_arc_keeps_its_extremes_when_flattened() -> None:
    arc = Outline((Edge((-3.0, 4.0), (0.0, 0.0)), Edge((3.0, 4.0))))
    assert max(p[1] for p in outlines.flatten(arc)) == 5.0
    assert outlines.bounds(arc) == ((-3.0, 4.0), (3.0, 5.0))


def test_bounds_of_a_circle_that_starts_anywhere() -> None:
    for start in ((3.0, 4.0), (5.0, 0.0), (0.0, -5.0), (5 * math.cos(1e-10), 5 * math.sin(1e-10))):
        for ccw in (True, False):
            low, high = outlines.bounds(Outline((Edge(start, (0.0, 0.0), ccw),)))
            assert low == pytest.approx((-5, -5))
            assert high == pytest.approx((5, 5))


def test_a_small_arc_is_never_coarser_than_24_to_the_round() -> None:
    quarter = Edge((0.0, 0.02), (0.0, 0.0))  # by its sag alone, half the radius, three chords would do for the round
    assert len(outlines.flatten_edge((0.02, 0.0), quarter)) == 6


@given(st.floats(0, 500), st.booleans())
@settings(max_examples=30, deadline=None)
def test_a_point_along_an_outline_lies_on_it(run: float, clockwise: bool) -> None:
    outline = outlines.backward(SLOT) if clockwise else SLOT
    point, direction = outlines.point_at(outline, run)
    assert math.hypot(*direction) == pytest.approx(1)
    ahead, _ = outlines.point_at(outline, run + 1e-4)
    assert ((ahead[0] - point[0]) * direction[0] + (ahead[1] - point[1]) * direction[1]) == pytest.approx(
        1e-4, rel=1e-3
    )
    assert abs(outlines.contains(SLOT, point, -0.02)) == 1
    assert not outlines.contains(SLOT, point, 0.02)


@given(st.floats(-50, 50), st.sampled_from([0, 1]))
@settings(max_examples=30, deadline=None)
def test_moving_and_mirroring_keep_area_and_sense(shift: float, axis: int) -> None:
    for made in (
        outlines.moved(CORNER, shift, -shift),
        outlines.mirrored(CORNER, axis, shift),
    ):
        assert outlines.valid(made)
        assert outlines.signed_area(made) == pytest.approx(outlines.signed_area(CORNER))
        assert outlines.length(made) == pytest.approx(outlines.length(CORNER))


def test_mirroring_moves_the_round_corner_to_the_other_side() -> None:
    made = outlines.mirrored(CORNER, 0, 10.0)
    assert not outlines.contains(made, (0.5, 19.5))
    assert outlines.contains(made, (19.5, 19.5))
    assert outlines.contains(CORNER, (0.5, 19.5))


@pytest.mark.parametrize(
    ("outline", "word"),
    [
        (Outline.polygon([(0, 0), (10, 10), (10, 0), (0, 10)]), "no area"),
        (Outline.polygon([(0, 0), (10, 10), (10, 0), (0, 12)]), "crosses itself"),
        (Outline.polygon([(0, 0), (5, 0), (9, 0)]), "no area"),
        (Outline((Edge((10.0, 0.0)), Edge((0.0, 12.0), (0.0, 0.0)), Edge((0.0, 0.0)))), "misses its end by 2.0"),
        (Outline.polygon([(0, 0), (5, 0), (5, 0), (0, 5)]), "no length"),
        (Outline(()), "no edges"),
    ],
)
def test_a_faulty_outline_is_told(outline: Outline, word: str) -> None:
    assert any(word in f for f in outlines.faults(outline))


def test_offsets_grow_and_shrink() -> None:
    (grown,) = outlines.offset(Outline.rectangle(0, 0, 20, 10), 2.0)
    assert outlines.area(grown) == pytest.approx(200 + 60 * 2 + math.pi * 4, rel=1e-3)
    (shrunk,) = outlines.offset(Outline.rectangle(0, 0, 20, 10), -2.0)
    assert outlines.area(shrunk) == pytest.approx(16 * 6)
    assert outlines.offset(Outline.rectangle(0, 0, 20, 10), -5.5) == ()


def test_holes_are_found_in_their_outlines() -> None:
    plate, hole = Outline.rectangle(0, 0, 100, 50), Outline.circle((20.0, 20.0), 8.0)
    plug, apart = Outline.circle((20.0, 20.0), 4.0), Outline.rectangle(200, 0, 210, 10)
    assert outlines.nested([hole, plug, apart, plate]) == ((plate, (hole,)), (apart, ()), (plug, ()))
