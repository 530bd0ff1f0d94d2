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
    assert any(t.startswith("to right end ") for t in told)
    assert not any(
        t.startswith(("left of", "front of"))
        for name in ("tool-tote", "side-table")
        for t in said(name, "front") + said(name, "right")
    )
