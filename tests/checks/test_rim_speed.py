from fractions import Fraction

import pytest

from docgen.checks import rim_speed
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.records import Made, Setting
from docgen.trade.cutters import rim_speed as speed
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece


def routed(*values: tuple[str, object, str], machine: str = "router", **shop: object) -> Piece:
    made = Made(settings=(Setting(machine, "shaped", values),))  # type: ignore[arg-type]
    side = part("side", ((0, 20), (0, 300), (0, 700)), features=(feature("edge", made, title="shaped edge"),))
    return piece(side, shop=tuple((name.replace("_", " "), value) for name, value in shop.items()))


def straight(wide: float, **shop: object) -> Piece:
    return routed(("straight bit", wide, "length"), ("depth", 6, "length"), **shop)


@pytest.mark.parametrize(
    ("wide", "grade", "code", "most"),
    [
        (25.4, None, "", 0),
        (Fraction(254, 10), None, "", 0),
        (25.5, Grade.NOTE, "cutter-large", 18000),
        (50.8, Grade.NOTE, "cutter-large", 18000),
        (50.9, Grade.NOTE, "cutter-large", 16000),
        (88.9, Grade.NOTE, "cutter-large", 12000),
        (89.0, Grade.CARE, "cutter-too-large", 0),
    ],
)
def test_speeds_by_diameter(wide: float, grade: Grade | None, code: str, most: int) -> None:
    findings = found(rim_speed, straight(wide))
    assert [(f.grade, f.code) for f in findings] == ([(grade, code)] if grade else [])
    for f in findings:
        assert f.figures[1][1] == most
        assert f.figures[2][1] == pytest.approx(speed(wide, most))


@pytest.mark.parametrize(("slowest", "code"), [(12000, "cutter-large"), (12001, "cutter-too-fast")])
def test_the_slowest_speed_of_the_shop(slowest: int, code: str) -> None:
    assert codes(rim_speed, straight(80.0, router_speed=Fraction(slowest))) == [code]
    assert codes(rim_speed, straight(20.0, router_speed=Fraction(slowest))) == []


@pytest.mark.parametrize(
    ("values", "wide"),
    [
        ((("round-over bit, radius", 10, "length"),), 32.7),
        ((("rabbeting bit, into the thickness", 10, "length"), ("bearing, diameter", 12, "length")), 32),
        ((("radius", 30, "length"), ("chamfer the waste off first, leg", 17, "length")), 72.7),
        ((("chamfer bit", 30, "length"),), 30),
        ((("into the thickness", 40, "length"), ("along the face", 50, "length")), None),
    ],
)
def test_cutters_from_their_set_ups(values: tuple[tuple[str, int, str], ...], wide: float | None) -> None:
    setting = routed(*values).parts[0].features[0].made.settings[0]
    assert rim_speed.cutter(setting) == (None if wide is None else pytest.approx(wide))
    assert codes(rim_speed, routed(*values, machine="band saw")) == []


def test_one_cutter_is_told_once_for_all_its_parts() -> None:
    made = Made(settings=(Setting("router", "shaped", (("straight bit", 30, "length"),)),))
    sides = [part(name, ((0, 20), (0, 300), (0, 700)), features=(feature("edge", made),)) for name in ("left", "right")]
    (f,) = found(rim_speed, piece(*sides))
    assert f.parts == ("left", "right")
