"""Hardware in the piece taken apart and in the general views: where each screw goes, and what stands out of the wood."""

from __future__ import annotations

import math

import numpy as np
import pytest

from docgen.drawing.records import Line, Pen, Text
from docgen.drawing.views import bounds
from docgen.geometry.lines import VIEWS
from docgen.piece import loose
from docgen.sheets import exploded, exploded_metal
from docgen.sheets.parts_list import _depth
from docgen.sheets.views_words import words
from docgen.sheets.whole import Whole
from tests.sheets.test_joinery import context, pages, said
from tests.support.leaders import leaders


def test_bolts_of_unlike_places_keep_their_letters_and_like_screws_share_one() -> None:
    desk = exploded_metal.lots(context("sketching-desk"))
    assert [(lot.letter, lot.words.partition("×")[0]) for lot in desk] == [
        ("A", "4"),
        ("B", "2"),
        ("C", "4"),
        ("D", "2"),
    ]
    shelves = exploded_metal.lots(context("bookcase", "a4"))
    assert [(lot.letter, sum(f.count for f in lot.fasteners)) for lot in shelves] == [("A", 18), ("C", 25)]
    assert shelves[1].words.endswith("(C, D, E, F, G)")


@pytest.mark.parametrize("name", ["sketching-desk", "bookcase", "tool-tote", "settle", "side-table", "door-cabinet"])
def test_each_letter_stands_at_a_place_of_its_screws(name: str) -> None:
    """A leader of a letter ends on the axis of one of its screws, where the part that it holds was moved to."""
    of = context(name)
    (sheet,) = pages("exploded", name)
    made = exploded._scattered(of)
    at = {one.told: one.foot for one in leaders(sheet)}
    scale, origin = _placed(name)
    for lot in exploded_metal.lots(of):
        axes = [exploded_metal._axis(f, p, made.moves, scale) for f, p in exploded_metal._places(lot)]
        ends = [[np.array(VIEWS["axonometric"].flat(p)) * scale + origin for p in (a.start, a.end)] for a in axes]
        assert lot.letter in at
        assert min(_off(np.array(at[lot.letter]), *pair) for pair in ends) < 0.02


def _placed(name: str) -> tuple[float, np.ndarray]:  # type: ignore[type-arg]
    """Return scale and origin of the exploded view of an example, from two of its leaders' own geometry."""
    of = context(name)
    scattered = exploded._scattered(of)
    rough = exploded.draw(scattered.items, exploded.VIEW, merge=scattered.extent * exploded.FINE, hidden=False)
    ends = [bounds(rough), *(exploded.point_bounds((w.a, w.b)) for w in exploded._ways(scattered))]
    extent = exploded.around(ends)
    layout = exploded._better(of, extent)
    tall = exploded._list(of, layout.area)[1]
    scale, at = exploded._placed(extent, exploded._room(layout.area, tall))
    return scale, np.array(at)


def _off(p: np.ndarray, a: np.ndarray, b: np.ndarray) -> float:  # type: ignore[type-arg]
    along = (b - a) / np.linalg.norm(b - a)
    return float(abs(along[0] * (p - a)[1] - along[1] * (p - a)[0]))


