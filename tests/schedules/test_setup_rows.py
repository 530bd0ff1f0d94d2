"""What a row of a set-up tells of the part: the face or end, the places, the test pieces; and the order of the numbers."""

from itertools import pairwise

import pytest

from docgen.schedules.rows import SetupRow, SetupRun
from tests.support.steps import example, steps

EXAMPLES = ("sketching-desk", "door-cabinet", "settle", "map-case", "dovetailed-box", "side-table")


def setup(name: str, what: str) -> SetupRow:
    return next(s for s in example(name)[1].setups if any(what in run.what for run in s.runs))


def called(name: str, what: str) -> SetupRow:
    return next(s for s in example(name)[1].setups if s.what == what)


def places(run: SetupRun) -> dict[str, object]:
    return {name: value for name, value, _ in run.places}


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_two_rows_of_a_set_up_read_alike(name: str) -> None:
    for row in example(name)[1].setups:
        told = [(run.what, run.parts, run.places, run.feed) for run in row.runs]
        assert len(set(told)) == len(told), row.number


def test_mortises_in_the_ends_of_a_frame_say_in_which_end_and_from_one_face() -> None:
    row = next(s for s in example("sketching-desk")[1].setups if s.what == "mortise" and "easel.left" in dict(s.parts))
    (run,) = row.runs
    told = places(run)
    assert told["in"] == (
        "the back end and front end (easel left rail, easel right rail), the right end and left end (easel front rail, "
        "easel back rail)"
    )
    assert "middle from the show face" in told


def test_a_cut_into_the_inside_of_two_sides_is_one_row_that_names_both_faces() -> None:
    (run,) = setup("settle", "dado (housing) for seat").runs
    assert places(run)["in"] == "the right face (left end), the left face (right end)"


def test_the_leaf_of_a_hinge_has_its_place_from_the_nearer_end() -> None:
    # hinges of 50 whose middles stand 200 and 1000 up the case's side of 1140
    row = setup("door-cabinet", "recess for a hinge")
    low, high = (places(run) for run in row.runs if "case.left" in run.parts)
    assert (low["near end from the bottom end"], low["far end from the bottom end"]) == (175, 225)
    assert (high["near end from the top end"], high["far end from the top end"]) == (115, 165)
    assert low["in"] == "the right face (case left side), the left face (case right side)"
    assert low["along"] == "the front edge"


def test_a_groove_that_stops_at_both_ends_says_where_its_fence_rides_and_where_it_begins() -> None:
    # the edge of a fence lies on the right of the way, seen from above: in the right face with the bottom edge for a guide
    # the router runs from the front to the back
    for run in setup("dovetailed-box", "groove for bottom").runs:
        assert run.feed.endswith("fence on the bottom edge")
    sides = next(r for r in setup("dovetailed-box", "groove for bottom").runs if "left side" in r.parts)
    left, right, _ = sides.feed.split("\n")
    assert left.startswith("left side: plunge at the stop by the front end")
    assert right.startswith("right side: plunge at the stop by the back end")


