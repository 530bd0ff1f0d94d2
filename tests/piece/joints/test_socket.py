from math import atan, cos, degrees, hypot, pi, radians, tan

import pytest

from docgen.geometry.solids import overlap
from docgen.piece import loose
from docgen.piece.operations.wedging import RoundKerf
from docgen.piece.records import Face, Purpose
from docgen.schedules.glueups import glueups, held
from docgen.schedules.inserts import with_glue
from tests.examples.test_pieces import example
from tests.piece.joints.making import one_problem, trial
from tests.piece.operations.trial import board, proven

# A rod 25 square and 300 long, from 20 below a board 20 thick to flush with its top: its middle line is at 50, 60.
BODY = """
parts:
  board: {of: board, grain: across, box: {across: [0, 200], deep: [0, 120], up: [280, 300]}}
  rod: {of: rods, grain: up, box: {across: [37.5, 62.5], deep: [47.5, 72.5], up: [0, %s]}%s}
joints:
  - socket: {part: rod, into: board, diameter: 25%s}
operations:
  - turned: {part: rod, from: bottom, stations: [{at: 0, diameter: 25}, {at: %s, diameter: 25}]}
"""


def socket(long: str = "300", turn: str = "", more: str = "") -> str:
    return BODY % (long, turn, more, long)


def tried(*args: str, **rest: str):
    body = socket(*args, **rest)
    return trial("  rods: {species: sugar maple, thickness: 25}" + body, thick="20")


def test_the_bore_stands_where_the_round_part_does_and_goes_through():
    frame = tried()
    (row,) = frame.holes("board")
    at = frame.part("board").frame.point(tuple(float(c) for c in row.points[0]))
    assert at == pytest.approx((50, 60, 280)) and row.depth is None and row.diameter == 25
    assert frame.part("board").word(row.face) == "bottom" and row.purpose is Purpose.PLAIN and row.mate == "rod"
    assert frame.volume("board") == pytest.approx(200 * 120 * 20 - pi * 12.5**2 * 20, rel=2e-4)
    assert frame.clashes() == []


def test_a_blind_socket_is_as_deep_as_is_said_and_no_shallower_than_the_rod():
    frame = tried("292", more=", depth: 14")
    (row,) = frame.holes("board")
    assert row.depth == 14 and frame.figure("socket", "depth") == 14
    assert frame.clashes() == []
    body = "  rods: {species: sugar maple, thickness: 25}" + socket("292", more=", depth: 11.9")
    assert one_problem(body, thick="20").code == "socket-shallow"


def test_the_drill_leans_as_the_part_does():
    turn = ", turn: {about: across, at: {deep: 60, up: 280}, by: 10 deg}"
    frame = tried("310", turn, ", template: yes")
    (row,) = frame.holes("board")
    assert "leans 10° from square (80° from the face) toward the front as it goes in" in row.note
    assert frame.figure("socket", "lean from square") == pytest.approx(10)
    (feature,) = frame.features("board")
    assert any(len(t.holes) == 1 for t in feature.made.templates)
    assert frame.clashes() == []


def test_it_may_be_drilled_from_the_face_behind():
    turn = ", turn: {about: across, at: {deep: 60, up: 280}, by: 10 deg}"
    frame = tried("310", turn, ", from: top")
    (row,) = frame.holes("board")
    at = frame.part("board").frame.point(tuple(float(c) for c in row.points[0]))
    # 20 higher the middle line lies 20 · tan 10° nearer to the front.
    assert at == pytest.approx((50, 60 - 20 * tan(radians(10)), 300))
    assert "toward the back as it goes in" in row.note
    assert frame.volume("board") == pytest.approx(tried("310", turn).volume("board"), rel=1e-6)
    head = "  rods: {species: sugar maple, thickness: 25}"
    assert one_problem(head + socket(more=", from: front"), thick="20").code == "socket-face"
    assert one_problem(head + socket("292", more=", depth: 14, from: top"), thick="20").code == "socket-face"


