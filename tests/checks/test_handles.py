"""What one opens flush fronts and doors by."""

from fractions import Fraction

from docgen.checks import handles
from docgen.checks.finding import Grade
from docgen.piece.model import Drawer, Group, Item, Joint, Piece
from docgen.piece.records import Face, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece


def chest(*, gap: float = 2.0, purpose: Purpose | None = None, mate: str = "", **more: object) -> Piece:
    hole = HoleRow("", purpose or Purpose.PLAIN, Face(2, 0), ((150, 50, 0),), (0.0, 0.0, 1.0), 5, "5 mm", mate=mate)
    cut = () if purpose is None else (feature("hole", Made(holes=(hole,))),)
    front = part("drawer.front", ((0, 300), (0, 20), (0, 100)), "across", features=cut)
    side = part("drawer.left", ((0, 12), (20, 300), (0, 90)), "deep", number=2)
    drawer = Drawer("drawer", ("drawer.front", "drawer.left"), ((0, 300), (0, 300), (0, 100)), 0, 0, Fraction(gap))
    return piece(front, side, drawers=(drawer,), **more)  # type: ignore[arg-type]


def door(**more: object) -> Piece:
    post = part("post", ((-23, -3), (0, 60), (0, 400)))
    leaf = part("leaf", ((0, 300), (0, 20), (0, 400)), number=2)
    hung = Joint("hung", "leaf on post", ("leaf", "post"), (), (("clearance", 3, "length"),))
    turns = Group("leaf", ("leaf",), (0.0, 0.0, 0.0), 2, (-95, 0))
    return piece(post, leaf, joints=(hung,), groups=(turns,), **more)  # type: ignore[arg-type]


def test_an_inset_front_without_a_pull_is_noted() -> None:
    (f,) = found(handles, chest())
    assert (f.grade, f.code, f.parts) == (Grade.NOTE, "nothing-to-open-by", ("drawer.front",))
    assert codes(handles, chest(gap=0)) == []  # it lies before the case, and is taken by its edges


def test_a_hole_that_belongs_to_nothing_else_is_for_a_pull() -> None:
    assert codes(handles, chest(purpose=Purpose.PLAIN)) == []
    assert codes(handles, chest(purpose=Purpose.PILOT)) == ["nothing-to-open-by"]
    assert codes(handles, chest(purpose=Purpose.PLAIN, mate="drawer.left")) == ["nothing-to-open-by"]


def test_a_door_wants_something_that_holds_it_shut_too() -> None:
    (f,) = found(handles, door())
    assert f.message == "Nothing in the file opens leaf, nor holds it shut."


def test_what_the_file_says_of_a_knob_is_heard_and_parts_of_words_are_not() -> None:
    for of in (chest, door):
        assert codes(handles, of(notes=("A knob of horn on each.",))) == []
        assert codes(handles, of(items=(Item("ball catch", 1),))) == []
        for said in ("Pulleys and blocks are not meant.", "Pull the box out to plane it.", "The lock rail is wide."):
            assert codes(handles, of(notes=(said,))) == ["nothing-to-open-by"]
        assert codes(handles, of(notes=("Pull it out by its knob.",))) == []
