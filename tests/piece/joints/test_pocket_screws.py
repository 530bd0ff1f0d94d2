from math import cos, radians, sin, tan

import pytest

from docgen.piece.records import Authority
from tests.piece.joints.making import problems, trial

# A rail 20 thick whose left end touches a stile; pockets in its back at 15°, leaving the end 10 under the back.
RAIL = """
parts:
  stile: {of: board, grain: up, box: {across: [0, 50], deep: [0, 20], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [50, 300], deep: [0, 20], up: [300, 380]}}
joints:
  - pocket screws: {through: rail, into: stile, face: %s, at: %s, length: %s, jig: {bore: 9.5, pilot: 3.6, shoulder: 12}%s}
"""
TWO = "[{up: 320}, {up: 360}]"


def test_the_pocket_leaves_the_end_in_its_middle_at_the_jigs_angle():
    frame = trial(RAIL % ("back", TWO, 32, ""))
    (row,) = frame.holes("rail")
    mouth = 10 / tan(radians(15))
    assert frame.figure("pocket screws", "mouth from the end, on the face") == pytest.approx(mouth)
    assert [float(p[0]) for p in row.points] == pytest.approx([mouth, mouth])
    # On the axis halfway between seat and end the wood is gone, beside it it stands; the axis leaves at 10 deep.
    for s, gone in ((6, True), (11.9, True)):
        x, y = 50 + s * cos(radians(15)), 10 + s * sin(radians(15))
        assert frame.inside("rail", (x, y, 320)) is not gone
        assert frame.inside("rail", (x, y, 323))
    assert not frame.inside("rail", (50.1, 10, 320)) and frame.inside("rail", (50.1, 14, 320))
    # The wide part ends 12 from the end.
    x, y = 50 + 12.2 * cos(radians(15)), 10 + 12.2 * sin(radians(15))
    assert not frame.inside("rail", (x, y, 324))
    assert row.authority is Authority.HARDWARE and "own sheet rules" in row.note
    assert row.drill == "3.6 mm" and "stepped bit 9.5" in row.note


def test_screws_are_worked_out_along_their_slant():
    frame = trial(RAIL % ("back", TWO, 32, ""))
    (screw,) = frame.piece.fasteners
    assert (screw.count, float(screw.grip), float(screw.engagement)) == (2, 12, 20)
    assert screw.direction == pytest.approx((-cos(radians(15)), -sin(radians(15)), 0))
    assert screw.points[0] == pytest.approx((50 + 12 * cos(radians(15)), 10 + 12 * sin(radians(15)), 320))
    assert frame.figure("pocket screws", "square into the other part") == pytest.approx(20 * cos(radians(15)))
    assert screw.depends == ("milling of board",)


def test_pockets_in_the_front_lean_the_other_way_and_a_right_end_too():
    body = (RAIL % ("front", TWO, 32, "")).replace("across: [0, 50]", "across: [300, 350]")
    frame = trial(body)
    x, y = 300 - 6 * cos(radians(15)), 10 - 6 * sin(radians(15))
    assert not frame.inside("rail", (x, y, 320)) and frame.inside("rail", (x, y, 326))
    assert frame.piece.fasteners[0].direction == pytest.approx((cos(radians(15)), sin(radians(15)), 0))


@pytest.mark.parametrize(
    ("said", "code"),
    [
        (("back", TWO, 11, ""), "screw-too-short"),
        (("back", TWO, 70, ""), "pocket-through"),
        (("back", "[{across: 60}]", 32, ""), "pocket-place"),
        (("back", "[{up: 500}]", 32, ""), "screw-beside-part"),
        (("back", TWO, 32, ", leaves: 2"), "pocket-shallow"),
        (("left", TWO, 32, ""), "parts-do-not-meet"),
    ],
)
def test_what_cannot_be_is_told(said, code):
    assert {p.code for p in problems(RAIL % said)} == {code}
