"""What has to be in hand or measured before which cut."""

import re
from fractions import Fraction

import pytest

from docgen.schedules.terms import kind_title
from tests.support.steps import example


def test_a_drawer_front_is_measured_between_what_stands_beside_its_edges() -> None:
    # 34 − 7/16 − 1/32 − 12 5/16 = 21 7/32: a gap at the right and at the top alone, flush with divider and bottom
    piece, lists = example("sketching-desk")
    front = next(h for h in lists.chain.holds if h.parts == ("drawer.front",))
    assert front.what == "the place of drawer front: divider, case right side, bottom, case top"
    assert front.moves == (
        "its length less 1/32 in at the right, its width less 1/32 in at the top; flush with divider at the left, with bottom at the "
        "bottom"
    )
    assert piece.part("drawer.front").size[0] == Fraction(254, 10) * (21 + Fraction(7, 32))


def test_what_goes_into_two_doors_is_measured_at_each() -> None:
    _, lists = example("door-cabinet")
    panes = [h for h in lists.chain.holds if h.parts and h.parts[0].endswith("door.pane")]
    assert [len(h.parts) for h in panes] == [1, 1]
    for hold, side in zip(panes, ("left", "right"), strict=True):
        assert hold.what.count(f"{side} door") == 5 and hold.before == f"ordering {side} door pane"
    assert (
        sum(row.hold and row.what.startswith("Measure the place of") for row in lists.work) == 7
    )  # back, 2 panes, 4 kinds of beads


def test_hinges_are_in_hand_before_their_recesses_are_cut() -> None:
    told = {h.what: h.before for h in example("dovetailed-box")[1].chain.holds}
    assert told["butt hinge, brass"] == "cutting the recess for a hinge; drilling A"
    assert told["wood screw, flat head, for hinges"] == "drilling A"


def test_what_a_screws_length_hangs_on_is_told_with_what_it_is_as_drawn() -> None:
    held = [h for h in example("sketching-desk")[1].chain.holds if "machine screw" in h.before]
    told = {h.what: h.figure for h in held}
    assert told == {"thickness of “case boards”, milled": "13/16 in", "thickness of “leg stock”, milled": "1 1/4 in"}
    assert all("cutting any joint of it; buying 1/4-20 UNC machine screw" in h.before for h in held)
    assert held[0].moves.endswith("; the length of what is bought")
    assert next(h for h in held if "leg" in h.what).moves.endswith(
        "; the lengths of what is bought"
    )  # the pivot bolt's too


@pytest.mark.parametrize("name", ["side-table", "bookcase", "map-case", "seed-chest", "sketching-desk"])
def test_a_thickness_is_held_once(name: str) -> None:
    told = [re.findall("“(.+?)”", h.what) for h in example(name)[1].chain.holds if h.what.startswith("thickness")]
    assert len(told) == len({material for (material,) in told}) > 1


def test_what_is_left_fat_is_the_tenon_and_measured_is_its_mortise() -> None:
    hold = next(h for h in example("side-table")[1].chain.holds if h.what == "each mortise, cut")
    assert hold.figure == "8 mm" and hold.before.startswith("planing the tenon of front apron")
    assert hold.moves == "that tenon alone, which is cut 0.5 mm fat and planed to fit"


@pytest.mark.parametrize(
    ("name", "path", "figure"),
    [
        ("bookcase", "back panel", "place: 1800 × 882 mm; back panel: 1800 × 880 mm"),  # it runs out at both ends
        ("map-case", "back", "place: 752 × 552 mm; back: 750 × 550 mm"),
        ("map-case", "front.panel", "place: 684 × 484 mm; front pane: 680 × 480 mm"),
        # Over the lower fronts the case is open: their heights are no opening to measure. The last takes what is left.
        ("seed-chest", "bottom drawer.front", "place, length: 404 mm; bottom drawer front: 400 × 116 mm"),
        ("seed-chest", "drawer.2.front", "place: 404 × 120 mm; drawer 2 front: 400 × 116 mm"),
        ("sketching-desk", "easel.panel", "place: 29 5/8 × 15 3/4 in; easel panel: 29 1/2 × 15 5/8 in"),
        ("door-cabinet", "left door.left bead", "left door bead (left, right): 799 × 10 mm"),  # it fills its place
    ],
)
def test_the_place_that_is_measured_is_told_as_drawn_before_what_goes_there(name: str, path: str, figure: str) -> None:
    assert next(h for h in example(name)[1].chain.holds if path in h.parts).figure == figure


