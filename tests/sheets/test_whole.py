"""What the general views say of places."""

from docgen.drawing.dimensions.wanted import Linear
from docgen.piece.solids import Solids
from docgen.sheets.whole import Whole, wanted
from tests.support.steps import example


def said(name: str, view: str) -> list[str]:
    piece, _ = example(name)
    return [w.text for w in wanted(Whole(piece, Solids(piece)), view) if isinstance(w, Linear)]


def test_places_run_to_a_board_and_not_to_what_lies_left_of_it() -> None:
    told = said("tool-tote", "front")
    assert any(t.startswith("to right end: ") for t in told)
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
