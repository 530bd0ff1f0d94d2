"""Frames of stiles and rails: open, with panels, with panes."""

import pytest

from docgen.piece.records import Authority
from tests.piece.joints.making import built, one_problem, trial

FACE = """
assemblies:
  face:
    face frame:
      box: {across: [0, 600], deep: [0, 20], up: [100, 800]}
      material: board
      width: 50
      bottom: 70
      middle: [500]
      middle width: 40
      %s
"""
TENONS = "tenons: {thickness: 7, length: 30, outer: 12}"


@pytest.mark.parametrize(
    ("corners", "joints", "level"),
    [
        (TENONS, {"mortise and tenon": 6}, (50, 550)),
        ("half laps: yes", {"half lap": 6}, (0, 600)),
        ("bridles: {thickness: 7}", {"bridle": 6}, (0, 600)),
        ("dowels: {diameter: 8, count: 2, depth: 20}", {"dowel": 6}, (50, 550)),
        ("loose tenons: {thickness: 6, width: 20, depth: 20}", {"loose tenon": 6}, (50, 550)),
    ],
)
def test_rails_lie_between_stiles_and_are_joined_as_said(corners, joints, level):
    made = trial(FACE % corners)
    assert [p.path for p in made.piece.parts] == [
        f"face.{n}" for n in ("left stile", "right stile", "bottom rail", "middle rail", "top rail")
    ]
    assert [made.part(f"face.{r} rail").box[2] for r in ("bottom", "middle", "top")] == [
        (100, 170), (500, 540), (750, 800)]  # fmt: skip
    assert made.part("face.top rail").box[0] == level
    words = [j.word for j in made.piece.joints for _ in j.parts[1:]]
    assert {w: words.count(w) for w in words} == joints
    assert made.clashes() == []
    assert made.part("face.left stile").called == "face left stile"
    assert made.part("face.top rail").called == "face top rail"


def test_outer_shoulders_close_the_mortises_at_the_ends():
    made = trial(FACE % TENONS)
    # 50 and 70 wide less 12 outside; the middle rail has tenons as wide as itself.
    widths = [
        float(next(v for n, v, _ in j.figures if n == "tenon width"))
        for j in made.piece.joints
        if j.parts[1] == "face.left stile"
    ]
    assert sorted(widths) == [38, 40, 58]


@pytest.mark.parametrize(
    ("said", "found"), [("", "nothing"), (f"half laps: yes\n      {TENONS}", "tenons and half laps")]
)
def test_corners_are_joined_in_one_way(said, found):
    problem = one_problem(FACE % said)
    assert problem.code == "frame-corners" and found in problem.message


SIDE = """
assemblies:
  side:
    frame and panel:
      box: {across: [0, 20], deep: [0, 400], up: [0, 700]}
      face: left
      material: board
      width: 60
      %s
      tenons: {thickness: 6, length: 30, outer: 15, haunch: 10}
      panel: {material: thin, thickness: 6, groove: 10, clearance: %s}
"""


def test_a_frame_stands_in_the_side_of_a_case():
    side = trial(SIDE % ("middle: [300]", 2))
    assert [p.path for p in side.piece.parts] == [
        f"side.{n}"
        for n in ("front stile", "back stile", "bottom rail", "middle rail", "top rail", "panel 1", "panel 2")
    ]
    # 400 less 2 × 60 and two tongues of 10 − 2; up from 60 to 300 and from 360 to 640.
    assert side.part("side.panel 1").box == ((7, 13), (52, 348), (52, 308))
    assert side.part("side.panel 2").box[2] == (352, 648)
    assert side.part("side.panel 1").authority is Authority.MEASURE
    # One groove runs through each stile for both panels; the middle rail has one in each edge.
    grooves = {p.path: sum("groove" in f.title for f in p.features) for p in side.piece.parts}
    assert (grooves["side.front stile"], grooves["side.middle rail"], grooves["side.top rail"]) == (1, 2, 1)
    assert [len(j.features) for j in side.piece.joints if j.word == "panel in groove"] == [4, 4]
    assert side.clashes() == []


