import math

import pytest

from docgen.checks import swing
from docgen.checks.finding import Grade
from docgen.piece.model import Group, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def lid(most: float, wall: float = 0.0) -> Piece:
    """A lid hung at its back lower edge (deep 400, up 0), and a wall that it meets when it is lifted far enough."""
    return piece(
        part("lid", ((0, 300), (0, 400), (0, 20)), "across"),
        part("wall", ((0, 300), (430 + wall, 450 + wall), (-100, 600)), "across", number=2),
        groups=(Group("lid", ("lid",), (0.0, 400.0, 0.0), 0, (-most, 0)),),
    )


# Lifted by a, the far corner of the upper face stands 400·(1 − cos a) + 20·sin a deep; the wall's face is at 430.
FIRST = math.degrees(math.asin(30 / math.hypot(400, 20)) + math.atan(400 / 20))


def test_a_lid_that_stops_before_the_wall() -> None:
    assert codes(swing, lid(90)) == []
    assert codes(swing, lid(FIRST - 0.3)) == []


def test_a_lid_that_swings_into_the_wall() -> None:
    (f,) = found(swing, lid(FIRST + 1.0))
    assert (f.grade, f.code, f.parts) == (Grade.STOP, "swing-hits", ("lid", "wall"))
    first = f.figures[0][1]
    assert first == pytest.approx(FIRST, abs=0.5)


def test_what_overlaps_at_rest_is_told_elsewhere() -> None:
    assert "swing-hits" not in codes(swing, lid(120, wall=-40.0))  # the wall stands in the lid from the start


def test_angles_reach_both_ends() -> None:
    group = Group("g", (), (0.0, 0.0, 0.0), 0, (-30, 60))
    assert swing.angles(group)[-1] == 60
    assert -30 in swing.angles(group) and 0 not in swing.angles(group)


def alone(most: float) -> Piece:
    """The lid without a wall: its upper rear arris swings back by 20 · sin a."""
    of = lid(most)
    return piece(of.parts[0], groups=of.groups)


@pytest.mark.parametrize(("most", "expected"), [(14.4, []), (14.6, ["swing-behind"])])
def test_what_swings_out_behind_the_piece(most: float, expected: list[str]) -> None:
    findings = found(swing, alone(most))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(20 * math.sin(math.radians(most)), abs=1e-6)
