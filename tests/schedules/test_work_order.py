"""Glue-ups, the order of work, and what is made and kept beside the parts."""

from pathlib import Path

import pytest

from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.model import Piece
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.glueups import connected, direction, glueups, held
from docgen.schedules.make import schedules
from docgen.schedules.risks import risk
from docgen.schedules.rows import Schedules, SetupRow

WORDS = vocabulary()
LISTS: dict[str, tuple[Piece, Schedules]] = {}


def example(name: str) -> tuple[Piece, Schedules]:
    if name not in LISTS:
        path = Path(f"examples/{name}.yaml")
        piece = build(read_project(str(path), path.read_text(encoding="utf-8"), WORDS, {}), WORDS)
        solids = Solids(piece)
        LISTS[name] = (piece, schedules(piece, solids, kinds(piece, solids)))
    return LISTS[name]


def steps(name: str) -> list[str]:
    return [row.what for row in example(name)[1].work]


def at(name: str, start: str) -> int:
    return next(i for i, text in enumerate(steps(name)) if text.startswith(start))


def at_set_up(name: str, said: str) -> int:
    return next(i for i, text in enumerate(steps(name)) if text.startswith("Set-up") and said in text)


def test_names_that_hang_together() -> None:
    assert connected([("a", "b"), ("c", "d"), ("b", "c"), ("e",)]) == [("a", "b", "c", "d"), ("e",)]


def test_how_joints_are_held() -> None:
    piece, _ = example("sketching-desk")
    told = {j.title: held(piece, j) for j in piece.joints}
    assert told["bottom in housings"] == told["mitre of case.left and case.top"] == "glued"
    assert told["case.left bolted to left cheek"] == told["slides of drawer"] == "fastened"
    assert told["back in rabbets"] == told["easel.panel in its frame"] == told["drawer.bottom in grooves"] == "laid in"
    assert told["level ends of stand.left front"] == ""


def test_joints_close_along_their_tongues_and_mitres_along_none() -> None:
    piece, _ = example("sketching-desk")
    told = {j.title: direction(piece, j) for j in piece.joints}
    assert told["bottom in housings"] == (1.0, 0.0, 0.0)
    assert told["divider in housings"] == (0.0, 0.0, 1.0)
    assert told["mitre of case.left and case.top"] is None


def test_two_end_frames_are_glued_before_what_joins_them() -> None:
    piece, _ = example("side-table")
    first, second, whole = glueups(piece)
    assert set(first.parts) == {"front left leg", "back left leg", "left apron"}
    assert set(second.parts) == {"front right leg", "back right leg", "right apron"}
    assert set(map(frozenset, whole.before)) == {frozenset(first.parts), frozenset(second.parts)}
    assert whole.directions == ((1.0, 0.0, 0.0),)
    # the short way first: aprons of the ends are shorter than those of the long sides


def test_what_a_bearing_would_strike_is_slid_in_after_the_cut_on_the_glued_case() -> None:
    # the rabbet is 3/4 deep, the bearing goes deeper, and bottom and divider begin at 3/4: they come from the back, later
    piece, lists = example("sketching-desk")
    case, inside = (g for g in glueups(piece) if "case.top" in g.parts)
    assert set(case.parts) == {"case.left", "case.top", "case.right"} and not case.slid
    assert inside.slid == ("bottom", "divider") and inside.slid_from == "back"
    keys = [row.key for row in lists.work]
    rabbet = next(s.number for s in lists.setups if s.what == "rabbet after glue-up")
    assert keys.index("glue case.left") < keys.index(f"set-up {rabbet}") < keys.index("glue bottom")
    told = next(row.what for row in lists.work if row.key == "glue bottom")
    assert told.startswith("Slide bottom, then divider in from the back, with glue")


CASE = """
docgen: 1
piece: Trial
units: mm
materials: {boards: {species: white oak, thickness: 20}}
parts:
  left: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 900]}}
  right: {of: boards, grain: up, box: {across: [780, 800], deep: [0, 300], up: [0, 900]}}
  low: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [0, 300], up: [0, 20]}}
  shelf: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [FRONT, 300], up: [400, 420]}}
joints:
  - housing: {shelf: low, into: [left, right], depth: 6}
  - housing: {shelf: shelf, into: [left, right], depth: 6, STOP}
operations:
  - glued rabbet: {part: [left, right], face: front, opening: {across: [20, 780], deep: [0, 280], up: [20, 880]},
      into: 8, depth: 12, bearing: 10, open: top}
"""