def test_a_part_that_ends_before_or_passes_by_is_told():
    head = "  rods: {species: sugar maple, thickness: 25}"
    assert one_problem(head + socket("280"), thick="20").code == "parts-do-not-meet"
    aside = socket().replace("[37.5, 62.5]", "[237.5, 262.5]")
    assert one_problem(head + aside, thick="20").code == "parts-do-not-meet"


def test_round_ends_are_glued_and_driven():
    frame = tried()
    joint = frame.joint("socket")
    assert held(frame.piece, joint) == "glued" and joint.driven and joint.closes == pytest.approx((0, 0, 1))
    (unit,) = glueups(frame.piece)
    assert unit.parts == ("board", "rod")


def test_a_stools_sockets_lean_in_truth_along_their_sight_lines():
    """A leg that rakes 14° and splays 11°: atan √(tan² 14 + tan² 11) and atan(tan 11 / tan 14), worked by hand."""
    stool = example("splayed-stool")
    joints = [j for j in stool.piece.joints if j.word == "socket"]
    assert joints[0].parts == ("front left leg", "seat") and len(joints) == 4
    rake, splay = tan(radians(14)), tan(radians(11))
    for joint in joints:
        told = {n: float(v) for n, v, _ in joint.figures}
        assert told["lean from square"] == pytest.approx(degrees(atan(hypot(rake, splay))), abs=1e-6)
    rows = stool.holes("seat")
    assert [r.name for r in rows] == ["A", "B", "C", "D"]
    way = rows[0].direction
    assert abs(way[2]) == pytest.approx(cos(atan(hypot(rake, splay))))


WOODS = "  rods: {species: sugar maple, thickness: 25}"
STRAIGHT = "stations: [{at: 0, diameter: 25}, {at: 300, diameter: 25}]"


def test_without_a_diameter_the_bore_takes_what_the_end_is_turned_to():
    """The shoulder stands under the board: from 280 up the rod is 16 thick."""
    stepped = (
        "stations: [{at: 0, diameter: 25}, {at: 280, diameter: 25}, {at: 280, diameter: 16}, {at: 300, diameter: 16}]"
    )
    body = socket().replace(", diameter: 25}\noperations", "}\noperations").replace(STRAIGHT, stepped)
    frame = trial(WOODS + body, thick="20")
    (row,) = frame.holes("board")
    assert row.diameter == 16 and frame.figure("socket", "diameter") == 16 and frame.clashes() == []
    tapered = body.replace("{at: 300, diameter: 16}", "{at: 300, diameter: 15.9}")
    assert one_problem(WOODS + tapered, thick="20").code == "socket-diameter"
    square = body.partition("operations")[0]
    assert one_problem(WOODS + square, thick="20").code == "socket-diameter"


def test_a_bore_told_by_a_rod_that_leans_is_the_same():
    turn = ", turn: {about: across, at: {deep: 60, up: 280}, by: 10 deg}"
    said = socket("310", turn)
    frame = trial(WOODS + said.replace(", diameter: 25}\noperations", "}\noperations"), thick="20")
    assert frame.holes("board") == trial(WOODS + said, thick="20").holes("board")


def test_a_wedge_presses_along_the_grain_of_the_bored_part():
    frame = tried("305", more=", wedge: {thick: 4, kerf: 2}")
    # The board's grain runs across: the kerf runs front to back through the rod's middle at 50, from its tip at 305 to two
    # thirds of the board under its upper face, 13.5 to the half millimetre, 286.5.
    assert not frame.inside("rod", (50.9, 71, 286.6)) and frame.inside("rod", (51.1, 71, 286.6))
    assert not frame.inside("rod", (49.1, 49, 304)) and frame.inside("rod", (50, 60, 286.4))
    # The chord of each thin slice is the round's, so that what goes is under 25 × 2 × 18.5 by a hair.
    whole = tried("305").volume("rod")
    assert whole - frame.volume("rod") == pytest.approx(25 * 2 * 18.5, rel=2e-3)
    (wedge,) = frame.piece.items
    assert (wedge.what, wedge.count, wedge.size) == ("wedge of hardwood", 1, "4 × 25 × 18.5 mm")
    assert "does not go in full" in wedge.note  # no wall of the hole is flared for it
    (row,) = frame.holes("board")
    assert "wedged where the tenon comes out" in row.note
    assert frame.figure("socket", "kerf for the wedge, deep from the tip") == 18.5 and frame.clashes() == []
    (unit,) = glueups(frame.piece)
    assert "With it go in: 1 × wedge of hardwood, 4 × 25 × 18.5 mm." in with_glue(frame.piece, unit)


