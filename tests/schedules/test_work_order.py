"""The order of work, and what is made beside the parts."""

from pathlib import Path

import pytest

from docgen.schedules.risks import risk
from docgen.schedules.rows import SetupRow
from tests.support.steps import BOARDS, at, at_key, at_set_up, example, listed, steps


def test_bolts_are_driven_before_back_drawer_and_front_bar_the_way_to_them() -> None:
    # A, B and C go in from inside the case; D turns in a sleeve that is pressed in first
    rows = [row.key or row.what for row in example("sketching-desk")[1].work]
    order = [
        "fasten A",
        "fasten C",
        "lay back",
        "Hang drawer on the slides again",
        "front drawer.front",
        "fasten D",
        "try it",
    ]
    found = [next(i for i, told in enumerate(rows) if told.startswith(start)) for start in order]
    assert found == sorted(found)


def test_a_pilot_that_no_set_up_drills_is_told_at_its_step_and_in_the_chart() -> None:
    _, lists = example("tool-tote")
    told = next(row.what for row in lists.work if row.key == "fasten A")
    assert "drill 5/64, 3/4 in deep, through the holes of front into left end, and drive" in told
    assert all("pilot 5/64, 3/4 in deep" in row.note for row in lists.chart if row.fastener)
    settle = next(row.what for row in example("settle")[1].work if row.key == "fasten A")
    assert "drill" not in settle  # its pilot holes have a set-up of their own


def test_only_what_hangs_on_a_wall_is_warned_of_tipping_without_a_finding() -> None:
    assert all("tips" not in row.wrong for row in example("tool-tote")[1].work)
    assert "tips" in example("wall-shelf")[1].work[-1].wrong


def test_steps_are_numbered_and_every_set_up_has_one() -> None:
    for name in sorted(p.stem for p in Path("examples").glob("*.yaml")):
        _, lists = example(name)
        assert [row.number for row in lists.work] == list(range(1, len(lists.work) + 1))
        keys = [row.key for row in lists.work if row.key.startswith("set-up")]
        assert sorted(keys) == sorted(f"set-up {row.number}" for row in lists.setups)


def test_the_blank_is_cut_whole_before_the_rest_and_parted_in_turn() -> None:
    desk = "sketching-desk"
    assert at(desk, "Cut the blank case whole") < at(desk, "Cut all other parts") < at_set_up(desk, "mitre to case")
    _, lists = example("sketching-desk")
    pieces = {p.path for blank in lists.blanks for p in blank.pieces}
    rough = next(r for r in lists.work if r.what.startswith("Cut the wood of all other parts to rough size."))
    milled = next(r for r in lists.work if r.what.startswith("Mill it all, blanks whole"))
    assert not pieces & set(rough.parts) and pieces <= set(milled.parts)  # who ticks parts off leaves the blank whole
    assert "Do not crosscut" in steps(desk)[at(desk, "Cut the blank case whole")]
    assert "The parts of blank case in turn, by its sheet." in steps(desk)[at_set_up(desk, "mitre to case")]


def test_what_comes_after_glueing_mating_and_measuring() -> None:
    desk = "sketching-desk"
    rows = example(desk)[1].work
    text = steps(desk)
    glued = next(i for i, r in enumerate(rows) if r.key == "glue bottom")
    assert text[glued - 1].startswith("Slide bottom, then divider in dry") and text[glued - 2].startswith(
        "Plane the tongue"
    )
    assert "after glue-up" in text[glued - 4]
    mated = next(i for i, s in enumerate(text) if "ark through" in s)
    assert mated > glued
    fronts = next(i for i, r in enumerate(rows) if r.key == "fit drawer.front")
    assert text[fronts - 1].startswith("Hang the box of drawer") and rows[fronts].hold
    assert "strips of 1/32 in" in text[fronts]
    assert at(desk, "Fasten") > at(desk, "Finish")
    assert "pivot bolt" in text[-3]  # what tilts comes last, and its stay after it
    assert (
        text[-2].startswith("Prop easel up, and fit, by its own sheet: ratchet stay") and "easel" in rows[-2].parts[0]
    )
    assert not any("ratchet stay" in t for t in text[:-2] if t.startswith("Fit"))
    assert (
        "With them: 2 × washer, low friction, between the parts; 1 × thread lock, a drop in each" in text[-3]
    )  # with the bolts
    assert not any("low friction" in t for t in text if t.startswith("Fit"))
    # no drill gets into the closed case, and a #7 drill wanders in the bore of 3/8 that it is marked through
    assert "mark only. Take them off, and drill at the marks." in text[mated]