def test_a_front_with_nothing_over_it_keeps_its_drawn_height() -> None:
    lower, last = (
        next(h for h in example("seed-chest")[1].chain.holds if f"{name}.front" in h.parts)
        for name in ("bottom drawer", "drawer.2")
    )
    assert lower.moves == "its length less 2 mm a side, its width as drawn, 116 mm"
    assert last.moves == "its length less 2 mm a side, its width less 2 mm a side"


def test_sizes_are_named_as_they_are_said() -> None:
    hold = next(h for h in example("bookcase")[1].chain.holds if "back ply" in h.what)
    assert hold.moves.startswith("size “back thick”: width of 5× shelf −1 ×")


def test_a_word_that_a_name_has_twice_is_shared_once_where_the_others_have_it_once() -> None:
    assert kind_title(["left door left bead", "left door right bead"]) == "left door bead (left, right)"
    assert kind_title(["front apron", "back apron"]) == "apron (front, back)"


def test_beads_are_measured_in_the_frame_and_a_back_that_runs_out_has_no_gap_there() -> None:
    _, lists = example("door-cabinet")
    beads = [h.what for h in lists.chain.holds if "door bead" in h.what.partition(": ")[0]]
    assert len(beads) == 4 and all("bead" not in told.partition(": ")[2] for told in beads)
    back = next(h for h in lists.chain.holds if h.what.startswith("the place of case back"))
    assert back.moves == "its length in full, its width less 1 mm a side"


def test_hold_points_of_the_work_are_those_of_the_chain() -> None:
    _, lists = example("sketching-desk")
    seen = " ".join(row.see for row in lists.work if row.hold)
    for hold in lists.chain.holds:
        if hold.parts or hold.what.startswith("thickness"):
            assert f"{hold.name}" in seen


def test_sizes_that_the_table_of_moves_leaves_out_are_named() -> None:
    hangs = example("sketching-desk")[1].chain
    assert {"front_lean", "rear_lean", "tilt", "lip"} <= set(hangs.untold)
    assert not {row.name for row in hangs.sizes} & set(hangs.untold)


def test_a_thickness_that_is_a_figure_in_the_file_moves_what_lies_between() -> None:
    # the box is as wide as its slides leave: front and back shrink by both sides, the bottom by both ends as well;
    # the back stands on the bottom, 3 1/2 − 3/8 − 6 mm wide
    told = {h.what: h.moves for h in example("sketching-desk")[1].chain.holds}
    box, thin = (next(m for what, m in told.items() if f"“{name}”" in what) for name in ("box ply", "thin ply"))
    assert box.startswith(
        "its thickness, a figure in the file: length of drawer box front, drawer back, drawer bottom −2 ×; "
        "width of drawer bottom −1 ×"
    )
    assert thin.startswith("its thickness, a figure in the file: width of drawer back −1 ×")


def test_a_thickness_hidden_in_two_coordinates_names_what_hangs_on_it_and_no_factor() -> None:
    # the left side stands from 0 to 20, the right one from 780 to 800: nothing says which of 780 and 800 stays
    told = next(h.moves for h in example("wall-shelf")[1].chain.holds if h.what.startswith("thickness"))
    assert told == "the place of shelf, rail hangs on it: put the thickness found into the file before that is cut"


def test_a_thickness_that_nothing_hangs_on_moves_nothing() -> None:
    told = next(h.moves for h in example("sketching-desk")[1].chain.holds if "“drawing board”" in h.what)
    assert told == "no other size is made of it: cut what fits it to the piece in hand"
