import pytest

from docgen.checks import rabbet_lips
from docgen.geometry.make import box
from docgen.piece.model import Piece
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Cut, Face, Made
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))


def side(into: float, on: float = 10.0, *more: Cut) -> Piece:
    """A side 20 thick with a rabbet along its rear edge."""
    bare = part("side", SIDE)
    features = [feature("rabbet", Rabbet(Face(2, 0), Face(1, 1), into, on).made(bare))]
    if more:
        features.append(feature("cut", Made(cuts=more)))
    return piece(part("side", SIDE, features=tuple(features)))


@pytest.mark.parametrize(("into", "expected"), [(16.9, []), (17.1, ["lip-thin"])])
def test_the_lip_in_the_thickness(into: float, expected: list[str]) -> None:
    assert codes(rabbet_lips, side(into)) == expected


@pytest.mark.parametrize(("groove", "expected"), [(11.9, []), (12.1, ["lip-thin"])])
def test_a_groove_from_the_other_face(groove: float, expected: list[str]) -> None:
    cut = Cut(box((-1.0, 292.0, 20.0 - groove), (701.0, 299.0, 21.0)))
    findings = found(rabbet_lips, side(5.0, 10.0, cut))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(15.0 - groove, abs=1e-3)


@pytest.mark.parametrize(("near", "expected"), [(286.9, []), (287.1, ["lip-thin"])])
def test_a_dado_beside_the_wall(near: float, expected: list[str]) -> None:
    """The rabbet's wall stands at 290: a groove from the same face that ends `near` to it."""
    cut = Cut(box((-1.0, 270.0, -1.0), (701.0, near, 9.0)))
    assert codes(rabbet_lips, side(8.0, 10.0, cut)) == expected


def test_tongues_and_notches_are_no_rabbets() -> None:
    bare = part("shelf", ((0, 500), (0, 200), (0, 8)), "across")
    tongue = feature("tongue", Tongue(Face(0, 0), 3, 5, 6).made(bare))
    notch = feature("notch", Made(cuts=(Cut(box((-1.0, -1.0, -1.0), (60.0, 198.0, 9.0))),)))
    assert codes(rabbet_lips, piece(part("shelf", ((0, 500), (0, 200), (0, 8)), "across", features=(tongue,)))) == []
    assert codes(rabbet_lips, piece(part("shelf", ((0, 500), (0, 200), (0, 8)), "across", features=(notch,)))) == []