def test_small_things_are_made_before_they_are_needed() -> None:
    assert at("side-table", "Make 8 × button") < at_set_up("side-table", "hand drill, pilot hole")
    for count in (8, 4):  # keys are made when their slots are there to try them in
        made = at("map-case", f"Make {count} × key")
        assert steps("map-case")[made - 1].endswith("in a cradle that carries the corner arris down.")
        assert "until it goes into its slots by hand" in steps("map-case")[made]
        assert steps("map-case")[made + 1].startswith(f"Glue into their slots, down to the bottom: {count} × key")
    made = [s for s in steps("sketching-desk") if s.startswith("Make or buy")]
    assert sum(int(s.split()[3]) for s in made) == 10  # 2 a side in the stand, 2 at the stretcher, 4 in the easel
    glued = [s for s in steps("sketching-desk") if "With it go in" in s]
    assert len(glued) == 4 and all("loose tenon" in s for s in glued)


def test_wood_is_sawn_in_the_rough_milled_over_glued_up_and_milled_to_its_figure_before_it_is_sized() -> None:
    for name in sorted(p.stem for p in Path("examples").glob("*.yaml")):
        stock = [r.what for r in example(name)[1].work if r.phase == "Stock"]
        order = (
            "Cut the blank",
            "thicker than at the last pass",
            "Glue up to width",
            "Last pass",
            "Rip the blank",
            "to width and sq",
        )
        found = [next((n for n, told in enumerate(stock) if words in told), None) for words in order]
        have = [n for n in found if n is not None]
        assert have == sorted(have) and found[1] is not None and found[3] is not None, name
        (last,) = [r for r in example(name)[1].work if r.what.startswith("Last pass")]  # all are milled to it once
        assert all(
            told.count(" mill ") == 0 and "Mill" not in told for told in stock[have[1] :] if told != stock[found[1]]
        )
        holds = [h.name for h in example(name)[1].chain.holds if h.what.startswith("thickness of “")]
        assert all(any(h in r.see for r in example(name)[1].work) for h in holds) and last.parts


def test_a_step_sends_to_the_sheets_that_have_its_figures() -> None:
    def see(name: str, words: str) -> str:
        return next(r for r in example(name)[1].work if words in r.what).see

    assert see("bookcase", "Lay back panel") == "general views, joinery details, chart"
    assert see("side-table", "Dry fit") == "general views, joinery details"
    for name in ("map-case", "sketching-desk"):  # no stick of a finished part fits a whole blank
        assert "blank: case, part sheets" in see(name, "bevel: mitre to case top")
        assert "stick" not in see(name, "bevel: mitre to case top")
    assert see("sketching-desk", "rabbet after glue-up").endswith("sheet “after the glue-up”")


def test_small_things_are_held_long_until_the_last_cut_and_that_is_said_once() -> None:
    for name in ("side-table", "map-case", "sketching-desk"):
        made = [r for r in example(name)[1].work if r.what.startswith("Make ")]
        assert made and ["saw each off last" in r.what for r in made] == [True, *(False for _ in made[1:])]


