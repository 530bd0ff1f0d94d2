"""The words beside the views of a part."""

from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.sheets.part_words import other_letters
from tests.support.steps import example


def test_equal_parts_whose_holes_have_other_letters_are_told() -> None:
    piece, lists = example("seed-chest")
    found = {k.first: other_letters(k, lists) for k in kinds(piece, Solids(piece))}
    (strips,) = [told for first, told in found.items() if first.endswith("runner")]
    assert strips == ["In the chart C, D instead of A, B: drawer.2.left runner, drawer.2.right runner"]
    assert found["case.left"] == []
