from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import floating_panels
from docgen.geometry.make import box
from docgen.piece.model import Joint, Pane, Piece
from docgen.piece.records import Cut, Made
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found
from tests.support.pieces import PLY, feature, part, piece

MADE = (("left stile", "groove 1"), ("right stile", "groove 1"))
SWELL = 0.00248  # black cherry, tangential
WIDE = 300.0


def moisture(**values: int) -> tuple[tuple[str, Quantity, str], ...]:
    return tuple(
        (f"moisture {k.replace('_', ' ')}", Quantity(Fraction(v), Kind.NUMBER), "stated") for k, v in values.items()
    )


YEAR = moisture(**{"from": 6, "to": 12})


def stands(path: str, reach: float) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """Return where a stile 50 wide stands, its inner edge `reach` over the panel's edge."""
    across = (reach - 50, reach) if path.startswith("left") else (WIDE - reach, WIDE - reach + 50)
    return across, (0, 20), (0, 600)


def panelled(reach: float, room: float, conditions: object = YEAR, **more: object) -> Piece:
    """A panel 300 across its grain, 8 thick, that reaches `reach` into two stiles, whose grooves are `room` deeper."""
    stiles = []
    for number, path in ((2, "left stile"), (3, "right stile")):
        stile = part(path, stands(path, reach))
        inner = reach if path.startswith("left") else WIDE - reach
        at_high = stile.frame.inverse().point((inner, 10.0, 300.0))[1] > 25
        near, far = (50.0 - reach - room, 51.0) if at_high else (-1.0, reach + room)
        groove = feature("groove", Made(cuts=(Cut(box((-1.0, near, 6.0), (601.0, far, 14.0))),)))
        stiles.append(part(path, stands(path, reach), features=(groove,), number=number))
    panel = part("panel", ((0, WIDE), (6, 14), (0, 600)), "up", **more)  # type: ignore[arg-type]
    joint = Joint("panel in groove", "", ("panel", "left stile", "right stile"), MADE, (("clearance", room, "length"),))
    return piece(panel, *stiles, joints=(joint,), conditions=conditions)


GROWS = WIDE * SWELL * 6  # 4.464 mm over the year


@pytest.mark.parametrize(("room", "expected"), [(GROWS / 2 + 0.05, []), (GROWS / 2 - 0.05, ["panel-swells"])])
def test_room_to_swell(room: float, expected: list[str]) -> None:
    findings = found(floating_panels, panelled(10.0, room))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[1][1] == pytest.approx(2 * room, abs=1e-3)


@pytest.mark.parametrize(("reach", "expected"), [(GROWS + 0.1, []), (GROWS - 0.1, ["panel-falls-out"])])
def test_what_stays_held_when_it_shrinks(reach: float, expected: list[str]) -> None:
    findings = found(floating_panels, panelled(reach, 3.0))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[1][1] == pytest.approx(reach, abs=1e-3)


def test_the_day_of_fitting_parts_the_year() -> None:
    """Fitted at 12 % it only shrinks, fitted at 6 % it only swells."""
    wet, dry = (moisture(**{"from": 6, "to": 12, "on_the_day": day}) for day in (12, 6))
    assert codes(floating_panels, panelled(10.0, 0.5, wet)) == []
    assert codes(floating_panels, panelled(4.0, 0.5, dry)) == ["panel-swells"]
    assert codes(floating_panels, panelled(4.0, 0.5, wet)) == ["panel-falls-out"]


def test_plywood_and_files_without_moisture_are_silent() -> None:
    assert codes(floating_panels, panelled(1.0, 0.1, material=PLY)) == []
    assert codes(floating_panels, panelled(1.0, 0.1, ())) == []


def test_a_pane_is_judged_for_its_hold_only() -> None:
    of = panelled(4.0, 0.5)
    as_pane = replace(of, joints=(), panes=(Pane("panel", ("left stile", "right stile"), "panel", 0.5, (4, 8)),))
    assert codes(floating_panels, as_pane) == ["panel-falls-out"]