@pytest.mark.parametrize("clearance", [0, 3])
def test_clearance_makes_the_panel_smaller_and_leaves_the_groove(clearance):
    side = trial(SIDE % ("", clearance))
    assert side.part("side.panel").size[0] == 580 + 20 - 2 * clearance
    (groove,) = side.features("side.top rail", "groove") or side.features("side.top rail", "dado")
    assert 10 in {float(s.value) for s in groove.made.sizes}


def test_haunches_let_the_grooves_run_out():
    side = trial(SIDE % ("", 2))
    # The groove opens the ends of the stile; the haunch stands in it.
    assert not side.inside("side.front stile", (10.0, 55.0, 699.0))
    assert side.inside("side.top rail", (10.0, 55.0, 690.0))
    plain = trial((SIDE % ("", 2)).replace(", haunch: 10", ""))
    assert plain.inside("side.front stile", (10.0, 55.0, 699.0))


WINDOW = """
assemblies:
  sash:
    frame and panel:
      box: {across: [0, 400], deep: [0, 20], up: [0, 600]}
      face: %s
      material: board
      width: 50
      tenons: {thickness: 6, length: 25, outer: 12}
      glass: {material: thin, thickness: 6, rabbet: 9, depth: 13, clearance: 2%s}
materials:
  board: {species: sugar maple, thickness: 20}
  thin: {sheet: "plywood, birch", thickness: 6}
  strip: {species: sugar maple, thickness: 7}
"""


def window(face: str, more: str = ""):
    return built("docgen: 1\npiece: Trial\nunits: mm\n" + WINDOW % (face, more))


@pytest.mark.parametrize(("face", "pane", "bead"), [("front", (7, 13), (13, 20)), ("back", (7, 13), (0, 7))])
def test_a_pane_lies_on_the_floor_of_its_rabbet_behind_beads(face, pane, bead):
    sash = window(face, ", beads: {material: strip}")
    # 300 × 500 in the clear, 9 of rabbet less 2 of clearance on each side.
    assert sash.part("sash.pane").box == ((43, 357), pane, (43, 557))
    assert sash.part("sash.left bead").box == ((41, 50), bead, (41, 559))
    assert sash.part("sash.top bead").box == ((41, 359), bead, (550, 559))
    assert len([j for j in sash.piece.joints if j.word == "mitre"]) == 4
    assert sash.clashes() == []
    (note,) = sash.piece.panes
    assert note.rabbet == (9, 13) and note.clearance == 2


def test_a_bed_lifts_the_pane_off_the_floor():
    sash = window("front", ", bed: 1")
    assert sash.part("sash.pane").box[1] == (8, 14)


def test_stiles_keep_their_ends_and_rails_are_cut_right_through():
    sash = window("front")
    assert sash.inside("sash.left stile", (45.0, 15.0, 5.0)) and not sash.inside("sash.left stile", (45.0, 15.0, 45.0))
    assert not sash.inside("sash.top rail", (51.0, 15.0, 551.0))
    assert sash.clashes() == []


def test_a_frame_holds_panels_or_panes():
    problem = one_problem(SIDE.partition("      panel:")[0] % "")
    assert problem.code == "frame-infill" and "neither" in problem.message


def test_a_groove_for_two_panels_has_one_image():
    text = (
        SIDE % ("middle: [300]", 2)
        + """
mirrors:
  right side: {of: side, about: {across: 300}}
"""
    )
    made = trial(text)
    joints = [j for j in made.piece.joints if j.word == "panel in groove"]
    assert [len(j.features) for j in joints] == [4, 4, 4, 4]
    assert made.volume("side.back stile") == pytest.approx(made.volume("right side.back stile"), rel=1e-9)


POCKETS = "pocket screws: {length: 32, jig: {bore: 9.5, pilot: 3.5, shoulder: 12}}"


def spans(made, *names: str):
    return [made.part(f"face.{name}").box[0] for name in names]