@pytest.mark.parametrize(
    ("front", "stop", "slid"),
    [
        ("12", "stop: {front: 15}", ("shelf",)),  # it begins where the cut ends: the bearing strikes it
        ("19", "stop: {front: 22}", ()),  # 7 mm behind the cut: the bearing passes
        ("12", "stop: {front: 15, back: 15}", ()),  # no side to slide it in from
    ],
)
def test_the_edge_at_which_a_part_is_in_the_bearings_way(front: str, stop: str, slid: tuple[str, ...]) -> None:
    text = CASE.replace("FRONT", front).replace("STOP", stop)
    units = glueups(build(read_project("trial.yaml", text, WORDS, {}), WORDS))
    assert tuple(p for unit in units for p in unit.slid) == slid
    assert (len(units) == 2) == bool(slid)


def test_bolts_are_driven_before_back_drawer_and_front_bar_the_way_to_them() -> None:
    # A, B and C go in from inside the case; D turns in a sleeve that is pressed in first
    rows = [row.key or row.what for row in example("sketching-desk")[1].work]
    order = [
        "fasten A",
        "fasten C",
        "lay back",
        "Hang drawer on the slides again",
        "Fix drawer front",
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


def test_round_ends_are_tried_by_hand_and_no_clamp_or_diagonal_is_asked_for() -> None:
    told = [s for s in steps("splayed-stool") if s.startswith(("Dry fit", "Try each", "Glue up: 4"))]
    assert len(told) == 2 and told[0].startswith("Try each round end by hand in its own socket")
    assert not any("diagonal" in s or "caul" in s for s in told)


def test_diagonals_are_measured_only_where_the_joints_close_a_ring() -> None:
    rows = example("sketching-desk")[1].work
    legs = next(r.what for r in rows if r.key == "glue stand.left front" and r.what.startswith("Glue up: 1 "))
    assert "diagonal" not in legs and "angles" in legs
    drawer = next(r.what for r in rows if r.key == "glue drawer.left")
    assert "measure both diagonals again" in drawer


def test_a_frame_is_glued_before_what_closes_on_it_from_outside() -> None:
    # nine slats between two rails first, then the stiles on the rails' ends
    slats, back = (g for g in glueups(example("settle")[0]) if "crest" in g.parts)
    assert "left stile" not in slats.parts and len(slats.joints) == 18
    assert set(back.before[0]) == set(slats.parts) and {"left stile", "right stile"} <= set(back.parts)


def test_what_would_be_trapped_is_glued_first() -> None:
    text = """
docgen: 1
piece: Trial
units: mm
materials: {boards: {species: white oak, thickness: 20}}
parts:
  left: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 900]}}
  right: {of: boards, grain: up, box: {across: [780, 800], deep: [0, 300], up: [0, 900]}}
  low: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [0, 300], up: [100, 120]}}
  high: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [0, 300], up: [700, 720]}}
  divider: {of: boards, grain: up, box: {across: [400, 420], deep: [0, 300], up: [low.top, high.bottom]}}
joints:
  - housing: {shelf: low, into: [left, right], depth: 6}
  - housing: {shelf: high, into: [left, right], depth: 6}
  - housing: {shelf: divider, into: [low, high], depth: 6}
"""
    first, whole = glueups(build(read_project("trial.yaml", text, WORDS, {}), WORDS))
    assert set(first.parts) == {"low", "high", "divider"} and set(whole.parts) == {
        "left",
        "right",
        "low",
        "high",
        "divider",
    }


def test_a_panel_in_grooves_all_round_goes_in_at_the_glue_up() -> None:
    piece, _ = example("dovetailed-box")
    tray = next(g for g in glueups(piece) if "tray left" in g.parts)
    assert tray.enclosed == ("tray bottom",) and "tray bottom" not in tray.parts


def test_steps_are_numbered_and_every_set_up_has_one() -> None:
    for name in sorted(p.stem for p in Path("examples").glob("*.yaml")):
        _, lists = example(name)
        assert [row.number for row in lists.work] == list(range(1, len(lists.work) + 1))
        keys = [row.key for row in lists.work if row.key.startswith("set-up")]
        assert sorted(keys) == sorted(f"set-up {row.number}" for row in lists.setups)


def test_the_blank_is_cut_whole_before_the_rest_and_parted_in_turn() -> None:
    desk = "sketching-desk"
    assert at(desk, "Cut the blank case whole") < at(desk, "Cut all other parts") < at(desk, "Set-up 1:")
    assert "Do not crosscut" in steps(desk)[at(desk, "Cut the blank case whole")]
    assert "The parts of blank case in turn." in steps(desk)[at(desk, "Set-up 1:")]


def test_what_comes_after_glueing_mating_and_measuring() -> None:
    desk = "sketching-desk"
    rows = example(desk)[1].work
    text = steps(desk)
    glued = next(i for i, r in enumerate(rows) if r.key == "glue bottom")
    assert text[glued - 1].startswith("Slide bottom, then divider in dry") and text[glued - 2].startswith(
        "Plane the tongue"
    )
    assert "after glue-up" in text[glued - 4]
    mated = next(i for i, s in enumerate(text) if "mark through" in s)
    assert mated > glued
    fronts = next(i for i, r in enumerate(rows) if r.key == "fit drawer.front")
    assert text[fronts - 1].startswith("Hang the box of drawer") and rows[fronts].hold
    assert "strips of 1/32 in" in text[fronts]
    assert at(desk, "Fasten") > at(desk, "Finish")
    assert text[-2].startswith("Fasten left cheek to easel.left") or "pivot bolt" in text[-2]  # what tilts comes last


def at_key(name: str, key: str) -> int:
    return next(i for i, row in enumerate(example(name)[1].work) if row.key == key)


def test_small_things_are_made_before_they_are_needed() -> None:
    assert at("side-table", "Make 8 × button") < at_set_up("side-table", "hand drill, pilot hole")
    assert at("map-case", "Make 8 × key") < at("map-case", "Make 4 × key") < at("map-case", "Dry fit")
    made = [s for s in steps("sketching-desk") if s.startswith("Make or buy")]
    assert sum(int(s.split()[3]) for s in made) == 10  # 2 a side in the stand, 2 at the stretcher, 4 in the easel
    glued = [s for s in steps("sketching-desk") if "With it go in" in s]
    assert len(glued) == 4 and all("loose tenon" in s for s in glued)


def test_keys_and_plugs_are_glued_in_before_the_finish() -> None:
    keys = [i for i, s in enumerate(steps("map-case")) if s.startswith("Glue into their slots")]
    assert len(keys) == 2 and keys[-1] < at("map-case", "Finish")
    assert (
        at("settle", "Fasten left end to left stile")
        < at("settle", "Glue in over the heads")
        < at("settle", "Take everything")
    )


def test_dowel_holes_are_marked_before_the_glue_up_and_dowels_go_in_with_the_glue() -> None:
    text = steps("map-case")
    drilled = next(i for i, s in enumerate(text) if "Mark from the holes of rail" in s)
    glued = next(i for i, s in enumerate(text) if "With it go in: 4 × dowel, fluted, 6 × 27 mm." in s)
    assert drilled < glued and not any("Clamp them in place" in s for s in text)
    assert not any("dowel" in s for s in text[glued + 1 :])


def test_what_lies_in_rabbets_and_grooves_gets_a_step_that_says_what_the_file_leaves_open() -> None:
    cabinet = steps("door-cabinet")
    assert "fixed with 24 × wood screws" in cabinet[at("door-cabinet", "Lay case back")]
    for side in ("left", "right"):
        assert "bottom bead hold it." in cabinet[at("door-cabinet", f"Lay {side} door pane")]
    assert "with 28 × brads, 1 × 16 mm" in cabinet[at("door-cabinet", "Fix left door left bead")]
    desk = "sketching-desk"
    for start in ("Lay back into", "Slide drawer bottom", "Lay easel panel", "Fix drawer front"):
        assert at(desk, start) > at(desk, "Finish") and " wood screws, " in steps(desk)[at(desk, start)]
    text = Path(f"examples/{desk}.yaml").read_text(encoding="utf-8")
    loose = "\n".join(line for line in text.split("\n") if "- fixed:" not in line)
    piece = build(read_project("loose.yaml", loose, WORDS, {}), WORDS)
    solids = Solids(piece)
    told = [r.what for r in schedules(piece, solids, kinds(piece, solids)).work]
    assert sum("the file states no fixing" in t for t in told) == 4
    # what goes in at the glue-up needs no step of its own
    assert not any(s.startswith(("Slide", "Lay")) for s in steps("dovetailed-box"))


def test_what_no_joint_holds_is_told_with_the_file_s_note() -> None:
    told = steps("dovetailed-box")[at("dovetailed-box", "Fit and fix")]
    assert told.endswith("It notes, left ledge, right ledge: glued to the side.")


def test_a_front_is_no_part_of_the_box_that_is_hung_before_it_is_cut() -> None:
    desk = example("sketching-desk")[1].work
    assert "drawer.front" not in desk[at_key("sketching-desk", "hang drawer")].parts
    assert sum("slides" in r.what and not r.hold for r in desk) == 2  # hung, and put back after the finish


def test_what_is_turned_keeps_its_waste_for_the_centres() -> None:
    for name, part in (("splayed-stool", "front left leg"), ("tool-tote", "handle")):
        rows = example(name)[1].work
        assert part in next(r for r in rows if r.what.startswith("Leave")).parts
        assert all(part not in r.parts for r in rows if "square to length" in r.what)


def test_panes_are_ordered_when_their_place_is_measured() -> None:
    for name in ("door-cabinet", "map-case"):
        assert not any(s.startswith("Measure the float glass") for s in steps(name))
        order = next(s for s in steps(name) if "then order" in s)
        assert "Measure its thickness when it comes, 4 mm as drawn" in order


def test_beads_are_measured_in_the_frame_and_a_back_that_runs_out_has_no_gap_there() -> None:
    _, lists = example("door-cabinet")
    beads = [h for h in lists.chain.holds if h.what.startswith("the place of door bead")]
    assert len(beads) == 2 and all("bead" not in h.what.partition(": ")[2] for h in beads)
    back = next(h for h in lists.chain.holds if h.what.startswith("the place of case back"))
    assert back.moves == "its length in full, its width less 1 mm a side"


def test_tapers_come_when_the_joints_are_fitted() -> None:
    assert at("side-table", "Plane the tenon") < at_set_up("side-table", "table saw, taper")


def test_frames_that_lean_in_the_piece_lie_flat_at_the_gluing() -> None:
    # nine slats, square to their rails, leaning back as one
    slats = next(s for s in steps("settle") if s.startswith("Glue up: 18"))
    assert "flat on the bench, clamps along slat 1" in slats and "wedge" not in slats
    assert sum("wedge blocks" in s for s in steps("sketching-desk")) == 4  # legs that stand at an angle to each other


def test_hinge_screws_are_marked_through_the_hinge_when_it_is_fitted() -> None:
    for name in ("dovetailed-box", "door-cabinet"):
        place = next(i for i, s in enumerate(steps(name)) if "mark through its own holes" in s)
        assert at(name, "Glue up") < place < at(name, "Finish")


def test_a_step_names_all_holes_of_its_set_up() -> None:
    assert any("tapped holes A, B, C; tapped hole D for the pivot" in s for s in steps("sketching-desk"))


def test_the_last_step_sends_only_what_hangs_to_the_wall() -> None:
    assert "through its holes W" in steps("map-case")[-1]
    assert not any("wall" in steps(name)[-1] for name in ("dovetailed-box", "tool-tote", "splayed-stool", "side-table"))


def test_hold_points_of_the_work_are_those_of_the_chain() -> None:
    _, lists = example("sketching-desk")
    seen = " ".join(row.see for row in lists.work if row.hold)
    for hold in lists.chain.holds:
        if hold.parts or hold.what.startswith("thickness"):
            assert f"{hold.name}" in seen


def test_clamps_by_the_45_rule() -> None:
    # bottom 15 in deep, board and caul 13/16 each: spacing 2 · 1 5/8 = 3 1/4 in, so 5 clamps (common practice)
    glue = next(r for r in example("sketching-desk")[1].work if r.key == "glue bottom")
    assert "5 clamps across the width of bottom" in glue.what


def test_boards_that_are_wider_than_the_stock_are_glued_up_first() -> None:
    text = Path("examples/side-table.yaml").read_text(encoding="utf-8")
    said = next(line for line in text.splitlines() if "species" in line and "thickness: board" in line)
    wide = text.replace(said, said.replace("thickness: board", "thickness: board, stock: [2400, 150]"))
    piece = build(read_project("side-table.yaml", wide, WORDS, {}), WORDS)
    solids = Solids(piece)
    told = [r.what for r in schedules(piece, solids, kinds(piece, solids)).work]
    assert any(t.startswith("Glue up top to") and "3 boards" in t for t in told)
    assert not any(t.startswith("Glue up top to") for t in steps("side-table"))


@pytest.mark.parametrize(
    "machine, values, word",
    [
        ("table saw", (("gauge, from square", 14, "angle"),), "end over end"),
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


def test_jigs_with_their_sizes_and_until_when() -> None:
    _, lists = example("sketching-desk")
    rows = {row.what: row for row in lists.jigs}
    sled = rows["sled for the steep end"]
    assert "60° from square" in sled.size
    block = rows["drill block and tap block"]
    # #7 is 0.201 in: four diameters are 0.804, made of 1 in; the collar at 1 + 7/8
    assert block.size.startswith("hardwood 1 in thick, drilled #7") and "collar on the drill at 1 7/8 in" in block.size
    numbers = {r.key: r.number for r in lists.work if r.key}
    assert rows["trial mate"].until in {f"step {r.number}" for r in lists.work} | {r.until for r in lists.jigs}
    spacer = next(r for r in lists.jigs if "1/32 in thick" in r.size)
    assert spacer.until == f"step {numbers['fit drawer.front']}"
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
