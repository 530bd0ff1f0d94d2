"""What has to be in hand or measured before which cut."""

from fractions import Fraction

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
    hold = next(h for h in example("sketching-desk")[1].chain.holds if "machine screw" in h.before)
    assert hold.what == "thickness of “case boards”, milled; thickness of “leg stock”, milled"
    assert hold.figure == "13/16 in; 1 1/4 in"


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