def test_a_screw_is_drawn_head_first_out_of_its_hole() -> None:
    """The heads of the tote's screws stand outside of its front, square to the axis."""
    (sheet,) = pages("exploded", "tool-tote")
    wide = [r for r in sheet.records if isinstance(r, Line) and r.pen is Pen.VISIBLE]
    heads = [r for r in wide if abs(math.dist(r.a, r.b) - exploded_metal.HEAD) < 1e-6]
    assert heads
    for head in heads:
        middle = ((head.a[0] + head.b[0]) / 2, (head.a[1] + head.b[1]) / 2)
        shank = next(r for r in wide if math.dist(r.a, middle) < 1e-6)
        assert math.dist(shank.a, shank.b) == pytest.approx(exploded_metal.SHANK)
        across = (head.b[0] - head.a[0]) * (shank.b[0] - shank.a[0]) + (head.b[1] - head.a[1]) * (
            shank.b[1] - shank.a[1]
        )
        assert abs(across) < 1e-6


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("door-cabinet", "4× butt hinge, brass"),
        ("dovetailed-box", "2× butt hinge, brass"),
        ("sketching-desk", "pair of drawer slides"),
    ],
)
def test_hinges_and_slides_are_drawn_and_named(name: str, told: str) -> None:
    of = context(name)
    made = exploded._scattered(of)
    assert told in said(pages("exploded", name))
    homes = {home for _, home in loose.metal(of.piece)}
    assert len(made.items) == len(of.piece.parts) + len(loose.every(of.piece)) + len(loose.metal(of.piece))
    assert homes <= set(made.moves)


def test_every_letter_of_the_list_stands_in_the_picture_or_is_told_hidden() -> None:
    for name in ("map-case", "seed-chest", "tool-tote"):
        (sheet,) = pages("exploded", name, "a4")
        hidden = next((r.text for r in sheet.records if isinstance(r, Text) and r.text.startswith("hidden")), "")
        shown = {one.told for one in leaders(sheet)}
        for letter, _ in exploded._listed(context(name, "a4")):
            assert letter in shown or letter in hidden.partition(":")[2]


@pytest.mark.parametrize(
    ("name", "view", "told"),
    [
        ("map-case", "front", ["without butt hinges: they stand out 5 on the left"]),
        ("map-case", "right", []),
        ("dovetailed-box", "right", ["without butt hinges: they stand out 11⁄64 behind"]),
        ("door-cabinet", "right", ["without butt hinges: they stand out 7 in front"]),
        ("wall-shelf", "front", []),
    ],
)
def test_what_stands_out_of_the_sizes_over_all_is_told(name: str, view: str, told: list[str]) -> None:
    of = context(name)
    assert [line for line in words(Whole(of.piece, of.solids), view) if "without" in line] == told


def test_the_knuckles_of_a_hinge_are_drawn_in_the_general_views() -> None:
    of = context("dovetailed-box")
    whole = Whole(of.piece, of.solids)
    box = bounds(whole.drawn("right", 0.5))
    assert box[2] - box[0] > whole.size(1) + 3.0


def test_columns_are_filled_by_height() -> None:
    assert _depth([2.0, 2.0, 2.0, 2.0], 2) == 4.0
    assert _depth([1.0, 1.0, 1.0, 3.0, 3.0], 2) == 6.0
    assert _depth([5.0], 3) == 5.0
    assert _depth([], 3) == 0.0


@pytest.mark.parametrize("paper", ["letter", "a4", "letter-landscape", "a3"])
def test_screws_from_below_are_shown_where_they_come_out(paper: str) -> None:
    """A drawer's bottom went to the front, off the back that its screws go up into: their heads are hidden beneath it."""
    (sheet,) = pages("exploded", "seed-chest", paper)
    assert not [r.text for r in sheet.records if isinstance(r, Text) and r.text.startswith("hidden")]


def test_of_an_axis_whose_part_went_aside_only_the_bit_at_its_mouth_is_shown() -> None:
    """A bit that looks over the edge of something else before it comes from nowhere."""
    mouth, out = (0.0, 0.0, 0.0), (0.0, 0.0, 5.0)
    aside = exploded_metal.Axis((0.0, 0.0, -9.0), mouth, (0.0, 0.0, 20.0), out)
    (_, y), (_, top) = (exploded_metal.VIEW.flat(p) for p in (out, aside.end))
    near, far = ((0.0, y), (0.0, y + 3.0)), ((0.0, top - 3.0), (0.0, top))
    assert exploded_metal._telling([near, far], aside, 1.0) == [near]
    into = exploded_metal.Axis(aside.start, mouth, aside.end)
    assert exploded_metal._telling([near, far], into, 1.0) == [near, far]
