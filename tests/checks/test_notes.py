"""Running grain, and set-ups that are barred."""

from fractions import Fraction

import pytest

from docgen.checks import barred_setups, running_grain
from docgen.piece.model import Piece, Run
from docgen.piece.records import Made, Setting
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece


def case(*, radius: int = 0, closed: bool = False) -> Piece:
    return piece(
        part("left", ((0, 20), (0, 300), (0, 500))),
        part("top", ((0, 800), (0, 300), (480, 500)), "across", number=2),
        runs=(Run("case", ("left", "top"), ("right", "bottom"), closed, Fraction(radius)),),
    )


def test_the_break_in_running_grain() -> None:
    (f,) = found(running_grain, case(radius=28))
    assert f.figures[0][1] == pytest.approx(3 * 2**0.5 + 0.5858 * 28, abs=1e-3)
    (f,) = found(running_grain, case())
    assert f.figures[0][1] == pytest.approx(3 * 2**0.5)
    assert "radius" not in f.message


def test_the_corner_that_cannot_meet_and_silence_without_runs() -> None:
    assert "cannot meet at the corner of top and left" in found(running_grain, case(closed=True))[0].message
    assert codes(running_grain, piece(part("left", ((0, 20), (0, 300), (0, 500))))) == []


def setting(what: str, tilt: float, machine: str = "table saw") -> Piece:
    values = (
        ("dado stack width", 12, "length"),
        ("blade, from upright", tilt, "angle"),
        ("blade, from the table", 90 - tilt, "angle"),
    )
    made = Made(settings=(Setting(machine, what, values),))  # type: ignore[arg-type]
    return piece(part("left", ((0, 20), (0, 300), (0, 500)), features=(feature("dado", made),)))


def test_a_dado_set_on_a_tilted_arbor_stops() -> None:
    (f,) = found(barred_setups, setting("dado", 14.0))
    assert f.code == "dado-set-tilted" and f.grade == "stop"
    assert codes(barred_setups, setting("dado", 0.1)) == ["dado-set-tilted"]


def test_an_upright_dado_set_or_another_cutter_is_silent() -> None:
    assert codes(barred_setups, setting("dado", 0.0)) == []
    assert codes(barred_setups, setting("dado", 14.0, "router")) == []
    bevel = Made(settings=(Setting("table saw", "bevel", (("blade, from upright", 14.0, "angle"),)),))
    assert (
        codes(barred_setups, piece(part("left", ((0, 20), (0, 300), (0, 500)), features=(feature("bevel", bevel),))))
        == []
    )
