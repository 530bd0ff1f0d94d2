"""Where a part stands that is fixed to another, and what leads a drill that goes through two of them."""

import math

from docgen.schedules.leading import led_by
from docgen.schedules.standing import standing
from tests.support.steps import BOARDS, at_set_up, example, listed, steps

LEDGE = (
    BOARDS
    + """\
parts:
  side: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 400]}}
  front: {of: boards, grain: across, box: {across: [20, 420], deep: [0, 20], up: [0, 400]}}
  back: {of: boards, grain: across, box: {across: [20, 420], deep: [280, 300], up: [0, 400]}}
  ledge: {of: boards, grain: deep, box: {across: [20, 40], deep: [FRONT, 280], up: [150, 170]}}
"""
)


def test_a_ledge_stands_between_what_its_ends_meet_and_above_an_end_of_what_it_lies_on() -> None:
    piece, lists = listed(LEDGE.replace("FRONT", "20"))
    assert standing(piece, ["ledge"]) == (
        "ledge on side: between front, back; its bottom edge 150 mm from the bottom end",
    )
    told = next(row.what for row in lists.work if row.what.startswith("Fit and fix"))
    assert "its bottom edge 150 mm from the bottom end" in told and "where the drawings show" not in told
    piece, _ = listed(LEDGE.replace("FRONT", "60"))
    assert "its front end 60 mm from the front edge" in standing(piece, ["ledge"])[0]


def test_the_ledges_of_a_box_have_their_height_in_the_step_that_fixes_them() -> None:
    told = next(s for s in steps("dovetailed-box") if s.startswith("Fit and fix"))
    assert (
        "its bottom edge 2 in from the other's bottom edge" in told
        and "Noted: left ledge, right ledge: glued to the side" in told
    )


def test_what_leans_is_placed_by_a_corner_and_its_lean_where_it_is_clamped_to_be_drilled() -> None:
    # the foot of the back 15 3/4 from the front edge of 20 1/2, 17 1/2 up of 25: 1/2 above the seat; 12° back
    told = steps("settle")[at_set_up("settle", "pilot holes A")]
    assert "its bottom front corner 7 1/2 in from the other's top end, 4 3/4 in from the other's back edge" in told
    assert "leaning 12° to the back" in told


BRACE = (
    BOARDS
    + """\
parts:
  side: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 400]}}
  brace: {of: boards, grain: up, box: {across: [20, 40], deep: [100, 140], up: [50, 250]}}
groups:
  braces: {parts: [brace], turn: {about: across, at: {deep: 100, up: 50}, by: ANGLE deg}}
"""
)


def test_what_leans_and_is_held_by_nothing_is_placed_on_the_face_that_it_lies_against() -> None:
    piece, lists = listed(BRACE.replace("ANGLE", "-15"))
    (told,) = standing(piece, ["brace"])
    assert told == (
        "brace on side: its bottom front corner 50 mm from the other's bottom end, 100 mm from the other's front edge, leaning 15° "
        "to the back"
    )
    assert any(
        "50 mm from the other's bottom end, 100 mm from the other's front edge" in row.what for row in lists.work
    )
    piece, _ = listed(BRACE.replace("ANGLE", "-15").replace("across: [20, 40]", "across: [21, 41]"))
    assert standing(piece, ["brace"]) == ()  # it touches nothing


def test_what_is_cut_at_a_slant_is_placed_by_a_corner_that_is_left_and_a_glued_stand_once() -> None:
    # legs cut level 3/4 under the case's top; 14° from plumb through 8.97 deep, 27 up: front arris there 8.97 + 0.75 tan 14°
    # less half of 2 1/2 measured level, 2.5 / cos 14° / 2
    told = steps("sketching-desk")[at_set_up("sketching-desk", "tapped holes A")]
    front = 8.97 + 0.75 * math.tan(math.radians(14)) - 1.25 / math.cos(math.radians(14))
    assert "Left front leg on case left side, right front leg on case right side: its top front corner" in told
    assert f"3/4 in from the other's top end, {front:.3f}" in told and "leaning 14° to the back" in told
    assert "rear leg on" not in told  # glued to the front leg
    assert "\nEasel left rail on left cheek, easel right rail on right cheek: its back end 2 1/4 in beyond" in told


def test_holes_that_go_on_where_another_parts_holes_end_are_drilled_through_them() -> None:
    piece, lists = example("map-case")
    told = steps("map-case")[at_set_up("map-case", "Lay back in place")]
    assert "hand drill, hole W. Lay back in place, drill through the holes of rail" in told
    row = next(s for s in lists.setups if ("back", "hole") in s.parts)
    assert "led by the holes of rail" in row.note and "block" not in row.note
    back, rail = piece.part("back"), piece.part("rail")
    assert [led_by(piece, back, f) for f in back.features if f.title == "hole"] == ["rail"]
    assert all(led_by(piece, rail, f) == "" for f in rail.features)


def test_a_hole_beside_the_line_or_of_another_size_is_led_by_none() -> None:
    text = LEDGE.replace("FRONT", "20") + (
        "holes:\n"
        "  - hole: {part: front, face: front, name: W, diameter: 5, at: [{across: 100, up: 50}]}\n"
        "  - hole: {part: back, face: front, name: W, diameter: DIA, stage: fitted, at: [{across: AT, up: 50}]}\n"
    )
    for wide, at, guide in (("5", "100", "front"), ("6", "100", ""), ("5", "101", "")):
        piece, _ = listed(text.replace("DIA", wide).replace("AT", at))
        back = piece.part("back")
        assert [led_by(piece, back, f) for f in back.features] == [guide], (wide, at)


def test_a_tray_comes_after_the_ledges_that_it_stands_on_and_is_placed_once() -> None:
    told = steps("dovetailed-box")
    ledges = next(i for i, s in enumerate(told) if s.startswith("Fit and fix left ledge"))
    tray = next(i for i, s in enumerate(told) if s.startswith("Fit tray left"))
    assert ledges < tray and told[tray].count("from the other's front end") == 1


def test_what_lies_on_sloping_edges_is_placed_before_its_screws_are_drilled_for() -> None:
    # the sides of the tote reach 1/4 past its ends and stand flush with their feet; told once for each side
    told = [s for s in steps("tool-tote") if "Lay the parts together" in s]
    placed = [
        s
        for s in told
        if "its bottom left corner flush with the other's bottom end, 1/4 in beyond the other's left face)" in s
    ]
    assert len(told) == 6 and [s.split(":")[0] for s in placed] == [
        "Fasten front to left end",
        "Fasten back to left end",
    ]
