"""Jigs, test pieces and offcuts, and until when they are kept."""

from tests.support.steps import example


def test_jigs_with_their_sizes_and_until_when() -> None:
    _, lists = example("sketching-desk")
    rows = {row.what: row for row in lists.jigs}
    sled = rows["sled for the steep end"]
    assert "60° from square" in sled.size
    block = rows["drill block and tap block"]
    # #7 is 0.201 in: four diameters are 0.804, made of 1 in; the collar at 1 + 7/8
    assert block.size.startswith("hardwood 1 in thick, drilled #7") and "collar on the drill at 1 7/8 in" in block.size
    numbers = {r.key: r.number for r in lists.work if r.key}
    assert rows["trial mate"].until.startswith("set-up ")
    spacer = next(r for r in lists.jigs if "1/32 in thick" in r.size)
    assert spacer.until == f"step {numbers['front drawer.front']}"  # put in their places last, and not only measured
    wedges = [r.size for r in lists.jigs if r.what == "offcuts as clamp blocks"]
    slanted = [s for s in lists.setups if s.machine == "table saw"]
    level = next(s.number for s in slanted if any(v == 14 for _, v, _ in s.values))
    assert all(str(level) not in size.split() for size in wedges)  # level feet are not glued
    assert [r.what for r in example("wall-shelf")[1].jigs] == ["backing strip"]


def test_a_taper_gets_its_sled_and_blocks_the_drills_their_own_length() -> None:
    _, lists = example("side-table")
    assert any(r.what == "taper sled" and "2.18°" in r.size for r in lists.jigs)
    # 2.8 mm: four diameters are 11.2 mm, made of 15
    assert any(r.what == "drill block" and r.size.startswith("hardwood 15 mm thick") for r in lists.jigs)


def test_a_cradle_blocks_and_supports_are_made_for_the_worst_places() -> None:
    case = {row.what: row for row in example("map-case")[1].jigs}
    cradle = case["cradle for mitred corners"]
    slots = [s.number for s in example("map-case")[1].setups if "cradle" in s.what]
    assert cradle.until == f"set-up {slots[-1]}" and "to 760 mm long" in cradle.use
    assert "rail" in case["drill block"].use  # a 700 mm rail does not stand under the drill press
    desk = [row for row in example("sketching-desk")[1].jigs if row.what == "support for the router"]
    assert any("left rear leg" in row.use for row in desk) and any("easel left rail" in row.use for row in desk)


def test_what_is_drilled_deeper_than_a_part_is_thick_is_tried_in_an_edge() -> None:
    _, lists = example("settle")  # 2 1/4 deep in a stile of 1 1/8
    told = next(s.proof for s in lists.setups if s.what == "pilot hole")
    assert "into its edge" in told[0] and "2 1/4 in deep" in told[1]
    _, table = example("side-table")  # 12 deep in a top of 20
    assert all("into its edge" not in text for s in table.setups for text in s.proof)


def test_a_flat_bottomed_bore_takes_a_head_that_is_flat_below() -> None:
    rows = example("settle")[1].hardware
    assert any(row.what == "wood screw, pan head" and row.size == "No. 12 × 3" for row in rows)
    assert any(row.what == "plug" and "stands proud" in row.note for row in rows)
    assert any(row.what == "wood screw, flat head" for row in example("tool-tote")[1].hardware)


def test_screws_of_buttons_are_marked_and_then_drilled_with_the_top_lying_free() -> None:
    _, lists = example("side-table")
    told = next(row.what for row in lists.work if "pilot holes A for buttons" in row.what)
    assert told.endswith("Marked through the buttons with the top in its place, then drilled with the top lying free.")
    assert any(row.what == "drill block" and "top" in row.use for row in lists.jigs)