def test_the_parts_of_a_step_are_all_that_it_needs() -> None:
    def parts(name: str, words: str) -> set[str]:
        return {*next(r for r in example(name)[1].work if words in r.what).parts}

    legs = {f"{a} {b} leg" for a in ("front", "back") for b in ("left", "right")}
    frame = {*legs, "front apron", "back apron", "left apron", "right apron"}
    assert parts("side-table", "Fasten front apron") == {"top", *frame}
    assert parts("side-table", "pilot holes A for buttons") == {"top", *(p for p in frame if p.endswith("apron"))}
    assert {"lid", "back", "left side", "bottom"} <= parts("dovetailed-box", "Hang lid dry")
    hung = parts("map-case", "Hang front dry")
    assert {"front.left", "case.left", "case.right"} <= hung and not {"front.panel", "back"} & hung
    assert {"shelf.3", "left side"} <= parts("bookcase", "Lay back panel")
    assert "case.left" in parts("map-case", "dowel holes E, F. Mark") and "rail" in parts(
        "map-case", "dowel holes E, F. Mark"
    )


def test_what_is_fitted_names_the_parts_that_are_cut_for_it() -> None:
    def parts(name: str, words: str) -> tuple[str, ...]:
        return next(r for r in example(name)[1].work if r.what.startswith(words)).parts

    assert parts("map-case", "Fit, each") == ("case.left", "front.left")  # the hinges' two leaves
    assert parts("sketching-desk", "Fit, each") == ("left cheek", "right cheek")  # the bores of the sleeves
    assert {"left end", "right end"} <= set(parts("settle", "Glue in over the heads"))


def test_a_stay_that_no_page_places_is_marked_by_itself() -> None:
    (told,) = [
        r.what for r in example("sketching-desk")[1].work if "ratchet stay" in r.what and r.what.startswith("Prop")
    ]
    assert "No page here tells its place: mark it by the thing itself." in told


def test_fixings_that_go_all_round_a_panel_say_how_far_apart() -> None:
    def told(name: str, key: str) -> str:
        return next(r for r in example(name)[1].work if r.key == key).what

    # 2 × (33 3/16 + 5 21/32) in / 16 = 4.855 in; 2 × (680 + 480) mm / 16 = 145 mm
    assert told("sketching-desk", "lay back").endswith("evenly along its edges, about 4 3/4 in apart.")
    assert told("map-case", "lay front.panel").endswith("evenly along its edges, about 145 mm apart.")
    assert "evenly" not in told("sketching-desk", "lay drawer.bottom")  # three, into the box's back alone
    assert "evenly" not in told("map-case", "lay back")  # its holes are on the chart


def test_keys_and_plugs_are_glued_in_before_the_finish() -> None:
    keys = [i for i, s in enumerate(steps("map-case")) if s.startswith("Glue into their slots")]
    assert len(keys) == 2 and keys[-1] < at("map-case", "Finish")
    assert (
        at("settle", "Fasten left end to left stile")
        < at("settle", "Glue in over the heads")
        < at("settle", "Sand what can still")
    )


def test_dowel_holes_are_marked_before_the_glue_up_and_dowels_go_in_with_the_glue() -> None:
    text = steps("map-case")
    drilled = next(i for i, s in enumerate(text) if "Mark from the holes of rail" in s)
    glued = next(i for i, s in enumerate(text) if "With it go in: 4 × dowel, fluted, 6 × 27 mm." in s)
    assert drilled < glued and not any("Clamp them in place" in s for s in text)
    assert not any("dowel" in s for s in text[glued + 1 :])


def test_what_lies_in_rabbets_and_grooves_gets_a_step_that_says_what_the_file_leaves_open() -> None:
    cabinet = steps("door-cabinet")
    assert "fixed with 38 × No. 4 × 16 wood screws" in cabinet[at("door-cabinet", "Lay case back")]
    for side in ("left", "right"):
        assert "bottom bead hold it." in cabinet[at("door-cabinet", f"Lay {side} door pane")]
    assert "with 28 × brads, 1 × 16 mm" in cabinet[at("door-cabinet", "Fix left door left bead")]
    desk = "sketching-desk"
    for start in ("Lay back into", "Slide drawer bottom", "Lay easel panel", "Fix drawer front"):
        assert at(desk, start) > at(desk, "Finish") and " wood screws, " in steps(desk)[at(desk, start)]
    text = Path(f"examples/{desk}.yaml").read_text(encoding="utf-8")
    loose = "\n".join(line for line in text.split("\n") if "- fixed:" not in line)
    told = [r.what for r in listed(loose)[1].work]
    assert sum("the file states no fixing" in t for t in told) == 4
    # what goes in at the glue-up needs no step of its own
    assert not any(s.startswith(("Slide", "Lay")) for s in steps("dovetailed-box"))


