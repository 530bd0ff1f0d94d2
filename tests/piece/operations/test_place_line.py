import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.place_line import PlaceLine
from docgen.piece.records import BOTH, Face
from tests.support.pieces import part

SIDE = part("side", ((0, 20), (0, 300), (0, 720)))


def test_a_place_is_a_mark_and_nothing_else() -> None:
    made = PlaceLine(Face(2, 1), 140.0, "runner, lower edge").made(SIDE)
    (mark,) = made.marks
    assert (mark.position, mark.wood, mark.label, mark.face) == (140.0, BOTH, "runner, lower edge", Face(2, 1))
    assert not made.cuts and not made.sizes and not made.settings


@pytest.mark.parametrize("at", [-0.1, 720.1])
def test_a_place_beside_the_part_is_told(at: float) -> None:
    with pytest.raises(Fault) as caught:
        PlaceLine(Face(2, 1), at).made(SIDE)
    assert caught.value.code == "outside-part"
    assert PlaceLine(Face(2, 1), 720.0).made(SIDE).marks