def test_each_stock_that_runs_at_a_set_up_has_its_test_piece() -> None:
    row = next(s for s in example("settle")[1].setups if {"apron", "slat.1"} <= {path for path, _ in s.parts})
    assert row.proof[0].startswith(
        "an offcut of the same stock, 7/8 in thick and an offcut of the same stock, 5/8 in thick"
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_set_ups_are_numbered_as_the_steps_use_them(name: str) -> None:
    _, lists = example(name)
    used = [int(row.key.removeprefix("set-up ")) for row in lists.work if row.key.startswith("set-up ")]
    assert all(a < b for a, b in pairwise(used))
    assert [s.number for s in lists.setups] == list(range(1, len(lists.setups) + 1))


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_step_names_the_story_stick_only_where_the_stick_has_a_mark_of_its_cut(name: str) -> None:
    piece, lists = example(name)
    rows = {f"set-up {s.number}": s for s in lists.setups}
    for step in (s for s in lists.work if "story stick" in s.see):
        cuts = rows[step.key].parts
        assert any(f.made.marks for path, title in cuts for f in piece.part(path).features if f.title == title)
    rabbet = next(s for s in example("sketching-desk")[1].work if "rabbet for back" in s.what)
    assert "stick" not in rabbet.see


def test_what_fills_its_place_is_cut_to_length_and_width() -> None:
    told = next(s for s in steps("door-cabinet") if s.startswith("Measure the place of left door bead (left"))
    assert told.endswith(
        "then rip to width off the board and cut to length: left door left bead, left door right bead."
    )


def test_a_drawers_bottom_keeps_its_box_square_while_it_is_hung() -> None:
    told = next(s for s in steps("sketching-desk") if s.startswith("Hang the box"))
    assert told.endswith("Slide drawer bottom in dry first: it keeps the box square.")


def test_templates_that_a_bearing_follows_are_made_beside_the_parts() -> None:
    _, lists = example("tool-tote")
    numbers = [s.number for s in lists.setups if any(n.startswith("flush cutter") for n, _, _ in s.values)]
    (row,) = (r for r in lists.jigs if r.what.startswith("template"))
    assert all(f"set-up {n}: " in row.use for n in numbers) and row.until == f"set-up {max(numbers)}"
    assert "left end, right end" in row.use and "back" in row.use


def test_wedges_are_kept_until_the_last_joint_that_they_clamp_is_glued() -> None:
    _, lists = example("sketching-desk")
    right = next(
        s.number
        for s in lists.work
        if s.what.startswith("Glue up") and s.parts == ("stand.right front", "stand.right rear")
    )
    wedge = next(j for j in lists.jigs if j.what == "offcuts as clamp blocks" and j.use.startswith("60°"))
    assert wedge.until == f"step {right}"


def test_what_is_measured_on_a_test_piece_is_cut_and_no_part_of_the_tool() -> None:
    row = next(s for s in example("sketching-desk")[1].setups if s.what == "rabbet after glue-up")
    assert row.proof[1] == "rabbeting bit, into the thickness 3/8 in; depth 3/4 in"
    fingers = next(s for s in example("dovetailed-box")[1].setups if s.what.startswith("fingers"))
    assert fingers.proof[1].startswith("a second offcut") and "over 4 fingers" in fingers.proof[1]
    keys = next(s for s in example("map-case")[1].setups if s.what.startswith("slots for keys"))
    assert keys.proof[1].endswith("; the key goes in by hand")


def test_a_piece_in_which_nothing_moves_is_not_tried() -> None:
    assert steps("settle")[-1] == "Stand it level where it belongs, and load it little by little."
    assert steps("door-cabinet")[-1].startswith("Try it: left door turns through its whole way;")


def test_a_step_that_makes_many_cuts_alike_names_a_few_and_says_how_many_more() -> None:
    told = next(s for s in steps("door-cabinet") if "mitre to left door top bead" in s)
    assert "and 5 more" in told and told.count("bead") == 3


def test_places_of_what_waits_are_marked_as_drawn() -> None:
    rows = example("door-cabinet")[1].setups
    beads = next(s for s in rows if s.when == "once measured" and s.machine == "table saw")
    assert "what was measured rules" in beads.note
    assert all("what was measured" not in s.note for s in rows if s.when == "" or s.machine == "drill press")


def test_fingers_ask_for_their_sled() -> None:
    (sled,) = (j for j in example("dovetailed-box")[1].jigs if j.what == "sled with a key")
    numbers = [s.number for s in example("dovetailed-box")[1].setups if s.machine == "router table"]
    assert all(f"set-up {n}: " in sled.use for n in numbers) and sled.until == f"set-up {numbers[-1]}"


def test_a_taper_is_tried_on_one_offcut_and_a_mitre_on_two() -> None:
    (taper,) = (s for s in example("side-table")[1].setups if s.what.startswith("taper"))
    assert taper.proof[0].startswith("an offcut of the same stock")
    mitre = next(s for s in example("map-case")[1].setups if s.what.startswith("mitre"))
    assert mitre.proof[0].startswith("two offcuts")


def test_a_disc_asks_for_its_pivot_board_and_its_trammel() -> None:
    _, lists = example("splayed-stool")
    assert [j.what for j in lists.jigs] == ["pivot board for the band saw", "trammel for the router"]
    assert all(j.use.endswith("seat; to 330 mm long") for j in lists.jigs)


def test_what_is_glued_or_plugged_over_as_a_whole_is_not_taken_apart() -> None:
    for name, apart in (("splayed-stool", False), ("settle", False), ("sketching-desk", True), ("side-table", True)):
        told = next(s for s in steps(name) if "Sand what can still be reached" in s)
        assert told.startswith("Take everything apart") is apart, name


def test_what_a_router_goes_all_the_way_round_is_held_without_clamps_and_a_rim_carries_its_base() -> None:
    disc = called("splayed-stool", "disc, on a trammel")
    assert "double-sided tape" in disc.note and "waste board" in disc.note
    rabbet = called("sketching-desk", "rabbet after glue-up")
    assert "round the front of the opening" in rabbet.note and "clear of the bearing" in rabbet.note
    support = next(j for j in example("sketching-desk")[1].jigs if j.what == "support for the router")
    assert f"set-up {rabbet.number}: " in support.use and "13/16 in" in support.use


def test_a_bit_of_the_other_measure_counts_as_sold() -> None:
    # 6 mm in an inch file: the figure stands beside it, and such bits are sold
    assert "usually sold" not in called("sketching-desk", "groove, flat-bottomed").note
