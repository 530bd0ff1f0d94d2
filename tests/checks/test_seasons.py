from fractions import Fraction

import pytest

from docgen.checks import seasons
from docgen.piece.model import Drawer, Pane, Piece
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found
from tests.support.pieces import PLY, part, piece

GAP = 0.8
SWELL = 0.00248  # black cherry, tangential


def moisture(**values: int) -> tuple[tuple[str, Quantity, str], ...]:
    return tuple(
        (f"moisture {k.replace('_', ' ')}", Quantity(Fraction(v), Kind.NUMBER), "stated") for k, v in values.items()
    )


def drawer(height: float, conditions: object, **more: object) -> Piece:
    front = part("drawer.front", ((0, 400), (0, 20), (0, height)), "across", **more)  # type: ignore[arg-type]
    return piece(
        front,
        drawers=(Drawer("drawer", ("drawer.front",), ((0, 400), (0, 300), (0, 200)), 0, 0, GAP),),
        conditions=conditions,
    )


TALLEST = 2 * GAP / (SWELL * 6)  # from 6 to 12 %: 107.5 mm


def test_a_front_that_swells_by_more_than_its_gaps() -> None:
    (f,) = found(seasons, drawer(TALLEST + 0.1, moisture(**{"from": 6, "to": 12})))
    assert f.code == "front-binds"
    assert f.figures[0][1] == pytest.approx((TALLEST + 0.1) * SWELL * 6)
    assert f.figures[2][1] == pytest.approx(TALLEST)


def test_a_front_just_low_enough_is_silent() -> None:
    assert codes(seasons, drawer(TALLEST - 0.1, moisture(**{"from": 6, "to": 12}))) == []


def test_the_moisture_on_the_day_counts() -> None:
    tall = TALLEST + 10
    assert codes(seasons, drawer(tall, moisture(**{"from": 6, "to": 12, "on_the_day": 9}))) == []
    assert codes(seasons, drawer(tall, moisture(**{"from": 6, "to": 12, "on_the_day": 6}))) == ["front-binds"]


def test_nothing_is_said_without_stated_moisture_or_of_sheet_goods() -> None:
    assert codes(seasons, drawer(300, ())) == []
    assert codes(seasons, drawer(300, moisture(**{"from": 6, "to": 12}), material=PLY)) == []


def test_a_solid_panel_in_a_frame() -> None:
    def framed(wide: float) -> Piece:
        panel = part("panel", ((0, 400), (0, 20), (0, wide)), "across")
        pane = Pane("panel", ("rail",), "panel", GAP, (8, 20))
        return piece(panel, panes=(pane,), conditions=moisture(**{"from": 6, "to": 12}))

    assert codes(seasons, framed(TALLEST + 0.1)) == ["panel-binds"]
    assert codes(seasons, framed(TALLEST - 0.1)) == []
