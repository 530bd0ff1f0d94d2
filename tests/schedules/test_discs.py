"""Places on a round face run from its centre lines: its sides are lines on a rough blank."""

from fractions import Fraction

import pytest

from docgen.piece.operations.hole import Hole
from docgen.piece.operations.round_part import Disc
from docgen.piece.records import Face, Feature, Stage
from docgen.schedules.discs import from_centre_line
from docgen.schedules.drilling import drilling
from docgen.sheets import sticks
from tests.sheets.lists import said
from tests.sheets.test_joinery import context
from tests.support.pieces import part, piece

BOX = ((0, 330), (0, 330), (0, 36))
TOP = Face(2, 1)


@pytest.mark.parametrize(
    ("places", "word", "far"),
    [
        ((90, 100), "centre line, to the left end", (75, 65)),
        ((240, 165), "centre line, to the right end", (75, 0)),
        ((165,), "centre line", (0,)),
        ((90, 240), "centre line, + to the right end", (-75, 75)),
    ],
)
def test_places_on_one_side_are_told_toward_it_and_others_with_a_sign(
    places: tuple[int, ...], word: str, far: tuple[int, ...]
) -> None:
    assert from_centre_line(part("seat", BOX, "across"), 0, [Fraction(p) for p in places]) == (word, far)


def seat(*, round_: bool, face: Face = TOP) -> Feature | tuple[Feature, ...]:
    bare = part("seat", BOX, "across")
    hole = Hole(face, ((Fraction(90), Fraction(10 if face.axis == 1 else 250)),), Fraction(12), Fraction(20))
    rim = Disc(TOP, (Fraction(165), Fraction(165)), Fraction(330))
    made = (Feature("hole 1", "hole", "hole", Stage.PART, hole.made(bare)),)
    return (*made, Feature("round 1", "round", "disc", Stage.PART, rim.made(bare))) if round_ else made


@pytest.mark.parametrize(
    ("round_", "end", "edge", "at"),
    [
        (True, "centre line, to the left end", "centre line, to the back edge", (75, 85)),
        (False, "left end", "front edge", (90, 250)),
    ],
)
def test_the_chart_counts_from_the_centre_lines_of_a_disc(
    round_: bool, end: str, edge: str, at: tuple[int, int]
) -> None:
    (row,) = drilling(piece(part("seat", BOX, "across", features=seat(round_=round_))))  # type: ignore[arg-type]
    assert (row.datum_end, row.datum_edge, row.at) == (end, edge, (at,))


def test_the_stick_of_a_disc_is_laid_by_its_centre() -> None:
    told = said(sticks.make(context("splayed-stool"), {}))
    assert told.count("is the line of the finished box drawn on the blank") == 1
    assert "lay mark 3, the centre, on the centre line" in " ".join(told.split())
