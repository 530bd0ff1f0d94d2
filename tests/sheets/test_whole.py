"""What the general views say of places."""

import math

import pytest

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear
from docgen.piece.solids import Solids
from docgen.sheets.views_leans import axes, ends
from docgen.sheets.views_sizes import wanted
from docgen.sheets.views_words import words
from docgen.sheets.whole import Whole
from tests.support.steps import example


def said(name: str, view: str) -> list[str]:
    piece, _ = example(name)
    return [w.text for w in wanted(Whole(piece, Solids(piece)), view) if isinstance(w, Linear)]


def test_places_run_to_a_board_and_not_to_what_lies_left_of_it() -> None:
    told = said("tool-tote", "front")
    assert any(t.startswith("to end: ") for t in told)
    assert not any(
        t.startswith(("left of", "front of"))
        for name in ("tool-tote", "side-table")
        for t in said(name, "front") + said(name, "right")
    )


def test_a_colon_keeps_a_name_apart_from_its_figure() -> None:
    assert "seat, top: 17" in said("settle", "front")


def test_neither_what_lies_on_the_floor_nor_what_is_within_an_assembly_is_told_by_its_place() -> None:
    """The top of a chest's floor is its thickness; a desk's case is told as a whole."""
    assert not any("shelf" in t for t in said("seed-chest", "front"))
    assert not any("bottom" in t for t in said("sketching-desk", "front"))


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
        if isinstance(w, Linear) and w.text.startswith("handle: ")
    }
    assert found == pytest.approx({"2": float(low + high) / 2 - Whole(piece, Solids(piece)).low[2]})


def test_two_ends_are_told_over_their_outsides() -> None:
    (left,), (right,) = ([t for t in said("tool-tote", "front") if end in t] for end in ("to end", "over end"))
    assert left == "to end: 1⁄4" and right == "over end: 24 1⁄4"


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


def test_what_is_turned_leans_by_its_axis_under_its_head() -> None:
    """So the figure stands between the legs, where it makes the view no wider."""
    piece, _ = example("splayed-stool")
    whole = Whole(piece, Solids(piece))
    for name, lean in (("front", 11.0), ("right", 14.0)):
        (angle,) = [w for w in wanted(whole, name) if isinstance(w, Angular)]
        assert 330 < angle.apex[1] < 415 and angle.first[1] < angle.apex[1]
        off = abs(angle.second[0] - angle.apex[0]), angle.apex[1] - angle.second[1]
        assert math.degrees(math.atan2(*off)) == pytest.approx(lean, abs=0.05)
        assert len(axes(whole, name)) >= 2


def test_a_rod_seen_from_its_end_has_a_centre_and_beside_an_axis() -> None:
    piece, _ = example("tool-tote")
    whole = Whole(piece, Solids(piece))
    ((at, radius),) = ends(whole, "right")
    assert radius == pytest.approx(1.25 * 25.4 / 2) and at[1] == pytest.approx(11 * 25.4)
    ((a, b),) = axes(whole, "front")
    assert a[1] == pytest.approx(b[1]) and math.dist(a, b) > 20 * 25.4 and not ends(whole, "front")


def test_a_round_seat_is_told_by_its_diameter() -> None:
    piece, _ = example("splayed-stool")
    (callout,) = [w for w in wanted(Whole(piece, Solids(piece)), "top") if isinstance(w, Callout)]
    assert callout.lines == ("⌀330",) and callout.radius == 165


@pytest.mark.parametrize(
    ("name", "view", "lines"),
    [
        ("door-cabinet", "front", ["left door, right door: 375.5 × 914, 83 up", "boards within, to their tops: 100, 400, 700, 1000"]),
        ("seed-chest", "front", ["3× drawer front: 400 × 116"]),
        ("sketching-desk", "front", ["drawer front: 21 7⁄32 × 5 21⁄32"]),
        ("sketching-desk", "top", ["easel: 33 7⁄8 × 20"]),
        ("settle", "top", ["seat seen: 47 3⁄4 × 17"]),  # it is cut to 48 1⁄2: its tongues lie in the ends
        ("side-table", "front", ["clear under front apron: 450"]),
        ("map-case", "front", ["without butt hinges: they stand out 5 on the left"]),  # its door is as large as the piece
        ("bookcase", "top", []),  # and its shelves nearly so
        ("splayed-stool", "top", []),  # told by its diameter
    ],
)  # fmt: skip
def test_what_a_maker_checks_first_is_told_in_words(name: str, view: str, lines: list[str]) -> None:
    piece, _ = example(name)
    assert words(Whole(piece, Solids(piece)), view) == lines


def test_lines_seen_through_a_gap_are_no_row_of_dots() -> None:
    """The shelves behind a cabinet's doors show in gaps narrower than the line is wide."""
    piece, _ = example("door-cabinet")
    drawn = Whole(piece, Solids(piece)).drawn("front", 5.0)
    ends = [p for s in drawn.visible if math.dist(s.a, s.b) >= 7 for p in (s.a, s.b)]
    for s in drawn.visible:
        if s.chain < 0 and s.arc is None and math.dist(s.a, s.b) < 7:
            assert all(min(math.dist(p, end) for end in ends) < 3.5 for p in (s.a, s.b))
