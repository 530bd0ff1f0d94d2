from dataclasses import replace
from pathlib import Path

import pytest

from docgen.drawing.records import Path as Chain
from docgen.drawing.records import Pen, Text
from docgen.sheets.wrapped import blank_sheets
from tests.sheets.lists import BLANK, context, faults, said


def test_the_page_says_sizes_and_order() -> None:
    (sheet,) = blank_sheets(context(), BLANK)
    text = said((sheet,))
    for wanted in ("do not crosscut", "80 × 14 1⁄4 × 1 in", "7.92 board feet", "5 and 6", "18 3⁄4", "60 3⁄4", "42"):
        assert wanted in text, wanted
    assert sheet.scale == "1 : 12"


def test_cuts_are_numbered_in_turn_along_the_board() -> None:
    (sheet,) = blank_sheets(context(), BLANK)
    texts = [r for r in sheet.records if isinstance(r, Text)]
    (foot,) = [t.at[1] for t in texts if t.text.startswith("datum end;")]
    cuts = [t for t in texts if foot < t.at[1] < foot + 12 and t.bold and t.anchor != "middle"]
    assert [t.text for t in sorted(cuts, key=lambda t: t.at[0])] == ["1", "2", "3", "4", "5", "6"]


@pytest.mark.parametrize(("unmatched", "square"), [("", 2), ("right side and left side", 0)])
def test_parts_are_drawn_with_their_long_points_up(unmatched: str, square: int) -> None:
    (sheet,) = blank_sheets(context(), replace(BLANK, unmatched=unmatched))
    trapezes = [
        r for r in sheet.records if isinstance(r, Chain) and r.pen is Pen.VISIBLE and len(r.points) == 4 and r.closed
    ]
    trapezes = [t for t in trapezes if t.points[1][0] - t.points[0][0] < t.points[2][0] - t.points[3][0] - 1e-9]
    assert len(trapezes) == 3
    factor = 1 / 12
    for trapeze, piece in zip(trapezes, BLANK.pieces, strict=True):
        low, high = trapeze.points[3][0], trapeze.points[2][0]
        assert high - low == pytest.approx(float(piece.end - piece.start) * factor)
        assert trapeze.points[2][1] > trapeze.points[1][1]
    upright = sum(abs(t.points[0][0] - t.points[3][0]) < 1e-9 for t in trapezes)
    upright += sum(abs(t.points[1][0] - t.points[2][0]) < 1e-9 for t in trapezes)
    assert upright == square


def test_a_corner_that_cannot_match_is_named() -> None:
    assert "right side and left side" in said(
        blank_sheets(context(), replace(BLANK, unmatched="right side and left side"))
    )


@pytest.mark.parametrize("layout", ["letter", "a4", "a4-landscape", "tabloid"])
def test_nothing_lies_on_anything(layout: str, tmp_path: Path) -> None:
    given = context(layout)
    assert [str(f) for f in faults(blank_sheets(given, BLANK), given, tmp_path)] == []