def test_the_wedge_is_a_solid_that_fills_its_kerf_and_spreads_the_tenon_along_the_grain():
    """2 thick at the bottom of the kerf, 4 at the tip, 18.5 long; wide as the chord there, √(25² − 4²) = 24.678."""
    frame = tried("305", more=", wedge: {thick: 4, kerf: 2}")
    (wedge,) = frame.joint("socket").loose
    assert (wedge.what, [float(v) for _, v in wedge.told], wedge.parts) == ("wedge", [4, 25, 18.5], ("rod", "board"))
    whole = loose.solid(wedge.shape)
    assert whole.volume == pytest.approx((2 + 4) / 2 * 18.5 * (25**2 - 4**2) ** 0.5)
    (x0, y0, z0), (x1, y1, z1) = whole.moved(wedge.frame).bounds
    assert (x0, x1, z0, z1) == pytest.approx((48, 52, 286.5, 305))  # the board's grain runs across
    assert y1 - y0 == pytest.approx((25**2 - 4**2) ** 0.5)
    assert overlap(whole.moved(wedge.frame), frame.solids.solid("board").moved(frame.part("board").frame)) is None
    assert loose.grain(wedge) == pytest.approx((0, 0, 1))
    # Nothing is sawn off later here: it stands as it was driven.
    assert loose.pared(frame.piece, wedge).volume == pytest.approx(whole.volume)


def test_a_wedge_is_sawn_flush_with_its_tenon():
    """The rod is cut off at 300 when it is glued: of the wedge the 13.5 from 286.5 stay, 2 to 2 + 2 × 13.5/18.5 thick."""
    body = socket("305", more=", wedge: {thick: 4, kerf: 2}").replace(
        "\noperations", "\n  - level ends: {part: rod, top: 300, stage: glued, flush with: board}\noperations", 1
    )
    frame = trial(WOODS + body, thick="20")
    (wedge,) = frame.joint("socket").loose
    top = 2 + 2 * 13.5 / 18.5
    volume = (2 + top) / 2 * 13.5 * (25**2 - 4**2) ** 0.5
    assert loose.pared(frame.piece, wedge).volume == pytest.approx(volume)


def test_the_kerf_follows_the_grain_when_that_runs_the_other_way():
    body = socket("305", more=", wedge: {thick: 4, kerf: 2, deep: 15}").replace("grain: across", "grain: deep")
    frame = trial(WOODS + body, thick="20")
    assert not frame.inside("rod", (61, 60.9, 285.1)) and frame.inside("rod", (61, 61.1, 285.1))
    assert frame.inside("rod", (50, 60, 284.9))


def test_a_wedge_needs_a_tenon_that_comes_out_and_wood_that_it_does_not_split():
    def code(*args: str, **rest: str) -> str:
        return one_problem(WOODS + socket(*args, **rest), thick="20").code

    assert code("292", more=", depth: 14, wedge: {thick: 4}") == "wedges-blind"
    assert code("299", more=", wedge: {thick: 4}") == "wedge-short"
    assert code("300", more=", wedge: {thick: 4, deep: 20}") == "depth-range"
    assert code("300", more=", wedge: {thick: 4, kerf: 6.25}") == "kerfs-crowded"
    assert code("300", more=", wedge: {thick: 25}") == "kerfs-crowded"
    post = (
        socket("300", more=", wedge: {thick: 4}").replace("grain: across", "grain: up").replace("[0, 120]", "[50, 70]")
    )
    assert one_problem(WOODS + post.replace("diameter: 25", "diameter: 12"), thick="20").code == "wedge-splits"


def test_each_number_of_the_kerf_shapes_it_and_is_told():
    for end in (Face(0, 0), Face(0, 1)):
        proven(RoundKerf(end, (0.0, 0.6, 0.8), 30, 2, 18, "seat"), board(400, 40, 40))
