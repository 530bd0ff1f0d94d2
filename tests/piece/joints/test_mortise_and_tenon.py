import pytest

from docgen.piece.records import Authority, Stage
from tests.piece.joints.making import one_problem, size_of, trial

# A post 60 × 30 and a rail 80 wide, 30 thick, whose left end touches the post's right face at 30.
# The post's length runs up, the rail's width runs up: the tenon stands 12 under the rail's top and 8 over its bottom.
RAIL = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 400], deep: [10, 40], up: [300, 380]}}
joints:
  - mortise and tenon: {end: rail, into: post, %s}
"""
BLIND = RAIL % "thickness: 10, shoulder: {top: 12, bottom: 8}, length: 20"
THROUGH = RAIL % "thickness: 10, shoulder: {top: 12, bottom: 8}, through: yes"


def test_blind_tenon_has_four_shoulders_and_a_deeper_mortise():
    frame = trial(BLIND, thick="30")
    # Tenon up 308 to 368, deep 20 to 30; the mortise's middle 338 up and 25 deep, 20 + 1.5 deep.
    (hole,) = frame.features("post", "mortise")
    told = {k: float(v) for k, v in hole.parameters}
    assert told == {"centre.0": 338, "centre.1": 25, "length": 60, "width": 10, "depth": 21.5}
    assert frame.marks("post") == [(308.0, -1), (368.0, 1)]
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 60 * 10 * 21.5)
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 20 * 60 * 10)
    # 0.25 more on each cheek before the fitting.
    assert frame.volume("rail", Stage.PART) == pytest.approx(370 * 80 * 30 + 20 * 60 * 10.5)
    assert frame.part("rail").span(0) == (-20, 370)
    assert frame.clashes() == []
    assert frame.inside("rail", (11, 21, 309)) and not frame.inside("rail", (11, 19, 309))
    assert not frame.inside("rail", (11, 21, 307)) and not frame.inside("rail", (11, 21, 369))


def test_tenon_is_cut_fat_and_fitted_while_the_mortise_is_cut_to_its_figure():
    frame = trial(BLIND, thick="30")
    (fat,) = [s for s in frame.sizes("rail", "tongue") if s.authority is Authority.FIT]
    assert fat.value == 10 and fat.over == 0.5
    assert all(s.authority is Authority.CUT for s in frame.sizes("post", "mortise"))
    (feature,) = frame.features("rail", "tongue")
    assert feature.made.settings[0].note.endswith("; fit each tenon to its mortise")
    assert ("tenon length", 20, "length") in feature.made.settings[0].values
    assert size_of(frame.sizes("rail", "tongue"), "notch_low") == 8
    assert {s.label for s in frame.sizes("rail", "tongue") if s.parameters == ("notch_high",)} == {"shoulder"}
    assert (frame.figure("mortise and tenon", "mortise depth"), frame.figure("mortise and tenon", "fat")) == (21.5, 0.5)


def test_through_tenon_is_as_long_as_the_post_is_thick():
    frame = trial(THROUGH, thick="30")
    (hole,) = frame.features("post", "mortise")
    assert "depth" not in dict(hole.parameters)
    assert ("depth", "through", "text") in hole.made.settings[0].values
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 60 * 10 * 30)
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 60 * 10 * 30)
    # The tenon's end lies in the post's left face.
    assert frame.inside("rail", (0.1, 25, 338)) and not frame.inside("rail", (-0.1, 25, 338))
    assert frame.clashes() == []


@pytest.mark.parametrize(
    ("said", "wide", "thick", "middle"),
    [
        # one shoulder: bare-faced, flush with the back: deep 28 to 40, and up 300 to 380
        ("thickness: 12, flush: back, length: 20", 80, 12, (340, 34)),
        # two: the cheeks, deep 18 to 32
        ("thickness: 14, length: 20", 80, 14, (340, 25)),
        # two: the edges, as thick as the rail, up 310 to 370
        ("shoulder: {top: 10, bottom: 10}, length: 20", 60, 30, (340, 25)),
        # three: the cheeks and the top, up 300 to 365
        ("thickness: 14, shoulder: {top: 15}, length: 20", 65, 14, (332.5, 25)),
    ],
)
def test_shoulders_on_one_to_three_sides(said, wide, thick, middle):
    frame = trial(RAIL % said, thick="30")
    told = {k: float(v) for k, v in frame.features("post", "mortise")[0].parameters}
    assert (told["centre.0"], told["centre.1"]) == middle
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 20 * wide * thick)
    assert frame.volume("post") == pytest.approx(400 * 60 * 30 - 21.5 * wide * thick)
    assert frame.clashes() == []


def test_inch_file_takes_sixteenth_and_sixty_fourth():
    body = """
    parts:
      post: {of: board, grain: up, box: {across: [0, 1], deep: [0, 2], up: [0, 16]}}
      rail: {of: board, grain: across, box: {across: [1, 16], deep: [1/2, 1 1/2], up: [12, 15]}}
    joints:
      - mortise and tenon: {end: rail, into: post, thickness: 3/8, shoulder: {top: 1/2}, length: 3/4}
    """
    frame = trial(body, units="inch", thick="1", thin="1/4")
    assert frame.figure("mortise and tenon", "mortise depth") == pytest.approx(13 / 16 * 25.4)
    assert frame.figure("mortise and tenon", "fat") == pytest.approx(25.4 / 64)


def test_right_end_of_a_rail_gets_its_tenon_at_the_high_side():
    body = BLIND.replace("across: [0, 30]", "across: [400, 430]")
    frame = trial(body, thick="30")
    assert frame.part("rail").span(0) == (0, 390)
    assert frame.inside("post", (422, 25, 338)) and not frame.inside("post", (421, 25, 338))
    assert frame.clashes() == []


def test_both_ends_are_said_at_once():
    other = "  rail: {of"
    far = "  far post: {of: board, grain: up, box: {across: [400, 430], deep: [0, 60], up: [0, 400]}}\n"
    frame = trial(BLIND.replace(other, far + other).replace("into: post", "into: [post, far post]"), thick="30")
    assert frame.part("rail").span(0) == (-20, 390)
    assert frame.volume("rail") == pytest.approx(370 * 80 * 30 + 2 * 20 * 60 * 10)
    assert frame.volume("far post") == pytest.approx(400 * 60 * 30 - 60 * 10 * 21.5)
    assert [j.parts for j in frame.piece.joints] == [("rail", "post"), ("rail", "far post")]
    assert frame.clashes() == []


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("thickness: 10", "tenon-blind-or-through"),
        ("thickness: 10, length: 20, through: yes", "tenon-blind-or-through"),
        ("length: 20", "tenon-no-shoulder"),
        ("thickness: 10, shoulder: {front: 5}, length: 20", "shoulder-face"),
        ("thickness: 10, flush: top, length: 20", "flush-face"),
        ("thickness: 10, shoulder: {top: 40, bottom: 40}, length: 20", "tenon-too-narrow"),
        ("thickness: 10, length: 29", "depth-range"),
        ("thickness: 40, length: 20", "tenon-too-thick"),
    ],
)
def test_what_cannot_be_cut_is_told(said, code):
    found = [p for p in [one_problem(RAIL % said, thick="30")] if p.code == code]
    assert found


def test_mortise_open_at_the_top_is_told():
    # The rail's top is the post's top, and no shoulder stands there.
    found = one_problem((RAIL % "thickness: 10, length: 20").replace("up: [300, 380]", "up: [320, 400]"), thick="30")
    assert found.code == "mortise-open" and "top of post" in found.message


def test_rail_that_does_not_touch_is_told():
    found = one_problem(BLIND.replace("across: [30, 400]", "across: [42, 400]"), thick="30")
    assert found.code == "parts-do-not-meet" and "12 mm away from post" in found.message


def test_edge_against_the_post_is_told():
    lies = "grain: deep, box: {across: [30, 60], deep: [10, 400]"
    found = one_problem(BLIND.replace("grain: across, box: {across: [30, 400], deep: [10, 40]", lies), thick="30")
    assert found.code == "tenon-not-an-end"
