from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import sag
from docgen.piece.model import Drawer, Piece
from docgen.trade.beams import GRAVITY
from docgen.trade.density import panel
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found, subject
from tests.support.pieces import PLY, part, piece

E = 10273.0  # black cherry, MPa


def shelf(load: float, *, name: str = "shelf load", more: tuple = (), **options: object) -> Piece:  # type: ignore[type-arg]
    """A cherry shelf 900 × 250 × 20 between two sides, under a higher top."""
    return piece(
        part("left", ((-20, 0), (0, 250), (0, 900))),
        part("right", ((900, 920), (0, 250), (0, 900)), number=2),
        part("shelf", ((0, 900), (0, 250), (300, 320)), "across", number=3, **options),  # type: ignore[arg-type]
        *more,
        conditions=((name, Quantity(Fraction(load).limit_denominator(1000), Kind.MASS), "stated"),),
    )


INERTIA = 250 * 20**3 / 12
LIMIT = 900 / 600 * 384 * E * INERTIA / (5 * 900**3) / GRAVITY  # kg at which it sags 1.5 mm


def test_the_load_at_which_a_shelf_begins_to_sag() -> None:
    assert codes(sag, shelf(LIMIT - 0.05)) == []
    (f,) = found(sag, shelf(LIMIT + 0.05))
    assert (f.code, f.parts) == ("shelf-sags", ("shelf",))
    assert f.figures[0][1] == pytest.approx(1.5, abs=0.01)
    assert f.figures[1][1] == pytest.approx(3.0, abs=0.02)


def test_a_support_under_the_shelf_shortens_the_span() -> None:
    post = part("divider", ((440, 460), (0, 250), (0, 300)), number=4)
    of = shelf(LIMIT + 0.05, more=(post,))
    assert sag.clear_span(subject(of), of.part("shelf")) == pytest.approx(440)
    assert codes(sag, of) == []


def test_only_stated_loads_and_known_wood() -> None:
    assert codes(sag, shelf(100, name="drawer load")) == []
    assert codes(sag, shelf(0)) == []
    oddity = replace(PLY, sheet="cork")
    assert codes(sag, shelf(100, material=oddity)) == []  # no stiffness of cork is on the tables


@pytest.mark.parametrize("name", ["plywood, birch", "MDF", "particleboard", "OSB"])
def test_sheets_sag_by_their_own_stiffness_and_creep(name: str) -> None:
    sheet = panel(name)
    limit = LIMIT * sheet.along / E
    material = replace(PLY, sheet=name)
    assert codes(sag, shelf(limit - 0.02, material=material)) == []
    (f,) = found(sag, shelf(limit + 0.02, material=material))
    assert f.figures[0][1] == pytest.approx(1.5, rel=0.01)
    assert f.figures[1][1] == pytest.approx(1.5 * sheet.creep, rel=0.01)


def test_the_highest_board_carries_the_top_load() -> None:
    top = part("top", ((0, 900), (0, 250), (900, 920)), "across", number=4)
    assert [f.parts for f in found(sag, shelf(100, name="top load", more=(top,)))] == [("top",)]


def test_drawer_parts_carry_the_drawer_load() -> None:
    of = replace(shelf(100, name="drawer load"), drawers=(Drawer("d", ("shelf",), ((0, 1), (0, 1), (0, 1)), 0, 0, 0),))
    assert codes(sag, of) == ["shelf-sags"]


@pytest.mark.parametrize(("more", "expected"), [(-0.1, []), (0.1, ["shelf-sags"])])
def test_drawer_bottoms_may_sag_a_two_hundredth(more: float, expected: list[str]) -> None:
    of = shelf(3 * LIMIT + more, name="drawer load")
    assert codes(sag, replace(of, drawers=(Drawer("d", ("shelf",), ((0, 1), (0, 1), (0, 1)), 0, 0, 0),))) == expected


def test_a_runner_under_a_drawer_and_a_narrow_kicker_are_no_shelves() -> None:
    drawer = part("drawer", ((0, 900), (0, 250), (320, 420)), "across", number=4)
    assert codes(sag, shelf(500, more=(drawer,))) == []  # the drawer runs on it
    short = part("drawer", ((0, 200), (0, 250), (320, 420)), "across", number=4)
    assert codes(sag, shelf(500, more=(short,))) == ["shelf-sags"]  # a box that stands on a fifth of it
    for wide, expected in ((59.9, []), (60.1, ["shelf-sags"])):
        of = piece(
            part("left", ((-20, 0), (0, 250), (0, 900))),
            part("kicker", ((0, 900), (0, wide), (300, 320)), "across", number=2),
            conditions=(("shelf load", Quantity(Fraction(500), Kind.MASS), "stated"),),
        )
        assert codes(sag, of) == expected
