from dataclasses import replace

import pytest

from docgen.checks import loose_things
from docgen.piece.model import Piece
from tests.piece.joints.making import trial
from tests.support.checking import codes, found

RAIL = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 400], deep: [15, 45], up: [200, 260]}}
joints:
  - loose tenon: {end: rail, into: post, thickness: 10, width: 40, depth: 18, wall: 5}
"""


def pushed(piece: Piece, by: float) -> Piece:
    """The piece with the tenon shoved toward the post, mm."""
    (joint,) = piece.joints
    (thing,) = joint.loose
    o = thing.frame.origin
    frame = replace(thing.frame, origin=(o[0] - by, o[1], o[2]))
    return replace(piece, joints=(replace(joint, loose=(replace(thing, frame=frame),)),))


@pytest.mark.parametrize(("by", "expected"), [(0.0, []), (0.99, []), (1.04, []), (1.1, ["loose-in-wood"])])
def test_a_tenon_has_its_clearance_and_no_more(by: float, expected: list[str]) -> None:
    """The tenon is 2 × (18 − 1) long: 1 mm further it touches the mortise's bottom, over 0.05 mm more is wood in wood."""
    of = pushed(trial(RAIL, thick="30").piece, by)
    assert codes(loose_things, of) == expected
    for f in found(loose_things, of):
        assert f.figures[0][1] == pytest.approx((by - 1) * (30 * 10 + 3.14159265 * 25), rel=1e-3)


@pytest.mark.parametrize(("deep", "expected"), [(17.9, []), (18.5, ["loose-cut"])])
def test_a_dado_that_reaches_the_tenon(deep: float, expected: list[str]) -> None:
    """From the rail's upper edge to the tenon's are 10 mm, from its side to the tenon's 10: a rabbet beyond both cuts it."""
    # the dado lies in the rail's upper edge, over the tenon's last 17 mm; the tenon's round edge is 10 mm under it
    cut = f"operations:\n  - dado: {{part: rail, face: top, run: deep, span: [35, 45], depth: {deep - 8}}}\n"
    assert codes(loose_things, trial(RAIL + cut, thick="30").piece) == expected


def test_two_rows_of_dowels_in_one_place_meet() -> None:
    dowels = RAIL.replace("loose tenon: {end: rail, into: post, thickness: 10, width: 40, depth: 18, wall: 5}", "%s")
    one = "dowel: {part: rail, into: post, diameter: 8, count: 2, depth: 20, spacing: 20}"
    assert codes(loose_things, trial(dowels % one, thick="30").piece) == []
    near, far = (f"\n  - dowel: {{part: rail, into: post, diameter: 6, count: {n}, depth: 20}}" for n in (2, 1))
    assert (
        codes(loose_things, trial(dowels % (one + far), thick="30").piece) == []
    )  # one in the middle, 10 mm off the two
    assert set(codes(loose_things, trial(dowels % (one + near), thick="30").piece)) == {"loose-meet"}


def test_keys_that_reach_the_tenons_of_their_mitre() -> None:
    mitre = """
parts:
  left: {of: board, grain: deep, box: {across: [0, 60], deep: [0, 300], up: [0, 20]}}
  back: {of: board, grain: across, box: {across: [0, 400], deep: [240, 300], up: [0, 20]}}
joints:
  - mitre: {parts: [left, back], tenons: {thickness: 6, width: 24, depth: 18, wall: 6}, keys: {count: 1, thickness: 3, depth: %s}}
"""
    assert codes(loose_things, trial(mitre % 12).piece) == []
    assert set(codes(loose_things, trial(mitre % 50).piece)) >= {"loose-cut"}


def test_a_screw_without_a_hole_that_runs_into_a_tenon() -> None:
    of = trial(RAIL, thick="30").piece
    cleat = """
  cleat: {of: board, grain: deep, box: {across: [32, 72], deep: [15, 45], up: [260, 290]}}
"""
    body = RAIL.replace("joints:", cleat.strip("\n") + "\njoints:") + (
        "  - screwed: {through: cleat, into: rail, gauge: 6, length: %s, at: {across: 37, deep: 30}}\n"
    )
    holes = trial(body % 45, thick="30").piece
    bare = replace(
        holes,
        parts=tuple(
            replace(p, features=tuple(f for f in p.features if not f.made.holes)) if p.path == "rail" else p
            for p in holes.parts
        ),
    )
    assert codes(loose_things, of) == []
    assert codes(loose_things, holes) == []  # its pilot hole is told with the pockets
    assert "loose-cut" in codes(loose_things, bare)
