from dataclasses import replace

import pytest

from docgen.checks import panes
from docgen.checks.finding import Grade
from docgen.piece.model import Pane, Piece
from tests.support.checking import codes, found
from tests.support.pieces import GLASS, part, piece


def framed(gap: float, deep: float = 6.0) -> Piece:
    """A pane 300 × 200 between four rails; the right one stands `gap` away, the others 2 mm."""
    return piece(
        part("pane", ((0, 300), (0, 4), (0, 200)), "across", material=GLASS),
        part("left", ((-42, -2), (-5, 10), (-40, 240)), number=2),
        part("right", ((300 + gap, 340 + gap), (-5, 10), (-40, 240)), number=3),
        part("top", ((-2, 300 + gap), (-5, 10), (202, 240)), "across", number=4),
        part("bottom", ((-2, 300 + gap), (-5, 10), (-40, -2)), "across", number=5),
        panes=(Pane("pane", ("left", "right", "top", "bottom"), "pane", 2, (8, deep)),),
    )


@pytest.mark.parametrize(
    ("gap", "grade", "code"),
    [
        (1.96, None, ""),
        (1.94, Grade.CARE, "pane-tight"),
        (0.01, Grade.CARE, "pane-tight"),
        (-0.5, Grade.STOP, "pane-too-large"),
    ],
)
def test_clearance_of_a_pane(gap: float, grade: Grade | None, code: str) -> None:
    findings = found(panes, framed(gap))
    assert [(f.grade, f.code) for f in findings] == ([(grade, code)] if grade else [])
    for f in findings:
        assert "right side" in f.message
        assert f.figures[0][1] == pytest.approx(gap, abs=1e-3)


@pytest.mark.parametrize(("gap", "expected"), [(0.71, []), (0.69, ["pane-tight"])])
def test_a_pane_needs_a_little_room_whatever_is_asked_for(gap: float, expected: list[str]) -> None:
    of = framed(gap)
    assert codes(panes, replace(of, panes=(replace(of.panes[0], clearance=0.2),))) == expected


def test_rabbet_depth_for_a_pane() -> None:
    assert codes(panes, framed(2.0, deep=4.0)) == []
    assert codes(panes, framed(2.0, deep=3.9)) == ["pane-proud"]
