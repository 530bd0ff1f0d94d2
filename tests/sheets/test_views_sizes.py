"""Which sizes the general views tell, and how they are called."""

import pytest

from docgen.drawing.dimensions.wanted import Linear
from docgen.sheets.views_sizes import wanted
from docgen.sheets.views_words import words
from docgen.sheets.whole import Whole
from tests.sheets.test_joinery import context


def told(name: str, view: str) -> dict[str, float]:
    """Return the words before the figures of a view's lengths, with the figures in mm."""
    of = context(name, "a4")
    lengths = [w for w in wanted(Whole(of.piece, of.solids), view) if isinstance(w, Linear)]
    return {w.text.rpartition(":")[0]: round(float(w.sizes[0].value), 3) for w in lengths if ":" in w.text}


@pytest.mark.parametrize(
    ("name", "word", "near", "far"), [("side-table", "leg", 25, 475), ("tool-tote", "end", 6.35, 615.95)]
)
def test_the_first_and_the_last_of_two_equal_parts_go_by_what_both_are_called(
    name: str, word: str, near: float, far: float
) -> None:
    """A long name would stand far from its arrows; 500 − 25 and 24 1/2 − 1/4 in are over the outsides."""
    assert told(name, "front") == {**told(name, "front"), f"to {word}": near, f"over {word}": far}


def test_what_stands_back_from_the_piece_at_both_ends_unevenly_has_its_place() -> None:
    """Case and feet of the desk hang back from its drawing board; the case of the map case ends where the piece does."""
    desk = told("sketching-desk", "right")
    assert desk["to case"] == pytest.approx(12.7)  # 1/2 in
    assert desk["to feet"] > desk["to case"]
    assert "to case" not in told("sketching-desk", "front")  # in the middle
    assert set(told("map-case", "right")) == {"case"}


def test_a_seat_between_leaning_sides_is_told_at_its_top_face() -> None:
    """By hand: the sides stand 480 apart at the floor and lean 8° in, so 480 − 2 × 440 × tan 8° = 356.32 at the tread's top."""
    of = context("step-stool", "a4")
    assert words(Whole(of.piece, of.solids), "top") == ["upper tread, top face: ≈356.3 × 200"]
    of = context("settle", "a4")
    assert words(Whole(of.piece, of.solids), "top") == ["seat seen: 47 3⁄4 × 17"]
