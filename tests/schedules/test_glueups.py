"""Which joints are glued in one go, in which order, and in what words."""

import math

import pytest

from docgen.piece.build import build
from docgen.project.read import read_project
from docgen.schedules.glueups import connected, direction, glueups, held
from tests.support.steps import BOARDS, WORDS, bearing_case, example, steps


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
    dry = next(row.what for row in lists.work if set(row.parts) == set(case.parts) and row.what.startswith("Dry fit"))
    assert "Bottom, divider stay out: the bearing of a cut on the glued parts would strike them." in dry
    told = next(row.what for row in lists.work if row.key == "glue bottom")
    assert told.startswith("Slide bottom, then divider in from the back, with glue")


@pytest.mark.parametrize(
    ("front", "stop", "slid"),
    [
        ("12", "stop: {front: 15}", ("shelf",)),  # it begins where the cut ends: the bearing strikes it
        ("19", "stop: {front: 22}", ()),  # 7 mm behind the cut: the bearing passes
        ("12", "stop: {front: 15, back: 15}", ()),  # no side to slide it in from
    ],
)
def test_the_edge_at_which_a_part_is_in_the_bearings_way(front: str, stop: str, slid: tuple[str, ...]) -> None:
    text = bearing_case(front=front, back="300", stop=stop)
    units = glueups(build(read_project("trial.yaml", text, WORDS, {}), WORDS))
    assert tuple(p for unit in units for p in unit.slid) == slid
    assert (len(units) == 2) == bool(slid)


def test_round_ends_are_tried_by_hand_and_no_clamp_or_diagonal_is_asked_for() -> None:
    told = [s for s in steps("splayed-stool") if s.startswith(("Dry fit", "Try each", "Glue up: 4"))]
    assert len(told) == 2 and told[0].startswith("Try each round end again by hand in its own socket")
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
    text = (
        BOARDS
        + """\
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
    )
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


def test_frames_that_lean_in_the_piece_lie_flat_at_the_gluing() -> None:
    # nine slats, square to their rails, leaning back as one
    slats = next(s for s in steps("settle") if s.startswith("Glue up: 18"))
    assert "flat on the bench, clamps along slat 1" in slats and "wedge" not in slats
    assert sum("wedge blocks" in s for s in steps("sketching-desk")) == 4  # legs that stand at an angle to each other


def test_clamps_by_the_45_rule() -> None:
    # bottom 15 in deep, board and caul 13/16 each: spacing 2 · 1 5/8 = 3 1/4 in, so 5 clamps (common practice)
    glue = next(r for r in example("sketching-desk")[1].work if r.key == "glue bottom")
    assert "5 clamps on each of bottom, divider" in glue.what
    shelves = next(r for r in example("bookcase")[1].work if r.what.startswith("Glue up:"))
    assert "4 clamps on each of shelf 1 to 5, side by side from edge to edge" in shelves.what


def test_round_ends_among_clamped_joints_are_not_driven_home_dry() -> None:
    dry, glue = (s for s in steps("tool-tote") if "clamps left to right" in s)
    assert "round ends started by hand and not driven home" in dry and "mallet" not in dry
    assert "driven home with a mallet" in glue


def test_a_ring_tells_when_a_round_end_without_a_shoulder_is_home() -> None:
    piece, lists = example("splayed-stool")
    joint = next(j for j in piece.joints if j.word == "socket")
    leg, seat = (piece.part(p) for p in joint.parts)
    middle = [float(leg.size[1]) / 2, float(leg.size[2]) / 2]
    foot, tip = (leg.frame.point((x, middle[0], middle[1])) for x in (0.0, float(leg.size[0])))
    under = float(seat.box[2][0])
    past = math.dist(foot, tip) * (tip[2] - under) / (tip[2] - foot[2])
    assert {n: v for n, v, _ in joint.figures}["end past the face, along its middle"] == pytest.approx(past)
    dry = next(row.what for row in lists.work if row.what.startswith("Try each round end"))
    assert f"Pencil a ring round each, ≈{past:.1f} mm from its tip" in dry
    assert "again by hand in its own socket, by the numbers" in dry  # they were numbered when the kerfs were marked


def test_what_lies_in_a_rabbet_is_pressed_against_its_wall_too() -> None:
    """A dado holds a shelf from above and below; a rabbet at the end of a side is open there."""
    chest, shelves = (next(s for s in steps(n) if s.startswith("Glue up: ")) for n in ("seed-chest", "bookcase"))
    assert "clamps left to right, clamps up and down" in chest
    assert "clamps left to right" in shelves and "up and down" not in shelves
