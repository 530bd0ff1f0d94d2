import pytest

from docgen.checks import parts_apart
from docgen.geometry.shapes import turned
from docgen.piece.model import Joint, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def joined(gap: float, *figures: tuple[str, float, str], lean: float = 0.0) -> Piece:
    """A rail that ends `gap` before a leg; both may lean together."""
    turn = turned(1, lean, (0.0, 0.0, 0.0))
    return piece(
        part("leg", ((0, 40), (0, 40), (0, 700)), frame=turn),
        part("rail", ((40 + gap, 540), (0, 20), (100, 160)), "across", number=2, frame=turn),
        joints=(Joint("screwed", "rail screwed to leg", ("rail", "leg"), (), figures),),
    )


@pytest.mark.parametrize("lean", [0.0, 12.0])
@pytest.mark.parametrize(("gap", "expected"), [(0.0, 0), (0.19, 0), (0.21, 2)])
def test_parts_that_should_touch(gap: float, expected: int, lean: float) -> None:
    findings = found(parts_apart, joined(gap, lean=lean))
    assert [f.code for f in findings] == ["joint-apart"] * expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(gap, abs=1e-6)


@pytest.mark.parametrize(("gap", "expected"), [(12.9, []), (12.95, ["joint-apart"] * 2)])
def test_what_a_joint_leaves_between_its_parts(gap: float, expected: list[str]) -> None:
    assert codes(parts_apart, joined(gap, ("clearance a side", 12.7, "length"))) == expected


def test_a_joint_of_one_part_has_nothing_to_meet() -> None:
    of = piece(part("leg", ((0, 40), (0, 40), (0, 700))), joints=(Joint("level ends", "", ("leg",), ()),))
    assert codes(parts_apart, of) == []
