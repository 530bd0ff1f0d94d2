import math
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.geometry import culling
from docgen.geometry.hidden import VIEWS, Drawn, Stroke, View, draw
from docgen.geometry.make import box, cross, cylinder, frame_along, unit
from docgen.geometry.scene import candidates, contours, gather
from docgen.geometry.scene import lines as scene_lines
from docgen.geometry.shapes import Edge, Extrusion, Frame, Outline, turned
from docgen.geometry.solids import blank, cut
from docgen.geometry.topology import topology
from docgen.geometry.visibility import stretches
from tests.support.recipes import DADOED, HOLED, RECIPES, ROUNDED, stand
from tests.support.referee import inked, polylines, strays

CUBE = topology(blank((0, 0, 0), (40, 40, 40)))
PLATE = topology(blank((0, 0, 0), (100, 20, 60)))
HERE = Frame()


def lines(strokes: tuple[Stroke, ...]) -> set[tuple[float, float, float, float]]:
    return {(round(s.a[0], 3), round(s.a[1], 3), round(s.b[0], 3), round(s.b[1], 3)) for s in strokes}


def at(x: float, y: float, z: float) -> Frame:
    return Frame(origin=(x, y, z))


def oblique() -> View:
    toward = unit((0.35, -0.8, 0.5))
    right = unit(cross((0, 0, 1), toward))
    return View(right, cross(toward, right))


def test_a_box_from_the_front_is_a_rectangle_and_nothing_hidden() -> None:
    d = draw([(PLATE, HERE)], VIEWS["front"])
    assert lines(d.visible) == {(0, 0, 100, 0), (0, 0, 0, 60), (0, 60, 100, 60), (100, 0, 100, 60)}
    assert d.hidden == ()


def test_a_box_in_the_axonometric_view_shows_nine_edges_and_hides_three() -> None:
    d = draw([(CUBE, HERE)], VIEWS["axonometric"])
    assert (len(d.visible), len(d.hidden)) == (9, 3)
    for s in d.visible + d.hidden:
        assert math.dist(s.a, s.b) == pytest.approx(40 * math.sqrt(2 / 3))


@pytest.mark.parametrize("name", sorted(VIEWS))
def test_views_are_square_and_shown_from_their_side(name: str) -> None:
    view = VIEWS[name]
    for v in (view.right, view.up, view.toward):
        assert math.hypot(*v) == pytest.approx(1)
    assert sum(a * b for a, b in zip(view.right, view.up, strict=True)) == pytest.approx(0)
    side = {"front": (1, -1), "back": (1, 1), "left": (0, -1), "right": (0, 1), "top": (2, 1), "bottom": (2, -1)}
    if name in side:
        axis, sign = side[name]
        assert view.toward[axis] == sign
    else:
        assert (view.toward[0] > 0, view.toward[1] < 0, view.toward[2] > 0) == (True, True, True)


def test_a_block_behind_a_plate_is_hidden_where_the_plate_covers_it() -> None:
    d = draw([(PLATE, HERE), (CUBE, at(80, 50, 10))], VIEWS["front"])
    assert (100, 10, 120, 10) in lines(d.visible)
    assert (80, 10, 100, 10) in lines(d.hidden)
    assert (80, 10, 80, 50) in lines(d.hidden)
    assert {s.owner for s in d.hidden} == {1}


def test_flush_parts_show_the_joint_between_them() -> None:
    d = draw([(CUBE, HERE), (CUBE, at(40, 0, 0))], VIEWS["front"])
    assert Counter(lines(d.visible))[(40, 0, 40, 40)] == 1
    assert not d.hidden


def test_a_shelf_in_its_dado_shows_its_tongue_hidden() -> None:
    side = topology(cut(blank((0, 0, 0), (18, 200, 300)), [box((12.0, -1.0, 100.0), (19.0, 190.0, 116.0))]))
    shelf = topology(blank((0, 0, 0), (300, 190, 16)))
    front = draw([(side, HERE), (shelf, at(12, 0, 100))], VIEWS["front"])
    assert (12, 100, 12, 116) in lines(front.visible)  # the through dado shows its end grain at the front
    back = draw([(side, HERE), (shelf, at(12, 0, 100))], VIEWS["back"])
    assert (-18, 100, -12, 100) in lines(back.hidden)  # stopped at the back: only dashed there


