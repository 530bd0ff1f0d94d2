import math
from dataclasses import replace

import pytest

from docgen.checks import pivot_friction
from docgen.checks.finding import Grade
from docgen.piece.model import Fastener, Group, Piece
from docgen.trade.beams import GRAVITY
from docgen.trade.density import wood
from tests.support.checking import codes, found
from tests.support.pieces import part, piece

KG_MM = 400 * 20 * 1e-9 * (wood("black cherry").density or 0)  # of a flap 400 wide and 20 thick, a mm of its depth


def flap(
    behind: float, before: float, *, axis: int = 0, off: float = 0.0, limit: tuple[float, float] = (0, 60)
) -> Piece:
    """A level flap that reaches `behind` and `before` its axis, on two 1/4 in bolts in posts; the axis is at 0, 500."""
    bolts = [
        Fastener(
            "A", "pivot bolt", "1/4-20 UNC", 40, 1, head=(15.875, 5), points=((x, off, 500.0),), parts=(post, "flap")
        )
        for x, post in ((-5.0, "left"), (405.0, "right"))
    ]
    return piece(
        part("flap", ((0, 400), (-before, behind), (490, 510)), "across"),
        part("left", ((-30, -5), (-20, 20), (0, 550)), number=2),
        part("right", ((405, 430), (-20, 20), (0, 550)), number=3),
        groups=(Group("flap", ("flap",), (0.0, 0.0, 500.0), axis, limit),),
        fasteners=tuple(bolts),
    )  # fmt: skip


RADIUS = (15.875 + 6.35) / 4
LIMIT = pivot_friction.CLAMPS * 2 * pivot_friction.FRICTION * RADIUS / 1000  # N·m that both pivots hold


def behind_for(moment: float) -> float:
    """The depth behind the axis at which a flap with nothing before it pulls with `moment` N·m at 5° from rest."""
    return math.sqrt(2 * moment * 1000 / (KG_MM * GRAVITY * math.cos(math.radians(5))))


@pytest.mark.parametrize(
    ("share", "grade", "code"),
    [(0.98, Grade.NOTE, "pivot-torque"), (1.02, Grade.CARE, "pivot-slips")],
)
def test_what_friction_can_hold(share: float, grade: Grade, code: str) -> None:
    (f,) = found(pivot_friction, flap(behind_for(share * LIMIT), 0.0))
    assert (f.grade, f.code) == (grade, code)
    assert f.figures[0][1] == pytest.approx(share * LIMIT, rel=2e-3)
    assert f.figures[2][1] == pytest.approx(share * pivot_friction.CLAMPS, rel=2e-3)


def test_a_balanced_flap_needs_next_to_nothing() -> None:
    assert codes(pivot_friction, flap(200.0, 200.0)) == []
    (f,) = found(pivot_friction, flap(201.0, 200.0))
    assert f.code == "pivot-torque" and f.figures[0][1] < 0.02


def test_doors_and_what_has_no_pivots_are_silent() -> None:
    assert codes(pivot_friction, flap(300.0, 0.0, axis=2)) == []
    assert codes(pivot_friction, flap(300.0, 0.0, off=0.6)) == []
    assert codes(pivot_friction, flap(300.0, 0.0, off=0.4)) == ["pivot-slips"]


def test_the_moment_is_looked_for_on_the_way() -> None:
    """With its weight low in front of the axis it pulls hardest in the middle of its way, not at its start."""
    (f,) = found(pivot_friction, flap(300.0, 0.0, limit=(0, 90)))
    assert f.figures[1][1] == pytest.approx(7.5)


def test_stays_hold_in_place_of_friction() -> None:
    """The moment is the same; what holds it is told, and nobody is told to prop it."""
    loose = flap(300.0, 0.0)
    (group,) = loose.groups
    (slips,) = found(pivot_friction, loose)
    (f,) = found(pivot_friction, replace(loose, groups=(replace(group, stays=(2, "ratchet stay")),)))
    assert (slips.code, f.code, f.grade) == ("pivot-slips", "stay-holds", Grade.NOTE)
    assert "2 × ratchet stay have to hold that together" in f.message and f.figures[0] == slips.figures[0]