def test_spacers_are_kept_until_the_last_is_in_its_place_and_blocks_until_their_own_set_up() -> None:
    _, lists = example("door-cabinet")
    numbers = {r.key: r.number for r in lists.work if r.key}
    until = {r.use.partition("round ")[2]: r.until for r in lists.jigs if r.what == "spacers"}
    assert until["case back"] == f"step {numbers['lay case.back']}"
    assert until["left door pane, right door pane"] == f"step {numbers['lay right door.pane']}"
    _, chest = example("seed-chest")
    block = next(r for r in chest.jigs if r.what == "drill block")
    run = next(s for s in chest.setups if s.machine == "hand drill" and s.what == "pilot hole")
    assert block.until == f"step {next(r.number for r in chest.work if r.key == f'set-up {run.number}')}"


def test_holes_of_one_set_up_in_one_sheet_are_all_drilled_by_hand_where_one_is_out_of_reach() -> None:
    _, lists = example("door-cabinet")
    assert {s.machine for s in lists.setups if any(path == "case.back" for path, _ in s.parts)} == {"hand drill"}


def test_a_fat_tenon_has_a_trial_mate_for_its_test_piece_and_a_screw_slides_in_a_slot() -> None:
    shown = {(n, row.what): row.proof[1] for n in ("door-cabinet", "seed-chest") for row in example(n)[1].setups}
    assert shown["door-cabinet", "mortise"].endswith(
        "keep it as trial mate for the test piece of the tenon; the good tenon, left fat, is fitted to its own later"
    )
    _, lists = example("door-cabinet")
    mate = next(r for r in lists.jigs if r.what == "trial mate")
    planed = next(r for r in lists.work if r.what.startswith("Plane the tenon"))
    assert mate.use.endswith(f"the good ones are fitted to their own at step {planed.number}")
    assert mate.until in {f"set-up {s.number}" for s in lists.setups if s.what.startswith("tenon")}
    assert shown["door-cabinet", "dado, flat-bottomed"].endswith("the piece that belongs in it goes in by hand")
    assert shown["seed-chest", "slot"] == "width 3.6 mm; the screw slides in it from end to end"


def test_a_router_that_lets_a_hinge_into_a_narrow_edge_stands_on_a_support() -> None:
    # the back's upper edge is 1/2 in wide; the lid's face is wide enough
    _, lists = example("dovetailed-box")
    (row,) = [r for r in lists.jigs if r.what == "support for the router"]
    assert row.use.endswith(": back; the router stands on faces 1/2 in wide")


def test_loose_tenons_and_keys_have_a_strip_with_its_section_its_length_and_what_it_is_tried_in() -> None:
    _, desk = example("sketching-desk")
    (strip,) = (r for r in desk.jigs if r.what == "strip for loose tenons")
    # four of 1 7/16: three with saw cuts of 1/8 are 4 11/16, and 12 in are held at the last cut: 16 11/16, so 17
    assert strip.size.startswith(
        "hardwood 3/8 in thick, both edges rounded to 3/16 in: 7/8 in wide, 17 in long for 4; "
    )
    assert "1 1/4 in wide, 14 in long for 2" in strip.size
    made = [r.number for r in desk.work if r.key.startswith("make loose tenon")]
    cut = [s.number for s in desk.setups if any("mortise" in title for _, title in s.parts)]
    assert strip.use.startswith(f"step {', '.join(map(str, made))}: sawn off at 1 7/16 in")
    assert set(map(int, strip.use.rpartition("set-up ")[2].split(", "))) <= set(cut)
    assert strip.until == f"step {made[-1]}"
    _, case = example("map-case")
    keys = [r for r in case.jigs if r.what == "strip for keys"]
    # eight of 30 with cuts of 3: 7 · 33 + 300 = 531; four of 48: 3 · 51 + 300 = 453
    assert [r.size.rpartition(": ")[2] for r in keys] == [
        "15 mm wide, 540 mm long for 8",
        "24 mm wide, 460 mm long for 4",
    ]
    assert "rounded" not in keys[0].size
    assert not any(r.what.startswith("strip") for r in example("splayed-stool")[1].jigs)  # wedges are sawn at a slant
