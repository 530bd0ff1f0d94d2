"""What a bearing strikes in glued parts: a part that begins where the cut ends, and cannot come in later."""

import pytest

from docgen.checks import tool_struck
from tests.support.checking import codes, found
from tests.support.steps import bearing_case, listed


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
    piece, _ = listed(bearing_case(front=front, back="290", stop=f"stop: {{front: 15}}, {end}"))
    assert codes(tool_struck, piece) == told
    if told:
        (finding,) = found(tool_struck, piece)
        assert finding.parts == ("shelf",) and "strikes shelf" in finding.message


def test_a_rabbet_at_the_back_opens_a_dado_that_stops_at_it() -> None:
    open_ = bearing_case(front="12", back="290", stop="stop: {front: 15}, end: round") + (
        "  - rabbet: {part: left, along: [right back], into: 8, on: 10}\n"
        "  - rabbet: {part: right, along: [left back], into: 8, on: 10}\n"
    )
    piece, _ = listed(open_)
    assert codes(tool_struck, piece) == []
