import pytest

from tests.piece.joints.making import one_problem, size_of, trial

# Two rails 20 thick: one 400 long and 60 wide across, one 300 long and 40 wide upward, both from deep 0 to 20.
LAP = """
parts:
  rail: {of: board, grain: across, box: {across: [0, 400], deep: [0, 20], up: %s}}
  stile: {of: board, grain: up, box: {across: %s, deep: [0, 20], up: [0, 300]}}
joints:
  - half lap: {over: rail, under: stile, face: front}
"""
CROSS = LAP % ("[100, 160]", "[150, 190]")
CORNER = LAP % ("[240, 300]", "[0, 40]")
# The stile ends in the middle of the rail.
TEE = LAP % ("[270, 330]", "[150, 190]")


@pytest.mark.parametrize(
    ("body", "area"),
    [
        (CROSS, 40 * 60),
        (CORNER, 40 * 60),
        (TEE, 40 * 30),  # up 270 to 300
    ],
)
def test_each_part_loses_half_the_thickness_of_what_they_share(body, area):
    frame = trial(body)
    assert frame.volume("rail") == pytest.approx(400 * 60 * 20 - area * 10)
    assert frame.volume("stile") == pytest.approx(300 * 40 * 20 - area * 10)
    assert frame.figure("half lap", "depth of each notch") == 10
    assert frame.clashes() == []


def test_first_part_keeps_the_face_that_is_said():
    frame = trial(CROSS)
    # In the crossing, 170 across and 130 up: in front (deep 0 to 10) the rail, behind it the stile.
    for deep, rail in ((1, True), (9, True), (11, False), (19, False)):
        assert frame.inside("rail", (170, deep, 130)) is rail
        assert frame.inside("stile", (170, deep, 130)) is not rail
    turned = trial(CROSS.replace("face: front", "face: back"))
    assert turned.inside("rail", (170, 19, 130)) and turned.inside("stile", (170, 1, 130))
    assert turned.clashes() == []


def test_crossing_has_two_walls_and_a_corner_one():
    cross, corner = trial(CROSS), trial(CORNER)
    # The rail's notch from 150 to 190 of its length; the stile's from 100 to 160.
    assert cross.marks("rail") == [(150.0, -1), (190.0, 1)]
    assert cross.marks("stile") == [(100.0, -1), (160.0, 1)]
    assert corner.marks("rail") == [(40.0, 1)]
    assert corner.marks("stile") == [(240.0, -1)]
    depth = [p for s in cross.sizes("rail", "notch") for p in s.parameters if p.startswith("thickness")]
    assert size_of(cross.sizes("rail", "notch"), *depth) == 10


@pytest.mark.parametrize(
    ("body", "code", "text"),
    [
        (LAP % ("[310, 370]", "[150, 190]"), "lap-apart", "10 mm beside"),
        (LAP % ("[300, 360]", "[150, 190]"), "lap-apart", "only touches"),
        (CROSS.replace("deep: [0, 20], up: [0, 300]", "deep: [5, 25], up: [0, 300]"), "lap-not-level", "not level"),
        (CROSS.replace("face: front", "face: top"), "lap-face", "broad face"),
        (CROSS.replace("[150, 190], deep: [0, 20]", "[150, 170], deep: [-10, 30]"), "lap-not-crossed", "right angle"),
    ],
)
def test_what_cannot_be_lapped_is_told(body, code, text):
    found = one_problem(body)
    assert found.code == code and text in found.message


def test_leaning_part_is_told():
    turn = "up: [0, 300]}, turn: {about: deep, at: {across: 170, up: 130}, by: 10 deg}"
    assert one_problem(CROSS.replace("up: [0, 300]}", turn)).code == "lap-not-crossed"
