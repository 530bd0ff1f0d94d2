"""The shop's lists of tools against what the set-ups and holes name."""

from fractions import Fraction

from docgen.checks import at_hand
from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Piece
from docgen.piece.records import Face, Feature, HoleRow, Made, Purpose, Setting
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece


def board(*features: Feature, **stated: tuple[object, ...]) -> Piece:
    return piece(part("side", ((0, 20), (0, 300), (0, 700)), features=features), shop=tuple(stated.items()))


def only(of: Piece) -> Finding:
    (f,) = found(at_hand, of)
    return f


def routed(width: float, machine: str = "router") -> Feature:
    return feature("dado", Made(settings=(Setting(machine, "dado", (("straight bit", width, "length"),)),)))


def drilled(drill: str = "17/64", thread: str = "") -> Feature:
    points = ((Fraction(100), Fraction(100), Fraction(0)),)
    hole = HoleRow("A", Purpose.PLAIN, Face(2, 0), points, (0.0, 0.0, 1.0), Fraction(6), drill, None, thread)
    return feature("hole", Made(holes=(hole,)))


def test_lists_that_are_not_stated_are_not_judged() -> None:
    assert codes(at_hand, board(routed(12), drilled(thread="M6"))) == []
    assert codes(at_hand, board(routed(12), drilled(thread="M6"), bits=(Fraction(12),))) == []


def test_straight_bits() -> None:
    bits = (Fraction(12), Fraction(6))
    assert codes(at_hand, board(routed(12), bits=bits)) == []
    f = only(board(routed(12.01), bits=bits))
    assert (f.grade, f.code) == (Grade.CARE, "not-at-hand")
    assert "the bit of 12 mm in two passes" in f.advice
    assert "wider" in only(board(routed(5.99), bits=bits)).advice
    assert codes(at_hand, board(routed(5.99, "plane"), bits=bits)) == []


def test_drills_by_name_and_by_diameter() -> None:
    assert codes(at_hand, board(drilled(), drills=("1/4", "17/64"))) == []
    assert codes(at_hand, board(drilled("6.5 mm"), drills=("6.5mm",))) == []
    assert codes(at_hand, board(drilled("1/4"), drills=("6.4 mm", "#7"))) == ["not-at-hand"]


def test_a_drill_that_is_close_is_told_and_one_that_is_not_is_not() -> None:
    assert "try 6.8 mm" in only(board(drilled("6.65 mm"), drills=("6.8 mm", "a burr"))).advice
    assert "try" not in only(board(drilled("6.64 mm"), drills=("6.8 mm",))).advice
    assert "try" not in only(board(drilled(), drills=("a burr",))).advice


def test_taps_are_known_by_any_of_their_names() -> None:
    tapped = drilled(thread="M6 × 1")
    assert codes(at_hand, board(tapped, taps=("M6",))) == []
    assert codes(at_hand, board(tapped, taps=("M5", "1/4-20"))) == ["not-at-hand"]
    assert codes(at_hand, board(drilled(), taps=("M5",))) == []


def test_one_finding_for_each_tool() -> None:
    features = (drilled(thread="M6"), drilled(thread="M6 × 1"))
    of = piece(
        part("left", ((0, 20), (0, 300), (0, 700)), features=features),
        part("right", ((500, 520), (0, 300), (0, 700)), number=2, features=features),
        shop=(("taps", ("M5",)),),
    )
    f = only(of)
    assert f.parts == ("left", "right") and "M6 × 1" in f.message


def test_what_is_bought_is_not_drilled_here() -> None:
    of = piece(
        part("slide", ((0, 20), (0, 300), (0, 700)), features=(drilled(),), hardware=True), shop=(("drills", ()),)
    )
    assert codes(at_hand, of) == []