def test_what_no_joint_holds_is_told_with_the_file_s_note() -> None:
    told = steps("dovetailed-box")[at("dovetailed-box", "Fit and fix")]
    assert told.endswith("Noted: left ledge, right ledge: glued to the side.")


def test_a_front_is_no_part_of_the_box_that_is_hung_before_it_is_cut() -> None:
    desk = example("sketching-desk")[1].work
    assert "drawer.front" not in desk[at_key("sketching-desk", "hang drawer")].parts
    assert sum("slides" in r.what and not r.hold for r in desk) == 2  # hung, and put back after the finish


def test_what_is_turned_keeps_its_waste_for_the_centres() -> None:
    for name, part in (("splayed-stool", "front left leg"), ("tool-tote", "handle")):
        rows = example(name)[1].work
        assert part in next(r for r in rows if r.what.startswith("Leave")).parts
        assert all(part not in r.parts for r in rows if "square to length" in r.what)


def test_a_square_that_is_turned_to_its_full_width_is_milled_thicker_and_the_turning_cut_to_length() -> None:
    # a round of 1 1/4 cannot come out of a square of 1 1/4: 1/8 over, 3 mm in a piece in mm
    told = steps("tool-tote")
    assert "“rod” to 1 3/8 in square, 1/8 in over the largest diameter;" in told[at("tool-tote", "Last pass")]
    assert told[at_set_up("tool-tote", "turning")].endswith(
        "Then saw off the waste with the marks of the centres, to length: handle 24 in."
    )
    square = steps("splayed-stool")[at("splayed-stool", "Last pass")]
    assert "“squares” to 41 mm square, 3 mm over" in square
    lists = example("splayed-stool")[1]
    hold = next(h for h in lists.chain.holds if "“squares”" in h.what)
    assert hold.figure in square and hold.moves == "the lathe brings it to its figure: no other size is made of it"
    (lathe,) = [s for s in lists.setups if s.machine == "lathe"]
    assert lathe.proof[0] == "an offcut of the same stock, 41 mm square"


def test_a_disc_is_left_rough_until_its_outline_is_cut() -> None:
    rows = example("splayed-stool")[1].work
    (left,) = [r for r in rows if "at the rough size" in r.what]
    assert left.parts == ("seat",) and "centre lines" in left.what
    assert all("seat" not in r.parts for r in rows if "square to length" in r.what)


def test_panes_are_ordered_when_their_place_is_measured() -> None:
    for name in ("door-cabinet", "map-case"):
        assert not any(s.startswith("Measure the float glass") for s in steps(name))
        order = next(s for s in steps(name) if "then order" in s)
        assert "Measure its thickness when it comes, 4 mm as drawn" in order


def test_tapers_come_when_the_joints_are_fitted() -> None:
    assert at("side-table", "Plane the tenon") < at_set_up("side-table", "table saw, taper")


def test_hinge_screws_are_marked_through_the_hinge_when_it_is_fitted() -> None:
    for name in ("dovetailed-box", "door-cabinet"):
        place = next(i for i, s in enumerate(steps(name)) if "mark through its own holes" in s)
        assert at(name, "Glue up") < place < at(name, "Finish")


def test_a_step_names_all_holes_of_its_set_up() -> None:
    assert any("tapped holes A, B, C; tapped hole D for the pivot" in s for s in steps("sketching-desk"))


def test_the_last_step_sends_only_what_hangs_to_the_wall() -> None:
    assert "through its holes W" in steps("map-case")[-1]
    assert not any("wall" in steps(name)[-1] for name in ("dovetailed-box", "tool-tote", "splayed-stool", "side-table"))


