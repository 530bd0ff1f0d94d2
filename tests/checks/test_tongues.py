import math
from dataclasses import replace

import pytest

from docgen.checks import tongues
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.leaning_dado import LeaningDado
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Face
from tests.piece.joints.making import trial
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
SHELF = ((20, 520), (0, 300), (100, 120))


def shelved(*, thick: float = 12.0, long: float = 6.0, wide: float = 12.0, deep: float = 6.0) -> Piece:
    """A shelf against a side: a tongue flush with its lower face, in a dado that starts at the same height."""
    side = part("side", SIDE)
    into = side.face("right")
    dado = Dado(into, 1, 100.0, 100.0 + wide, deep)
    shelf = part("shelf", SHELF, "across", number=2)
    low = 0.0 if shelf.face("bottom").side == 0 else 20.0 - thick
    tongue = Tongue(Face(0, 0), low, low + thick, long)
    return piece(
        part("side", SIDE, features=(feature("dado", dado.made(side)),)),
        part("shelf", SHELF, "across", number=2, features=(feature("tongue", tongue.made(shelf)),)),
    )


@pytest.mark.parametrize(
    ("thick", "expected"),
    [(12.1, ["tongue-fat"]), (12.01, []), (12.0, []), (11.81, []), (11.7, ["tongue-loose"])],
)
def test_thickness_against_width(thick: float, expected: list[str]) -> None:
    findings = found(tongues, shelved(thick=thick))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(12.0 - thick, abs=1e-6)
        assert f.grade is (Grade.STOP if thick > 12 else Grade.CARE)


@pytest.mark.parametrize(("long", "expected"), [(6.1, ["tongue-bottoms"]), (6.0, []), (5.9, [])])
def test_length_against_depth(long: float, expected: list[str]) -> None:
    assert codes(tongues, shelved(long=long)) == expected


def test_a_tongue_beside_the_dado_is_not_compared() -> None:
    of = shelved()
    assert (
        codes(tongues, piece(*of.parts[:1], part("loose", ((20, 520), (0, 300), (300, 320)), "across", number=2))) == []
    )


LEANING = """
sizes: {lean: 10 deg, up: 260}
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 400]},
    turn: {about: deep, at: {across: 20, up: 0}, by: lean}}
  tread: {of: board, grain: across, box: {across: [20 + up * tan(lean), 400], deep: [0, 200], up: [up, up + 20]}}
joints:
  - housing: {shelf: tread, into: left, depth: 6%s}
"""


def leaning(*, more: str = "", wide: float = 0.0, deep: float = 6.0, tilt: float = 0.0) -> Piece:
    """A tread in a side that leans 10 degrees; the dado square to its walls by `wide` wider, leaning by `tilt` more."""
    made = trial(LEANING % more).piece
    side = made.part("left")
    (was,) = side.features
    told = dict(was.parameters)
    high = float(told["high"]) + wide / math.cos(math.radians(10))
    dado = LeaningDado(side.face("right"), 1, told["low"], high, deep, told["tilt"] + tilt, told.get("start"))
    side = replace(side, features=(replace(was, made=dado.made(side)),))
    return replace(made, parts=(side, made.part("tread")))


@pytest.mark.parametrize("more", ["", ", tongue: 12", ", tongue: 12, flush: bottom, stop: {front: 15}"])
def test_a_tongue_in_a_dado_whose_walls_lean_is_measured_square_to_them(more: str) -> None:
    assert codes(tongues, leaning(more=more)) == []
    for wide, expected in ((-0.1, ["tongue-fat"]), (-0.01, []), (0.19, []), (0.3, ["tongue-loose"])):
        findings = found(tongues, leaning(more=more, wide=wide))
        assert [f.code for f in findings] == expected
        for f in findings:
            assert f.figures[0][1] == pytest.approx(wide, abs=1e-6)
    for deep, expected in ((5.9, ["tongue-bottoms"]), (6.0, []), (6.1, [])):
        assert codes(tongues, leaning(more=more, deep=deep)) == expected


def test_a_dado_that_leans_otherwise_than_its_tread_is_too_narrow_for_it() -> None:
    (finding,) = found(tongues, leaning(tilt=3.0))
    assert finding.code == "tongue-fat"


def test_what_stands_beside_a_dado_that_leans_is_not_compared() -> None:
    """A rail right under the tread: its own dado ends where that of the tread begins."""
    body = LEANING.replace(
        "joints:\n",
        """
  rail: {of: board, grain: across, box: {across: [20 + 170 * tan(lean), 400], deep: [150, 170], up: [170, up]}}
joints:
  - housing: {shelf: rail, into: left, depth: 6}
""",
    )
    assert codes(tongues, trial(body % "").piece) == []
