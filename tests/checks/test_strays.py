from docgen.checks import strays
from docgen.piece.model import Drawer, Joint, Piece
from docgen.schedules.gluing import unjoined
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
    (f,) = [f for f in found(strays, three(0.25)) if f.code == "stray-part"]
    assert (f.code, f.parts) == ("stray-part", ("stray",))


def test_a_part_within_a_fifth_of_a_millimetre_touches() -> None:
    assert set(codes(strays, three(0))) == set(codes(strays, three(0.1))) == {"part-unjoined"}


def test_a_joint_or_a_drawer_holds_across_a_gap() -> None:
    assert "stray-part" not in codes(strays, three(5, joints=(Joint("pivot", "pivot", ("shelf", "stray"), ()),)))
    drawer = Drawer("d", ("shelf", "stray"), ((0, 1), (0, 1), (0, 1)), 1, 1, 1)
    assert "stray-part" not in codes(strays, three(5, drawers=(drawer,)))


def test_a_part_that_only_touches_is_told_as_the_order_of_work_tells_it() -> None:
    glued = Joint("dowel", "dowel", ("left", "shelf"), (("left", "x"),))
    of = three(0, joints=(glued,))
    (f,) = found(strays, of)
    assert (f.code, f.grade, f.parts) == ("part-unjoined", "note", ("stray",))
    (step,) = unjoined(of)
    assert step.parts == f.parts and "no joint of the drawings holds" in step.what
    assert codes(strays, three(0, joints=(glued, Joint("dowel", "d", ("stray", "shelf"), (("stray", "y"),))))) == []


def test_a_lone_part_is_no_stray() -> None:
    assert codes(strays, piece(part("bench", ((0, 20), (0, 300), (0, 700))))) == []