def test_a_hole_is_a_circle_seen_square_and_two_lines_seen_from_the_side() -> None:
    t = topology(cut(blank((0, 0, 0), (60, 40, 20)), [cylinder((30.0, 20.0, 20.0), (0, 0, -1), 8.0, 12.0)]))
    d = draw([(t, HERE)], VIEWS["top"])
    (circle,) = [s for s in d.visible if s.arc]
    assert circle.arc is not None
    assert (circle.arc.centre, circle.arc.radius) == ((30.0, 20.0), 8.0)
    assert (circle.arc.start_deg, circle.arc.end_deg) == (0.0, 360.0)
    side = draw([(t, HERE)], VIEWS["front"])
    assert lines(side.hidden) == {(22, 8, 22, 20), (38, 8, 38, 20), (22, 8, 38, 8)}


def test_a_half_covered_circle_is_an_arc() -> None:
    t = topology(cut(blank((0, 0, 0), (60, 40, 20)), [cylinder((30.0, 20.0, 20.0), (0, 0, -1), 8.0, 30.0)]))
    d = draw([(t, HERE), (CUBE, at(30, -10, 30))], VIEWS["top"])
    (seen,) = [s.arc for s in d.visible if s.arc]
    (dashed,) = [s.arc for s in d.hidden if s.arc]
    assert (seen.start_deg, seen.end_deg) == pytest.approx((90, 270))
    assert (dashed.start_deg, dashed.end_deg) == pytest.approx((270, 450))


def test_a_round_over_adds_no_line_where_it_runs_out() -> None:
    d = draw([(topology(ROUNDED.solid()), HERE)], VIEWS["top"])
    ys = {round(s.a[1], 3) for s in d.visible if abs(s.a[1] - s.b[1]) < 1e-6}
    assert ys >= {0, 120}
    assert not ys & {12, 112}  # the tangent lines of the two round-overs


def test_where_a_round_over_runs_out_is_drawn_where_that_is_asked_for() -> None:
    """Between two faces that are seen, as strokes of a kind of their own, under what is drawn without them."""
    items = [(topology(ROUNDED.solid()), HERE)]
    plain = draw(items, VIEWS["axonometric"], hidden=False)
    soft = draw(items, VIEWS["axonometric"], hidden=False, tangent=True)
    more = [s for s in soft.visible if s.kind == "tangent"]
    assert more and not any(s.kind == "tangent" for s in plain.visible)
    assert [replace(s, chain=-1) for s in soft.visible if s.kind != "tangent"] == [
        replace(s, chain=-1) for s in plain.visible
    ]
    wide = draw(items, VIEWS["axonometric"], merge=1000.0, hidden=False, tangent=True)
    assert len([s for s in wide.visible if s.kind == "tangent"]) < len(more)  # a line goes before


def test_an_ellipse_is_one_chain_in_order() -> None:
    t = topology(cut(blank((0, 0, 0), (60, 40, 20)), [cylinder((30.0, 20.0, 20.0), (0, 0, -1), 8.0, 12.0)]))
    d = draw([(t, HERE)], VIEWS["axonometric"])
    rims = [[s for s in d.visible if s.chain == k] for k in range(max(s.chain for s in d.visible) + 1)]
    assert max(len(rim) for rim in rims) == 96
    assert all(a.b == b.a for rim in rims for a, b in pairwise(rim))
    assert all(s.arc is None for s in d.visible + d.hidden)


def test_a_pen_wider_than_a_gap_draws_one_line() -> None:
    apart = [(CUBE, HERE), (CUBE, at(41, 0, 0))]
    assert {s.a[0] for s in draw(apart, VIEWS["front"]).visible if s.a[0] == s.b[0]} == {0, 40, 41, 81}
    merged = draw(apart, VIEWS["front"], merge=1.5)
    assert len([s for s in merged.visible if s.a[0] == s.b[0]]) == 3


def test_without_hidden_lines_the_visible_ones_are_the_same() -> None:
    items = [(topology(r.solid()), f) for r, f in stand()]
    for view in (VIEWS["front"], VIEWS["axonometric"]):
        assert draw(items, view, hidden=False) == Drawn(draw(items, view).visible, ())


