"""Screws into the wall: on the list, as long as what they pass and what the file states of the wall."""

from math import cos, radians

import pytest

from docgen.schedules.hardware import hardware
from docgen.schedules.wall_screws import WALL, screws, wall_screws
from tests.examples.test_pieces import example
from tests.piece.joints.making import Trial, built

HEAD = """\
docgen: 1
piece: Trial
stands: %s
units: %s
materials:
  board: {species: white oak, thickness: %s}
  ply: {sheet: "plywood, birch", thickness: %s}
"""

# A rail 20 thick, a back 6 thick behind it, and 10 of air between the back and the sides' back edges at the wall.
PARTS = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  rail: {of: board, grain: across, box: {across: [20, 400], deep: [164, 184], up: [200, 280]}}
  back: {of: ply, grain: across, box: {across: [20, 400], deep: [184, 190], up: [0, 300]}}
holes:
  - hole: {part: rail, face: %s, name: W, diameter: 5, at: [{across: 100, up: 240}, {across: 300, up: 240}]%s}
"""
BEHIND = (
    "  - hole: {part: back, face: front, name: W, diameter: 5, at: [{across: 100, up: 240}, {across: 300, up: 240}]}\n"
)
STATED = "conditions: {wall: {covering: 12.5, embedment: 40}}\n"


def shelf(more: str = "", *, face: str = "front", hole: str = "", stands: str = "wall") -> Trial:
    return built(HEAD % (stands, "mm", 20, 6) + PARTS % (face, hole) + more)


def test_the_length_is_what_the_screw_passes_and_what_is_stated_of_the_wall() -> None:
    (row,) = wall_screws(shelf(BEHIND + STATED).piece)
    # 20 of rail, 6 of back, 10 of air, 12.5 of covering, 40 in the wall: 88.5, to the full millimetre 89.
    assert (row.count, row.size) == (2, "to pass 5 mm, at least 89 mm long")
    assert row.note.startswith("length from rail 20 + back 6 + air 10 + covering 12.5 + in the wall, as stated 40; ")
    assert row.what == "screw into the wall, with a washer" and row.where == "W: rail"
    assert row.depends == ("the wall is known",) and row.group == WALL


def test_the_list_promises_nothing_of_what_the_wall_carries() -> None:
    (row,) = wall_screws(shelf(STATED).piece)
    assert "builder or the local code says" in row.note and "promises no load" in row.note
    assert row in hardware(shelf(STATED).piece, ())


def test_without_a_word_of_the_wall_the_length_is_left_open() -> None:
    (row,) = wall_screws(shelf().piece)
    assert row.size == "to pass 5 mm" and "measure both at the wall" in row.note


def test_a_piece_that_stands_has_none() -> None:
    assert wall_screws(shelf(STATED, stands="floor").piece) == ()


def test_holes_on_one_axis_are_one_screw_and_others_are_not() -> None:
    assert [s.part.path for s in screws(shelf(BEHIND).piece)] == ["rail", "rail"]
    aside = BEHIND.replace("up: 240", "up: 100")
    assert [s.part.path for s in screws(shelf(aside).piece)] == ["rail", "rail", "back", "back"]


@pytest.mark.parametrize(
    ("hole", "what", "total"),
    [
        ("", "with a washer", 36),
        (", countersink: 10", "flat head", 36),
        (", counterbore: 12, counterbore depth: 8", "head in the counterbore", 28),
    ],
)
def test_the_head_lies_as_the_holes_mouth_is_made(hole: str, what: str, total: float) -> None:
    (row,) = wall_screws(shelf(hole=hole).piece)
    assert row.what == f"screw into the wall, {what}"
    assert {round(s.total, 6) for s in screws(shelf(hole=hole).piece)} == {total}


def test_a_hole_drilled_from_the_back_has_its_head_in_front() -> None:
    made = screws(shelf(face="back").piece)
    assert {round(s.head[1], 6) for s in made} == {164} and {s.way for s in made} == {(0.0, 1.0, 0.0)}


def test_a_hole_that_leans_passes_more_of_everything() -> None:
    lean = ", lean: {top: 10 deg}"
    made = screws(shelf(hole=lean).piece)
    assert made[0].layers[0] == ("rail", pytest.approx(20 / cos(radians(10))))
    (row,) = wall_screws(shelf(STATED, hole=lean).piece)
    assert row.size == "to pass 5 mm, at least 90 mm long"  # 88.5 / cos 10° = 89.87


def test_inches_go_to_the_next_eighth() -> None:
    text = (
        HEAD % ("wall", "inch", "3/4", "1/4")
        + """
parts:
  rail: {of: board, grain: across, box: {across: [0, 16], deep: [0, 3/4], up: [0, 3]}}
holes:
  - hole: {part: rail, face: front, name: W, diameter: 3/16, at: {across: 8, up: 1 1/2}}
conditions: {wall: {covering: 5/8, embedment: 1 1/2}}
"""
    )
    (row,) = wall_screws(built(text).piece)
    # 3/4 + 5/8 + 1 1/2 is 2 7/8 exactly.
    assert row.size == "to pass 3/16 in, at least 2 7/8 in long" and row.count == 1


def test_examples_that_hang_list_their_screws() -> None:
    for name, size, chain in (
        ("wall-shelf", "to pass 5 mm", "length from rail 20 + the wall's covering"),
        ("map-case", "to pass 5 mm, at least 84 mm long", "length from rail 20 + back 9 + covering 15"),
    ):
        (row,) = wall_screws(example(name).piece)
        assert (row.count, row.size) == (2, size) and row.note.startswith(chain)
