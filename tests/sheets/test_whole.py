"""What the general views say of places."""

import math

import pytest

from docgen.drawing.dimensions.wanted import Angular, Linear
from docgen.piece.solids import Solids
from docgen.sheets.whole import Whole, wanted
from tests.support.steps import example


def said(name: str, view: str) -> list[str]:
    piece, _ = example(name)
    return [w.text for w in wanted(Whole(piece, Solids(piece)), view) if isinstance(w, Linear)]


def test_places_run_to_a_board_and_not_to_what_lies_left_of_it() -> None:
    told = said("tool-tote", "front")
    assert any(t.startswith("to left end: ") for t in told)
    assert not any(
        t.startswith(("left of", "front of"))
        for name in ("tool-tote", "side-table")
        for t in said(name, "front") + said(name, "right")
    )


def test_a_colon_keeps_a_counted_name_apart_from_its_figure() -> None:
    assert "case shelf 1, top: 18" in said("seed-chest", "right") + said("seed-chest", "front")


def test_a_drawers_runners_are_no_sizes_of_the_piece() -> None:
    assert not any("runner" in t or "drawer" in t for view in ("front", "right") for t in said("seed-chest", view))


def test_the_spread_of_feet_is_that_of_their_flats() -> None:
    # The legs stand on flats that end where the round of 3/8 in begins: 17.105 in apart, 17.855 over the rounds
    (told,) = [t for t in said("sketching-desk", "right") if t.startswith("feet")]
    assert told == "feet ≈17 3⁄32"


def test_a_rod_is_told_by_its_middle_but_where_that_is_the_middle_of_the_piece() -> None:
    piece, _ = example("tool-tote")
    low, high = piece.part("handle").box[2]
    found = {
        w.key.split()[1]: float(w.sizes[0].value)
        for view in ("front", "right")
        for w in wanted(Whole(piece, Solids(piece)), view)
        if isinstance(w, Linear) and "handle, middle" in w.text
    }
    assert found == pytest.approx({"2": float(low + high) / 2 - Whole(piece, Solids(piece)).low[2]})


def test_two_ends_are_told_over_their_outsides() -> None:
    (left,), (right,) = ([t for t in said("tool-tote", "front") if end in t] for end in ("left end", "right end"))
    assert left == "to left end: 1⁄4" and right == "over right end: 24 1⁄4"


def test_a_lean_is_drawn_where_the_edge_is_seen() -> None:
    """The settle's stiles lean behind its ends: the angle stands where they come out above them."""
    piece, _ = example("settle")
    whole = Whole(piece, Solids(piece))
    (lean,) = [w for w in wanted(whole, "right") if isinstance(w, Angular)]
    end = piece.part("left end")
    assert lean.apex[1] > float(end.box[2][1]) - 60
    assert math.degrees(math.atan2(abs(lean.second[0] - lean.apex[0]), lean.second[1] - lean.apex[1])) == pytest.approx(
        12.0, abs=0.01
    )


def test_figures_are_kept_apart_from_the_number_of_a_part() -> None:
    assert any("shelf 1, top: 18" in t for t in said("seed-chest", "front"))


def test_lines_seen_through_a_gap_are_no_row_of_dots() -> None:
    """The shelves behind a cabinet's doors show in gaps narrower than the line is wide."""
    piece, _ = example("door-cabinet")
    drawn = Whole(piece, Solids(piece)).drawn("front", 5.0)
    ends = [p for s in drawn.visible if math.dist(s.a, s.b) >= 7 for p in (s.a, s.b)]
    for s in drawn.visible:
        if s.chain < 0 and s.arc is None and math.dist(s.a, s.b) < 7:
            assert all(min(math.dist(p, end) for end in ends) < 3.5 for p in (s.a, s.b))