def test_nothing_draws_nothing() -> None:
    assert draw([], VIEWS["front"]) == Drawn((), ())


def test_a_pierced_part_is_cut_where_the_other_goes_in() -> None:
    bar = topology(blank((0, 0, 0), (10, 200, 10)))
    d = draw([(PLATE, HERE), (bar, at(40, -100, 20))], VIEWS["top"])
    assert (40, -100, 40, 0) in lines(d.visible)
    assert (40, 0, 40, 20) in lines(d.hidden)
    slanted = draw([(PLATE, HERE), (bar, at(40, -100, 20))], oblique())
    seen = [s for s in slanted.visible if s.owner == 1]
    assert max(math.dist(s.a, s.b) for s in seen) < 110  # none of its edges is seen through the plate


@given(st.floats(5, 30), st.floats(0, 20), st.sampled_from([0.0, 0.003, 0.1]))
@settings(max_examples=12, deadline=None)
def test_the_outline_of_a_dowel_ends_at_the_board_that_it_fits_into(diameter: float, deep: float, room: float) -> None:
    """The dowel's outline only touches the rim of its hole, which no crossing on paper tells."""
    board = cut(blank((0, 0, 0), (20, 80, 80)), [cylinder((20, 40, 40), (-1, 0, 0), diameter / 2 + room, 20)])
    circle = Outline((Edge((diameter / 2, 0.0), (0.0, 0.0)),))
    waste = Extrusion(Outline.rectangle(-50, -50, 50, 50), frame_along((0, 40, 40), (1, 0, 0)), -1, 201, (circle,))
    dowel = topology(cut(blank((20 - deep, 0, 0), (200, 80, 80)), [waste]))
    seen = draw([(topology(board), HERE), (dowel, HERE)], VIEWS["axonometric"]).visible
    outline = sorted(math.dist(s.a, s.b) for s in seen if s.owner == 1 and s.kind == "smooth")[-2:]
    near = max(room, 0.02)  # where the outline lies this near to the rim, it is drawn as the rim
    assert outline == pytest.approx([180 * math.sqrt(2 / 3)] * 2, abs=2 * math.sqrt(diameter * near))


SHAPES = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 7), st.integers(0, 3), st.integers(1, 5), st.integers(1, 5)),
    max_size=3,
)


@given(SHAPES, st.sampled_from(sorted(VIEWS)), st.floats(-40, 40))
@settings(max_examples=25, deadline=None)
def test_each_candidate_is_drawn_once_from_end_to_end(cuts: list[tuple[int, ...]], name: str, lean: float) -> None:
    cutters = [box((10.0 * x, 10.0 * y, 10.0 * z), (10.0 * (x + a), 10.0 * (y + b), 41.0)) for x, y, z, a, b in cuts]
    shape = topology(cut(blank((0, 0, 0), (120, 90, 40)), cutters))
    scene = gather([(shape, turned(0, lean, (0, 0, 0))), (CUBE, at(30, -80, 10))], VIEWS[name])
    line = scene_lines(scene, hidden=True)
    found = candidates(scene, line)
    parts = stretches(scene, found, contours(scene, line))
    run = np.bincount(parts.edge, weights=np.linalg.norm(parts.ends[:, 1] - parts.ends[:, 0], axis=1))
    whole = scene.points[scene.edges[found.edge]]
    assert run[found.edge] == pytest.approx(np.linalg.norm(whole[:, 1] - whole[:, 0], axis=1))


@given(SHAPES, st.sampled_from(["front", "top", "axonometric"]))
@settings(max_examples=15, deadline=None)
def test_the_mirrored_part_seen_from_the_mirrored_side_is_the_mirrored_drawing(
    cuts: list[tuple[int, ...]], name: str
) -> None:
    cutters = [box((10.0 * x, 10.0 * y, 10.0 * z), (10.0 * (x + a), 10.0 * (y + b), 41.0)) for x, y, z, a, b in cuts]
    solid = cut(blank((0, 0, 0), (120, 90, 40)), cutters)
    view = VIEWS[name]
    # seen by a viewer who is reflected in the plane across = 0: right and up reflected, and the paper turned over
    flip = View((view.right[0], -view.right[1], -view.right[2]), (-view.up[0], view.up[1], view.up[2]))
    one = draw([(topology(solid), HERE)], view)
    two = draw([(topology(solid.mirrored(0)), HERE)], flip)
    for a, b in ((one.visible, two.visible), (one.hidden, two.hidden)):
        turned_over = [p * [-1, 1] for p in polylines(b)]
        assert len(strays(polylines(a), turned_over or [np.zeros((2, 2))], 0.005)) == 0
        assert len(strays(turned_over, polylines(a) or [np.zeros((2, 2))], 0.005)) == 0


