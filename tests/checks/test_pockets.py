from dataclasses import replace

import pytest

from docgen.checks import mortises_meet, pockets
from docgen.piece.model import Joint, Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.mortise import Mortise
from docgen.piece.records import Face, Feature, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

LEG = ((0, 60), (0, 50), (0, 700))
MORTISE = Mortise(Face(1, 0), (300, 25), 0, 60, 10, 30)  # in the edge: 270 to 330 long, 20 to 30 in the thickness


def hole(at: float, *, depth: float = 40.0, purpose: Purpose = Purpose.PILOT, mate: str = "") -> Feature:
    """A hole 4 mm wide from the broad face, 10 mm in from the edge."""
    row = HoleRow("A", purpose, Face(2, 0), ((at, 10.0, 0.0),), (0.0, 0.0, 1.0), 4.0, "4 mm", depth, mate=mate)
    return feature("hole", Made(holes=(row,)), title="pilot holes A")


def leg(*features: Feature, **more: object) -> Piece:
    bare = part("leg", LEG)
    return piece(part("leg", LEG, features=(feature("mortise", MORTISE.made(bare)), *features)), **more)


@pytest.mark.parametrize(("at", "expected"), [(267.9, []), (268.6, ["screw-through-pocket"])])
def test_a_screw_beside_a_mortise(at: float, expected: list[str]) -> None:
    """The mortise's round end begins at 270; the hole's rim reaches 2 mm further than its middle."""
    # at the height of the mortise's middle line the rim of the round end is reached
    row = HoleRow("A", Purpose.PILOT, Face(2, 0), ((at, 25.0, 0.0),), (0.0, 0.0, 1.0), 4.0, "4 mm", 40.0)
    of = leg(feature("hole", Made(holes=(row,)), title="pilot holes A"))
    assert codes(pockets, of) == expected


@pytest.mark.parametrize(("depth", "expected"), [(19.9, []), (20.2, ["screw-through-pocket"])])
def test_a_screw_that_reaches_a_mortise(depth: float, expected: list[str]) -> None:
    assert codes(pockets, leg(hole(300.0, depth=depth))) == expected


def test_other_holes_are_told_by_their_own_code() -> None:
    assert codes(pockets, leg(hole(300.0, purpose=Purpose.DOWEL))) == ["hole-into-pocket"]


def test_a_pin_through_its_own_tenon_is_meant() -> None:
    made = (("leg", "mortise 1"), ("leg", "hole 1"))
    assert codes(pockets, leg(hole(300.0), joints=(Joint("pinned", "", ("rail", "leg"), made),))) == []
    other = Joint("pinned", "", ("rail", "leg"), (("leg", "mortise 1"),))
    assert codes(pockets, leg(hole(300.0, mate="rail"), joints=(other,))) == []
    assert codes(pockets, leg(hole(300.0, mate="cleat"), joints=(other,))) == ["screw-through-pocket"]


@pytest.mark.parametrize(("at", "expected"), [(97.9, []), (98.2, ["screw-through-pocket"])])
def test_a_screw_through_a_dado(at: float, expected: list[str]) -> None:
    bare = part("side", ((0, 20), (0, 300), (0, 700)))
    dado = feature("dado", Dado(Face(2, 0), 1, 100.0, 120.0, 6.0).made(bare))
    row = HoleRow("A", Purpose.CLEARANCE, Face(2, 1), ((at, 150.0, 20.0),), (0.0, 0.0, -1.0), 4.0, "4 mm")
    drilled = feature("hole", Made(holes=(row,)), title="screw holes A")
    of = piece(part("side", ((0, 20), (0, 300), (0, 700)), features=(dado, drilled)))
    assert codes(pockets, of) == expected


def crossing(deep: float, at: float = 300.0) -> Piece:
    """A second mortise from the broad face, `deep`, over the first one's middle: it begins 20 mm from there."""
    bare = part("leg", LEG)
    return leg(feature("mortise into the face", Mortise(Face(2, 0), (at, 15), 0, 40, 8, deep).made(bare)))


@pytest.mark.parametrize(("deep", "expected"), [(19.9, []), (20.1, ["mortises-meet"])])
def test_mortises_from_two_sides(deep: float, expected: list[str]) -> None:
    findings = found(mortises_meet, crossing(deep))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[1][1] == pytest.approx(deep - 20, abs=1e-6)


def test_mortises_past_each_other_and_steps_of_one_joint_are_silent() -> None:
    assert codes(mortises_meet, crossing(30, at=350.1)) == []
    of = crossing(30)
    made = tuple(("leg", f.name) for f in of.part("leg").features)
    assert codes(mortises_meet, replace(of, joints=(Joint("haunched", "", ("rail", "leg"), made),))) == []