@pytest.mark.parametrize(
    ("corners", "word"),
    [
        (TENONS, "mortise and tenon"),
        ("dowels: {diameter: 8, count: 2, depth: 20}", "dowel"),
        ("loose tenons: {thickness: 6, width: 20, depth: 20}", "loose tenon"),
        (POCKETS, "pocket screws"),
    ],
)
def test_middle_stiles_leave_equal_openings_and_are_joined_as_the_rails(corners, word):
    made = trial(FACE % f"middle stiles: {{bay: 1, count: 2, width: 40}}\n      {corners}")
    # Between 50 and 550 less two of 40 three openings of 140 are left.
    assert spans(made, "middle stile 1", "middle stile 2") == [(190, 230), (370, 410)]
    assert made.part("face.middle stile 1").box[2] == (170, 500)
    words = [j.word for j in made.piece.joints for _ in j.parts[1:]]
    assert words == [word] * 10
    pairs = {(j.parts[0], p) for j in made.piece.joints for p in j.parts[1:]}
    assert {("face.middle stile 2", "face.bottom rail"), ("face.middle stile 2", "face.middle rail")} <= pairs
    assert made.clashes() == []
    assert made.part("face.middle stile 1").called == "face middle stile 1"


def test_a_middle_stile_may_stand_at_a_place_in_every_bay_with_short_tenons():
    made = trial(
        FACE % f"middle stiles: {{at: [200], tenon: 15}}\n      {TENONS.replace('outer: 12', 'outer: 12, inner: 8')}"
    )
    assert spans(made, "middle stile 1", "middle stile 2") == [(200, 250), (200, 250)]
    assert [made.part(f"face.middle stile {n}").box[2] for n in (1, 2)] == [(170, 500), (540, 750)]
    tenons = [{n: float(v) for n, v, _ in j.figures} for j in made.piece.joints if "middle stile" in j.parts[0]]
    assert [(t["tenon length"], t["tenon width"]) for t in tenons] == [(15, 34)] * 4
    assert made.clashes() == []


@pytest.mark.parametrize(("corners", "word"), [("half laps: yes", "half lap"), ("bridles: {thickness: 7}", "bridle")])
def test_a_lapped_middle_stile_reaches_over_both_rails(corners, word):
    one = FACE.replace("      middle: [500]\n      middle width: 40\n", "")
    made = trial(one % f"middle stiles: {{count: 1}}\n      {corners}")
    assert made.part("face.middle stile").box == ((275, 325), (0, 20), (100, 800))
    assert [j.word for j in made.piece.joints] == [word] * 6 and made.clashes() == []
    crossed = one_problem(FACE % f"middle stiles: {{count: 1}}\n      {corners}")
    assert crossed.code == "frame-stiles" and "cross" in crossed.message


def test_middle_rails_may_be_counted():
    frame = (FACE % TENONS).replace("middle: [500]", "middle count: 2")
    made = trial(frame)
    # From 170 to 750 less 2 × 40 in three.
    lows = [float(made.part(f"face.middle rail {n}").box[2][0]) for n in (1, 2)]
    assert lows == pytest.approx([170 + 500 / 3, 170 + 1000 / 3 + 40]) and made.clashes() == []
    assert one_problem(frame.replace("middle count: 2", "middle: [500]\n      middle count: 2")).code == "frame-spacing"


def test_counts_depend_on_sizes_alone():
    said = "middle stiles: {count: %s}\n      " + TENONS
    counted = trial((FACE % (said % "doors - 1")).replace("assemblies:", "sizes: {doors: 3}\nassemblies:"))
    assert len([p for p in counted.piece.parts if "middle stile" in p.path]) == 4
    assert one_problem(FACE % (said % "face.left stile.right / 25 mm")).code == "repeat-count"


def test_middle_stiles_are_told_apart_from_what_cannot_be():
    for said, code in (
        ("{}", "frame-spacing"),
        ("{at: [200], count: 1}", "frame-spacing"),
        ("{bay: 3, count: 1}", "frame-stiles"),
    ):
        assert one_problem(FACE % f"middle stiles: {said}\n      {TENONS}").code == code


def test_pocket_screws_stand_behind_evenly_over_the_width():
    made = trial(FACE % POCKETS)
    bottom = [f for f in made.piece.fasteners if f.parts == ("face.bottom rail", "face.left stile")]
    assert [f.count for f in bottom] == [2]
    # 70 wide: a quarter and three quarters of it.
    assert sorted(float(p[2]) for p in bottom[0].points) == pytest.approx([100 + 17.5, 100 + 52.5])
    (row,) = {h.face for h in made.holes("face.bottom rail")}
    assert made.part("face.bottom rail").word(row) == "back"
