from docgen.checks import strays
from docgen.piece.model import Drawer, Joint, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def three(gap: float, **more: object) -> Piece:
    return piece(
        part("left", ((0, 20), (0, 300), (0, 700))),
        part("shelf", ((20, 400), (0, 300), (100, 120)), "across", number=2),
        part("stray", ((400 + gap, 420 + gap), (0, 300), (0, 700)), number=3),
        **more,
    )


def test_a_part_that_touches_nothing() -> None:
    (f,) = found(strays, three(0.25))
    assert (f.code, f.parts) == ("stray-part", ("stray",))


def test_a_part_within_a_fifth_of_a_millimetre_touches() -> None:
    assert codes(strays, three(0)) == []
    assert codes(strays, three(0.1)) == []


def test_a_joint_or_a_drawer_holds_across_a_gap() -> None:
    assert codes(strays, three(5, joints=(Joint("pivot", "pivot", ("shelf", "stray"), ()),))) == []
    drawer = Drawer("d", ("shelf", "stray"), ((0, 1), (0, 1), (0, 1)), 1, 1, 1)
    assert codes(strays, three(5, drawers=(drawer,))) == []


def test_a_lone_part_is_no_stray() -> None:
    assert codes(strays, piece(part("bench", ((0, 20), (0, 300), (0, 700))))) == []
