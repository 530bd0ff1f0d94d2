"""What a bearing strikes in glued parts: a part that begins where the cut ends, and cannot come in later."""

import pytest

from docgen.checks import tool_struck
from tests.support.checking import codes, found
from tests.support.steps import listed

CASE = """
docgen: 1
piece: Trial
units: mm
materials: {boards: {species: white oak, thickness: 20}}
parts:
  left: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 900]}}
  right: {of: boards, grain: up, box: {across: [780, 800], deep: [0, 300], up: [0, 900]}}
  low: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [0, 300], up: [0, 20]}}
  shelf: {of: boards, grain: across, box: {across: [left.right, right.left], deep: [FRONT, 290], up: [400, 420]}}
joints:
  - housing: {shelf: low, into: [left, right], depth: 6}
  - housing: {shelf: shelf, into: [left, right], depth: 6, stop: {front: 15}, END}
operations:
  - glued rabbet: {part: [left, right], face: front, opening: {across: [20, 780], deep: [0, 280], up: [20, 880]},
      into: 8, depth: 12, bearing: 10, open: top}
"""


@pytest.mark.parametrize(
    ("front", "end", "told"),
    [
        ("12", "end: round", ["tool-struck"]),  # its dado ends at its back edge, 10 mm before the side's
        ("12", "through: back", []),  # slid in from the back
        ("19", "end: round", []),  # the bearing passes before it: 12 + 6.35
        ("18", "end: round", ["tool-struck"]),
    ],
)
def test_the_edge_from_which_a_part_is_struck(front: str, end: str, told: list[str]) -> None:
    piece, _ = listed(CASE.replace("FRONT", front).replace("END", end))
    assert codes(tool_struck, piece) == told
    if told:
        (finding,) = found(tool_struck, piece)
        assert finding.parts == ("shelf",) and "strikes shelf" in finding.message


def test_a_rabbet_at_the_back_opens_a_dado_that_stops_at_it() -> None:
    open_ = CASE.replace("FRONT", "12").replace("END", "end: round") + (
        "  - rabbet: {part: left, along: [right back], into: 8, on: 10}\n"
        "  - rabbet: {part: right, along: [left back], into: 8, on: 10}\n"
    )
    piece, _ = listed(open_)
    assert codes(tool_struck, piece) == []
