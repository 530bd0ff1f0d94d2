"""Stick marks of the bookcase and the desk against positions worked out by hand, in the lists and on paper."""

from __future__ import annotations

import io
from fractions import Fraction
from functools import cache
from pathlib import Path

import pdfplumber
import pytest

from docgen.cli.loaded import Loaded, context_of, load
from docgen.drawing.records import Text
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.sheets import sticks

FOLDER = Path(__file__).parents[2] / "examples"
MM = 72 / 25.4
INCH = Fraction(254, 10)


@cache
def example(name: str) -> Loaded:
    return load(str(FOLDER / f"{name}.yaml"), ())


def stick(name: str, part: str):
    return next(s for s in example(name).lists.sticks if part in s.parts)


# The bookcase, mm. Five shelves, 20 thick, the lowest 60 above the floor, the highest 40 below the ends of the sides,
# which are 1800 long and stand on the floor: from shelf to shelf (1800 - 60 - 40 - 20) / 4 = 420. The housings are as
# wide as the shelves and stop 15 behind the shelves' front edges, which lie at 0. The router leaves an end of half the
# cutter's width, so that the arc of a 20 mm cutter ends 15 - 10 = 5 behind the edge.
BOOKCASE_SIDE = [60, 80, 480, 500, 900, 920, 1320, 1340, 1740, 1760]
# A shelf is 900 - 2 × 20 = 860 between the sides; tongues of 6 reach beyond both shoulders.
BOOKCASE_SHELF = [0, 860]

# The desk, inches, from the ends of the nominal boards.
# Case sides from 22 to 28 1/2 above the floor, 6 1/2 long to the long points; the boards are 13/16, so that the short
# point of the mitre lies at 6 1/2 - 13/16 = 5 11/16. The bottom's underside is 22 3/8 up: 3/8 from the end; its tongue is
# 1/2 thick and flush below: dado from 3/8 to 7/8. Cheek bolts 25 1/4 and 26 3/4 up: 3 1/4 and 4 3/4. The slides' middle
# line is 25 3/8 up: 3 3/8, on the right side alone. The stand's bolts lie on the middle lines of raking legs, at 26 7/8
# and 23 11/16 up (front) and 23 11/16 (rear): 4 7/8, 1 11/16 and 1 11/16.
DESK_LEFT = ["3/8", "7/8", "27/16", "27/16", "13/4", "19/4", "39/8", "91/16", "13/2"]
DESK_RIGHT = ["3/8", "7/8", "27/16", "27/16", "13/4", "27/8", "19/4", "39/8", "91/16", "13/2"]
# The top is 34 long with a mitre at each end: short points 13/16 from both. The divider's right face lies 13/16 + 11 1/2 +
# 13/16 = 13 1/8 from the left; its tongue is 1/2 thick and flush right: dado from 12 5/8 to 13 1/8.
DESK_TOP = ["0", "13/16", "101/8", "105/8", "531/16", "34"]
# The bottom is 34 - 2 × 13/16 = 32 3/8 between the sides; there the same dado begins 13/16 earlier.
DESK_BOTTOM = ["0", "189/16", "197/16", "259/8"]
# Drawer sides 12 1/8 long; slide screws 1 1/2, 5 and 10 1/2 from the slides' front ends, which are set back 1/16.
DESK_DRAWER = ["25/16", "81/16", "169/16"]
# Easel rails: 20 long (from -1/2 to 19 1/2), 2 1/2 wide, mitred at 45°: short points at 2 1/2 and 17 1/2.
DESK_RAIL = ["0", "5/2", "35/2", "20"]

WORKED = [
    ("bookcase", "left side", BOOKCASE_SIDE, 1),
    ("bookcase", "shelf.1", BOOKCASE_SHELF, 1),
    ("sketching-desk", "case.left", DESK_LEFT, INCH),
    ("sketching-desk", "case.right", DESK_RIGHT, INCH),
    ("sketching-desk", "case.top", DESK_TOP, INCH),
    ("sketching-desk", "bottom", DESK_BOTTOM, INCH),
    ("sketching-desk", "easel.left", DESK_RAIL, INCH),
]


@pytest.mark.parametrize(("name", "part", "worked", "unit"), WORKED, ids=[f"{w[0]}-{w[1]}" for w in WORKED])
def test_marks_lie_where_they_were_worked_out(name: str, part: str, worked: list, unit: Fraction) -> None:
    found = [float(m.position) for m in stick(name, part).marks]
    assert found == pytest.approx([float(Fraction(w) * unit) for w in worked], abs=1e-6)


def test_slide_screws_of_the_drawer() -> None:
    marks = [m for m in stick("sketching-desk", "drawer.left").marks if m.wood == 0]
    assert [float(m.position / INCH) for m in marks] == pytest.approx([float(Fraction(w)) for w in DESK_DRAWER])


def test_stops_and_edges_are_told() -> None:
    side = stick("bookcase", "left side")
    assert [notes[0][0] if notes else "" for notes in side.notes[:2]] == [
        "stops 5 mm from the front edge, to the end of the arc",
        "",
    ]
    rail = stick("sketching-desk", "easel.left")
    # Long points lie on the outside: the left rail's left edge, the right rail's right edge.
    assert rail.notes[0] == (("left edge", ("easel.left",)), ("right edge", ("easel.right",)))
    assert rail.notes[1] == (("right edge", ("easel.left",)), ("left edge", ("easel.right",)))


@pytest.mark.parametrize(("name", "layout"), [("bookcase", "a4"), ("bookcase", "letter"), ("sketching-desk", "letter")])
def test_lines_on_paper_stand_at_those_places_by_the_scale_of_their_piece(name: str, layout: str) -> None:
    loaded = example(name)
    context = context_of(loaded, read_layout(layout), [])
    pages = [s for s in sticks.make(context, {}) if not s.framed]
    unit = 1.0 if loaded.piece.units.system == "mm" else float(INCH)
    found: dict[str, set[float]] = {}
    data = write(pages, layout=context.layout, piece=loaded.piece, fingerprint="0")
    with pdfplumber.open(io.BytesIO(data)) as book:
        for sheet, page in zip(pages, book.pages, strict=True):
            uprights = [ln["x0"] / MM for ln in page.lines if abs(ln["x1"] - ln["x0"]) < 1e-6]
            texts = [r for r in sheet.records if isinstance(r, Text)]
            for caption in (t for t in texts if t.text.startswith("Stick ") or (", " in t.text and " of " in t.text)):
                number = caption.text.removeprefix("Stick ").split(":")[0].split(",")[0]
                scale = [t for t in texts if t.text.isdigit() and abs(t.at[1] - caption.at[1]) < 12 and t.height < 3]
                for zero in {round(t.at[0] - int(t.text) * unit, 3) for t in scale}:
                    found.setdefault(number, set()).update(round(x - zero, 2) for x in uprights)
    for number, made in enumerate(loaded.lists.sticks, 1):
        for mark in made.marks:
            assert any(abs(x - float(mark.position)) < 0.011 for x in found[str(number)]), (number, mark)
