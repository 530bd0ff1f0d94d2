"""Each kind of joint, well made, brings no finding; a wide lap across the grain does."""

import pytest

from docgen.checks.run import findings
from docgen.piece.kinds import kinds
from docgen.schedules.make import schedules
from tests.piece.joints.making import trial

STANDS = {"stability", "tips-easily", "tips-over"}
"""What is told of how a piece stands has nothing to do with its joints."""

CORNER = """
parts:
  side: {of: board, grain: deep, box: {across: [0, 20], deep: [0, 200], up: [0, 120]}}
  front: {of: board, grain: across, box: {across: [0, 300], deep: [%s, 20], up: [0, 120]}}
joints:
  - %s
"""
MITRED = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [280, 300]}}
joints:
  - mitre: {parts: [side, top], %s}
"""
FRAME = """
parts:
  stile: {of: board, grain: up, box: {across: [0, 50], deep: [0, 20], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: %s, deep: [0, 20], up: [%s, 400]}}
joints:
  - %s
"""
POST = """
parts:
  post: {of: post, grain: up, box: {across: [0, 40], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [40, 400], deep: [20, 40], up: [%s, 400]}}
joints:
  - mortise and tenon: {end: rail, into: post, thickness: 8, %s}
"""
BOARDS = """
parts:
  one: {of: board, grain: up, box: {across: [0, 100], deep: [0, 20], up: [0, 500]}}
  two: {of: board, grain: up, box: {across: [%s, 200], deep: [0, 20], up: [0, 500]}}
joints:
  - %s
"""
BOLTED = """
parts:
  leg: {of: post, grain: up, box: {across: [0, 40], deep: [0, 90], up: [0, 420]}}
  rail: {of: board, grain: across, box: {across: [40, 900], deep: [35, 55], up: [250, 370]}}
joints:
  - %s
"""

SOUND = {
    "dovetail": CORNER % (0, "dovetail: {tails: side, pins: front, count: 4}"),
    "half-blind dovetail": (CORNER % (0, "dovetail: {tails: side, pins: front, count: 4}")).replace(
        "deep: [0, 200]", "deep: [5, 200]"
    ),
    "finger": CORNER % (0, "finger: {outer: side, inner: front, width: 10}"),
    "mitre with keys": MITRED % "keys: {count: 3, thickness: 2, depth: 15}",
    "mitre with a spline": MITRED % "spline: {thickness: 4, depth: 6}",
    "corner bridle": FRAME % ("[0, 300]", 350, "bridle: {tenon: rail, slot: stile}"),
    "tee bridle": FRAME % ("[-100, 300]", 350, "bridle: {tenon: rail, slot: stile}"),
    "pocket screws": FRAME
    % (
        "[50, 300]",
        320,
        "pocket screws: {through: rail, into: stile, face: back, at: [{up: 340}, {up: 380}], length: 40, gauge: 7,\n"
        "      jig: {bore: 9.5, pilot: 3.6, shoulder: 13}}",
    ),
    "haunched tenon": POST % (320, "length: 25, shoulder: {top: 25, bottom: 8}, haunch: {top: 8}"),
    "rounded tenon": POST % (300, "length: 25, shoulder: {top: 25, bottom: 8}, rounded: yes"),
    "wedged tenon": POST % (300, "through: yes, shoulder: {top: 25, bottom: 10}, wedges: {by: 2}"),
    "wedged socket": """
  rods: {species: sugar maple, thickness: 25}
parts:
  board: {of: board, grain: across, box: {across: [0, 300], deep: [0, 200], up: [280, 300]}}
  rod: {of: rods, grain: up, box: {across: [137.5, 162.5], deep: [87.5, 112.5], up: [0, 300]}}
joints:
  - socket: {part: rod, into: board, wedge: {thick: 3}}
operations:
  - turned: {part: rod, from: bottom, stations: [{at: 0, diameter: 25}, {at: 300, diameter: 25}]}
""",
    "tongue and groove": BOARDS % (102, "tongue and groove: {boards: [one, two], thickness: 6, length: 8}"),
    "spline": BOARDS % (100, "spline: {boards: [one, two], thickness: 6, depth: 8}"),
    "stopped spline": BOARDS % (100, "spline: {boards: [one, two], thickness: 6, depth: 8, stopped: 30}"),
    "cross dowel": BOLTED
    % (
        "cross dowel: {through: leg, into: rail, at: [{deep: 45, up: 290}, {deep: 45, up: 330}], face: back, set back: 35,\n"
        "      dowel: {diameter: 10, length: 12}, thread: M6}"
    ),
}


def told(body: str) -> set[str]:
    """Return the codes of all findings but those on how the piece stands."""
    of = trial("  post: {species: sugar maple, thickness: 40}\n" + body, thick="20")
    same = kinds(of.piece, of.solids)
    every = findings(of.piece, of.solids, same, schedules(of.piece, of.solids, same))
    return {f.code for f in every} - STANDS


@pytest.mark.parametrize("body", SOUND.values(), ids=SOUND)
def test_a_joint_well_made_brings_no_finding(body: str) -> None:
    assert told(body) == set()


def test_a_wide_lap_across_the_grain_is_told() -> None:
    """Two boards 250 wide glued where they cross: 250 × 0.00353 × 4 % = 3.5 mm (Wood Handbook, Equation 13-2)."""
    wide = FRAME % ("[-100, 400]", 150, "half lap: {over: rail, under: stile, face: front}")
    wide = wide.replace("across: [0, 50]", "across: [0, 250]")
    assert "cross-grain" in told(wide)
    narrow = FRAME % ("[-100, 300]", 350, "half lap: {over: rail, under: stile, face: front}")
    assert "cross-grain" not in told(narrow)