def widened(text: str) -> str:
    """Return the step that glues up to width, "" for none."""
    return next((r.what for r in listed(text)[1].work if r.what.startswith("Glue up to width")), "")


def test_boards_that_are_wider_than_the_stock_are_glued_up_first() -> None:
    text = Path("examples/side-table.yaml").read_text(encoding="utf-8")
    said = next(line for line in text.splitlines() if "species" in line and "thickness: board" in line)
    assert "top to 406 mm from 3 boards or more" in widened(text)  # 400 and 6 to trim; boards to 200 mm are usual
    assert "Counted with boards up to 200 mm wide" in widened(text)
    wide = text.replace(said, said.replace("thickness: board", "thickness: board, stock: [2400, 150]"))
    assert "top to 406 mm from 3 boards" in widened(wide) and "counted on" not in widened(wide)
    whole = text.replace(said, said.replace("thickness: board", "thickness: board, stock: [2400, 450]"))
    assert "top to 406 mm from 2 boards" in widened(whole)  # its own note says that it is made of boards
    assert widened(whole.replace(", note: glued up from several boards", "")) == ""


BOARD = (
    BOARDS
    + """\
parts:
  board: {of: boards, grain: across, box: {across: [0, 800], deep: [0, WIDE], up: [0, 20]}}
"""
)


def test_a_part_is_glued_up_from_the_width_on_that_no_usual_board_has() -> None:
    assert widened(BOARD.replace("WIDE", "194")) == ""
    assert "board to 201 mm from 2 boards or more" in widened(BOARD.replace("WIDE", "195"))


def test_equal_parts_are_counted_where_their_title_does_not_name_each() -> None:
    assert "2× end to 20 3/4 in" in steps("settle")[at("settle", "Glue up to width")]
    assert "2× end (left, right)" not in steps("tool-tote")[at("tool-tote", "Glue up to width")]


def test_blanks_are_glued_up_milled_and_ripped_before_they_are_parted() -> None:
    desk = steps("sketching-desk")
    assert "the blank case to 16 1/4 in from 3 boards or more" in desk[at("sketching-desk", "Glue up to width")]
    whole = desk[at("sketching-desk", "Cut the blank case whole")]
    assert "as many boards of that length as make its width" in whole
    assert "Rip the blank case to 16 in" in desk[at("sketching-desk", "Rip the blank")]
    (run,) = next(s for s in example("sketching-desk")[1].setups if s.what == "bevel").runs
    assert run.parts == ("case.left", "case.top", "case.right") and "no end stop" in run.feed
    assert run.places == (
        ("blank case, by its own sheet: cuts", "2 to 5; cuts 1 and 6 square, the blade upright", "text"),
    )
    keys = next(s for s in steps("map-case") if "slots for keys" in s and s.startswith("Set-up"))
    assert "blank" not in keys  # the case is glued by then


def test_inside_faces_are_sanded_before_a_case_is_closed() -> None:
    for name in ("bookcase", "dovetailed-box", "wall-shelf", "sketching-desk"):
        assert at_key(name, "sand inside") < min(
            i for i, r in enumerate(example(name)[1].work) if r.key.startswith("glue ")
        )
    assert all(r.key != "sand inside" for r in example("splayed-stool")[1].work)


@pytest.mark.parametrize(
    "machine, values, word",
    [
        ("table saw", (), "mark the waste"),
        ("router", (("straight bit", 12, "length"),), "wrong side of the line"),
        ("router", (("into the thickness", 12, "length"),), "wrong arris"),
        ("router", (("round-over bit, radius", 3, "length"),), "stay sharp"),
        ("router", (("bearing, diameter", 3, "length"),), "drop of glue"),
        ("router", (("tongue thickness, fat", 3, "length"),), "fitted later"),
        ("tap", (), "bottoms"),
        ("laser", (), "offcut"),
    ],
)
def test_what_may_go_wrong_goes_by_the_set_up(
    machine: str, values: tuple[tuple[str, int, str], ...], word: str
) -> None:
    assert word in risk(SetupRow(machine, "x", values, (), ""))
