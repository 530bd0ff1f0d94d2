import math

import numpy as np
import pytest

from docgen.geometry.make import box, cylinder
from docgen.geometry.solids import blank, cut
from docgen.geometry.topology import SHARP, SMOOTH, TANGENT, topology
from tests.support.recipes import DADOED, HOLED, KNOB, RECIPES, ROUNDED, round_over


def test_a_box_has_six_faces_and_twelve_edges() -> None:
    t = topology(blank((0, 0, 0), (60, 40, 20)))
    assert (len(t.normals), len(t.edges)) == (6, 12)
    assert set(t.edge_kind) == {SHARP}
    assert sorted(t.face_area) == pytest.approx([800, 800, 1200, 1200, 2400, 2400])
    assert [len(r) for f in range(6) for r in t.rings(f)] == [4] * 6


def test_trenches_of_one_depth_share_their_floor() -> None:
    floor = [box((50.0, -1.0, 12.0), (70.0, 201.0, 21.0)), box((-1.0, 90.0, 12.0), (301.0, 110.0, 21.0))]
    t = topology(cut(blank((0, 0, 0), (300, 200, 20)), floor))
    lies = np.flatnonzero((t.normals[:, 2] > 0.99) & (t.face_area > 0))
    heights = [t.points[t.triangles[t.triangle_face == f][0, 0], 2] for f in lies]
    assert sorted(heights) == [12, 20, 20, 20, 20]
    (floor_face,) = [f for f, z in zip(lies, heights, strict=True) if z == 12]
    assert t.area(floor_face) == pytest.approx(20 * 200 + 20 * 300 - 400)


def test_the_rings_of_a_drilled_face_are_an_outside_and_a_hole() -> None:
    t = topology(cut(blank((0, 0, 0), (60, 40, 20)), [cylinder((30.0, 20.0, 20.0), (0, 0, -1), 8.0, 30.0)]))
    face = int(np.argmax(t.normals[:, 2]))
    outside, hole = sorted(t.rings(face), key=len)
    assert (len(outside), len(hole)) == (4, 96)
    assert {(c.radius, c.centre[:2]) for c in t.circles} == {(8.0, (30.0, 20.0))}
    assert sorted(c.centre[2] for c in t.circles) == [0, 20]
    turns = [np.cross(r, np.roll(r, -1, axis=0))[:, 2].sum() > 0 for r in (outside, hole)]
    assert turns == [True, False]  # wood lies on the left of both


def test_a_round_over_meets_its_faces_without_a_line() -> None:
    t = topology(ROUNDED.solid())
    assert (t.edge_kind == TANGENT).sum() >= 4
    ends = t.points[t.edges[t.edge_kind == TANGENT]]
    places = {(round(float(y), 3), round(float(z), 3)) for y, z in ends[:, :, 1:].reshape(-1, 2)}
    assert places == {(112.0, 25.0), (120.0, 17.0), (12.0, 25.0), (0.0, 13.0)}


def test_a_round_over_set_too_deep_leaves_a_line() -> None:
    """A bit 0.5 mm too low leaves a fillet's step: the cut is no longer tangent to the top."""
    t = topology(cut(blank((0, 0, 0), (400, 120, 25)), [round_over(0, (120.0, 24.5), (1, 1), 8.0, 400.0)]))
    top = (np.abs(t.points[t.edges][:, :, 2] - 24.5) < 1e-6).all(axis=1)
    assert (t.edge_kind[top] == SHARP).any()


@pytest.mark.parametrize("name", sorted(RECIPES))
def test_every_edge_has_two_faces_and_faces_close_the_solid(name: str) -> None:
    solid = RECIPES[name].solid()
    t = topology(solid)
    assert (t.edge_faces[:, 0] != t.edge_faces[:, 1]).all()
    assert t.face_area.sum() == pytest.approx(solid.area, rel=1e-9)
    assert (t.normals * t.face_area[:, None]).sum(axis=0) == pytest.approx([0, 0, 0], abs=1e-3)
    across = np.einsum("ij,ij->i", *(t.normals[t.edge_faces[:, k]] for k in (0, 1)))
    assert (across[t.edge_kind == SMOOTH] > math.cos(math.radians(15))).all()


def test_the_true_circles_pass_through_their_edges() -> None:
    for recipe in (HOLED, DADOED, KNOB):
        t = topology(recipe.solid())
        on = np.flatnonzero(t.edge_circle >= 0)
        assert len(on)
        for e in on:
            circle = t.circles[t.edge_circle[e]]
            for p in t.points[t.edges[e]]:
                rel = p - np.array(circle.centre)
                assert abs(rel @ np.array(circle.axis)) < 1e-3
                assert np.linalg.norm(rel) == pytest.approx(circle.radius, abs=0.012)


def test_topology_does_not_depend_on_what_was_made_before() -> None:
    """The kernel numbers shapes as they come; nothing of that may be seen."""
    first = topology(cut(blank((0, 0, 0), HOLED.size), HOLED.cuts))
    for _ in range(3):
        blank((0, 0, 0), (1, 1, 1))
    second = topology(cut(blank((0, 0, 0), HOLED.size), HOLED.cuts))
    for name in ("points", "triangles", "triangle_face", "edges", "edge_faces", "edge_kind", "edge_curve"):
        assert np.array_equal(getattr(first, name), getattr(second, name)), name
    assert first.circles == second.circles