@given(st.permutations(range(10)), st.sampled_from(["front", "right", "axonometric"]))
@settings(max_examples=10, deadline=None)
def test_the_order_of_the_items_does_not_matter(order: list[int], name: str) -> None:
    items = [(topology(r.solid()), f) for r, f in stand()]
    one, two = draw(items, VIEWS[name]), draw([items[k] for k in order], VIEWS[name])
    for a, b in ((one.visible, two.visible), (one.hidden, two.hidden)):
        assert inked(polylines(a)) == pytest.approx(inked(polylines(b)), abs=0.2)
        assert len(strays(polylines(a), polylines(b), 0.005)) == len(strays(polylines(b), polylines(a), 0.005)) == 0


def test_the_same_items_give_the_same_strokes() -> None:
    items = [(topology(r.solid()), at(0, 300.0 * k, 0)) for k, r in enumerate(RECIPES.values())]
    assert draw(items, VIEWS["axonometric"]) == draw(items, VIEWS["axonometric"])


@pytest.mark.parametrize("name", ["front", "axonometric"])
def test_what_is_culled_early_is_what_would_be_hidden_anyway(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    items = [(topology(r.solid()), f) for r, f in stand()]
    items += [(topology(r.solid()), at(700.0 * (k % 2), 300.0 * k, 0)) for k, r in enumerate((DADOED, HOLED, ROUNDED))]
    plain = draw(items, VIEWS[name])
    monkeypatch.setattr(culling, "FEW", 0)
    early = draw(items, VIEWS[name])
    assert len(early.hidden) > 30
    for a, b in ((plain.visible, early.visible), (plain.hidden, early.hidden)):
        assert len(strays(polylines(a), polylines(b), 0.005)) == len(strays(polylines(b), polylines(a), 0.005)) == 0


def test_strokes_keep_their_owner() -> None:
    d = draw([(CUBE, HERE), (CUBE, at(100, 0, 0))], VIEWS["top"])
    assert Counter(s.owner for s in d.visible) == {0: 4, 1: 4}
    assert all(replace(s, owner=0).a[0] >= 100 for s in d.visible if s.owner == 1)


@pytest.mark.parametrize(("gap", "hidden"), [(0.015, False), (0.03, True)])
def test_what_lies_a_fiftieth_of_a_millimetre_behind_is_hidden(gap: float, hidden: bool) -> None:
    """A shim on a block: a face less than 0.02 mm before another is taken to lie in it."""
    shim = topology(blank((0, 0, 0), (100, gap, 60)))
    block = topology(blank((20, gap, 20), (60, 10, 40)))
    d = draw([(shim, HERE), (block, HERE)], VIEWS["front"])
    edges = {(20, 20, 60, 20), (20, 40, 60, 40), (20, 20, 20, 40), (60, 20, 60, 40)}
    assert edges <= lines(d.hidden if hidden else d.visible)
    assert not edges & lines(d.visible if hidden else d.hidden)


@pytest.mark.parametrize("short", [-0.001, 0.0, 0.001])
def test_a_contour_that_ends_at_a_line_cuts_it_there(short: float) -> None:
    """A board before the middle of a plate whose upper edge ends in the plate's own, but for a micrometre."""
    board = topology(blank((30, -20, 0), (70, -10, 60 + short)))
    d = draw([(PLATE, HERE), (board, HERE)], VIEWS["front"])
    ends = {round(x) for s in d.visible for x in (s.a[0], s.b[0]) if min(s.a[1], s.b[1]) > 59}
    assert ends >= {0, 30, 70, 100}
