import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.leaf_recess import LeafRecess
from docgen.piece.records import Authority, Face
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize("face", [Face(2, 0), Face(2, 1), Face(1, 0), Face(1, 1)])
@pytest.mark.parametrize("side", [0, 1])
def test_a_bed_open_toward_the_edge(face: Face, side: int) -> None:
    recess = LeafRecess(face, Face(3 - face.axis, side), 60, 50, 12, 2)
    assert taken(recess, board()) == pytest.approx(50 * 12 * 2)
    proven(recess, board())
    assert [(m.position, m.wood) for m in made(recess, board()).marks] == [(60, -1), (110, 1)]


def test_the_hinge_rules_but_for_the_place() -> None:
    sizes = made(LeafRecess(Face(2, 1), Face(1, 0), 60, 50, 12, 2), board()).sizes
    assert {s.parameters[0] for s in sizes if s.authority is Authority.HARDWARE} == {"length", "width", "depth"}


def test_the_set_up_names_the_bit_and_how_the_fence_is_set() -> None:
    (setting,) = made(LeafRecess(Face(2, 1), Face(1, 0), 60, 50, 12, 2), board()).settings
    assert setting.values[0] == ("cutter", "straight bit, no wider than half the leaf", "text")
    assert "far rim stands on the line in from the edge" in setting.note


@pytest.mark.parametrize(
    ("recess", "code"),
    [
        (LeafRecess(Face(2, 1), Face(1, 0), 380, 50, 12, 2), "outside-part"),
        (LeafRecess(Face(2, 1), Face(1, 0), 60, 50, 12, 20), "depth-range"),
        (LeafRecess(Face(2, 1), Face(1, 0), 60, 50, 120, 2), "depth-range"),
        (LeafRecess(Face(2, 1), Face(2, 0), 60, 50, 12, 2), "recess-faces"),
    ],
)
def test_impossible_recesses(recess: LeafRecess, code: str) -> None:
    with pytest.raises(Fault) as fault:
        recess.made(board())
    assert fault.value.code == code
