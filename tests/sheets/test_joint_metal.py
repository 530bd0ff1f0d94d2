"""Hardware in joinery sections: leaves black, barrel and slide hatched, told in the key where they are shown."""

from __future__ import annotations

import pytest

from docgen.drawing.hatching import Cut, pitches
from docgen.drawing.records import Area, Pen, Text
from docgen.sheets.joint_key import FOOT, LINE, Signs, key
from docgen.sheets.joint_metal import THIN, _area, drawn_metal, names, thickness
from tests.sheets.test_joinery import context, pages
from tests.sheets.test_joint_cut import cut_of


def test_thin_leaves_are_filled_and_the_barrel_is_hatched() -> None:
    cut = cut_of("door-cabinet", "hinge")
    assert [metal.thing.what for metal in cut.metal] == ["barrel", "leaf", "leaf"]
    made = drawn_metal(cut, 1.0, (0.0, 0.0))
    assert len(made.filled) == len(made.about) == 2 and made.hatch and made.edges
    large = drawn_metal(cut, 2.0, (0.0, 0.0))  # 3 mm thick on paper
    assert not large.filled and len(large.edges) > len(made.edges)


def test_a_leaf_gives_way_to_the_barrel() -> None:
    """The leaf goes 14 mm from the pin's middle, 1.5 mm thick; some of it lies within the barrel of 6 mm."""
    cut = cut_of("door-cabinet", "hinge")
    for metal in cut.metal[1:]:
        (piece,) = metal.shown
        assert 11.0 * 1.5 < abs(_area(piece.rings[0])) < 13.0 * 1.5
        assert 1.0 < thickness(piece) < THIN


def test_the_whole_slide_is_shown() -> None:
    cut = cut_of("sketching-desk", "side slides")
    (slide,) = cut.metal
    assert not any(w.broken for w in slide.shown)
    high = [p[1] for w in slide.shown for ring in w.rings for p in ring]
    assert max(high) - min(high) == pytest.approx(1.75 * 25.4)


def test_other_joints_of_the_same_parts_do_not_show_it() -> None:
    assert not cut_of("sketching-desk", "panel in groove").metal
    assert not cut_of("door-cabinet", "mortise and tenon").metal


def test_metal_is_closer_than_any_wood() -> None:
    assert max(pitches(Cut.METAL)) < min(sum(pitches(c)) / len(pitches(c)) for c in Cut if c is not Cut.METAL)


def test_the_key_tells_metal_where_it_is_shown_and_takes_a_second_line_where_one_is_too_short() -> None:
    of = context("door-cabinet")
    plain, metal = key(of, {Cut.END}), key(of, {Cut.END, Cut.METAL})
    assert "metal" not in [r.text for r in plain.records if isinstance(r, Text)]
    assert "metal" in [r.text for r in metal.records if isinstance(r, Text)]
    assert any(isinstance(r, Area) for r in metal.records)
    assert plain.tall == metal.tall == FOOT
    every = key(of, set(Cut))
    assert every.tall in (FOOT, FOOT + LINE)
    assert all(r.at[0] < of.layout.area.width and r.at[1] >= 0 for r in every.records if isinstance(r, Text))


def test_a_barrel_is_as_thick_as_it_is_wide() -> None:
    """A barrel of 5/32 in is no thin sheet: at true size it is hatched."""
    cut = cut_of("dovetailed-box", "hinge")
    barrel = next(metal for metal in cut.metal if metal.thing.what == "barrel")
    (piece,) = barrel.shown
    assert thickness(piece) == pytest.approx(0.886 * 25.4 * 5 / 32, rel=0.03)
    assert drawn_metal(cut, 1.0, (0.0, 0.0)).hatch


def test_of_a_slide_its_room_alone_is_drawn_and_it_has_its_name() -> None:
    """What is in a slide its maker's sheet tells: a bar of solid steel stood there."""
    made = drawn_metal(cut_of("sketching-desk", "side slides"), 1.0, (0.0, 0.0))
    assert made.edges and not made.hatch and not made.filled
    assert {edge.pen for edge in made.edges} == {Pen.PHANTOM}
    assert "slide" in [r.text for s in pages("joinery", "sketching-desk") for r in s.records if isinstance(r, Text)]


def test_sleeve_and_washer_of_a_pivot_are_drawn_about_its_bolt_and_named() -> None:
    cut = cut_of("sketching-desk", "pivot")
    assert [m.thing.what for m in cut.metal] == ["sleeve", "washer"]
    sleeve, washer = (m.shown for m in cut.metal)
    assert len(sleeve) == len(washer) == 2  # beside the bolt on both sides
    assert [thickness(w) for w in sleeve] == pytest.approx([25.4 / 16] * 2, rel=0.02)
    xs = [p[0] for w in sleeve for p in w.rings[0]]
    assert max(xs) - min(xs) == pytest.approx(1.25 * 25.4)  # as long as the cheek is thick
    words = [r.text for s in pages("joinery", "sketching-desk") for r in s.records if isinstance(r, Text)]
    assert "sleeve" in words and "washer" in words
    assert [c.lines for c in names(cut)] == [("sleeve",), ("washer",)]


def test_the_key_tells_signs_where_they_stand() -> None:
    of = context("door-cabinet")
    words = [r.text for r in key(of, {Cut.END}, Signs(others=False)).records if isinstance(r, Text)]
    assert words == ["end grain", "long grain"]
    words = [r.text for r in key(of, {Cut.END}, Signs(True, True, True)).records if isinstance(r, Text)]
    assert {"another part", "( ) follows from others", "turned on paper"} <= set(words)
