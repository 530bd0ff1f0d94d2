"""The box for field lenses: dovetails and fingers worked by hand, in inches."""

from pathlib import Path

import pytest

from tests.piece.joints.making import INCH, Trial, built

FILE = Path(__file__).parents[2] / "examples" / "dovetailed-box.yaml"


@pytest.fixture(scope="module")
def box() -> Trial:
    return built(FILE.read_text(encoding="utf-8"), FILE.name)


def cubic(inches: float) -> float:
    return inches * INCH**3


def test_four_tails_of_seven_eighths(box: Trial) -> None:
    # (4 3/4 − 2 × 1/4 − 3 × 1/4) / 4
    assert box.figure("dovetail", "tail at its end") == pytest.approx(7 / 8 * INCH)
    # A front: 14 × 4 3/4 × 1/2, less eight sockets of 1/2 × 1/2 × (7/8 − 1/2 / 8), less the groove of 1/4 × 7/32.
    whole = 14 * 4.75 * 0.5 - 8 * 0.25 * (7 / 8 - 1 / 16)
    # The groove runs out into the sockets: of its 14 in each end has 1/2 in, all of it within the lowest socket.
    assert box.volume("front") == pytest.approx(cubic(whole - 0.25 * 7 / 32 * 13), rel=1e-6)
    assert [round(p / INCH, 6) for p, _ in box.marks("left side", "corner joint")] == [0.5, 8.5]


def test_five_fingers_of_three_eighths(box: Trial) -> None:
    assert box.figure("finger", "fingers and sockets") == 5
    assert box.figure("finger", "socket, width of the cutter") == pytest.approx(3 / 8 * INCH)
    # 1 7/8 less four pitches of 3/8 − 0.002.
    assert box.figure("finger", "last finger") == pytest.approx((1.875 - 4 * 0.373) * INCH)


def test_leaves_are_let_in_by_their_own_thickness_and_the_lid_clears_the_back(box: Trial) -> None:
    assert box.figure("hinge", "recess deep") == pytest.approx(INCH / 16)
    (lid,) = box.piece.groups
    assert lid.parts == ("lid",) and lid.range == (-100, 0)
    assert lid.point[1:] == pytest.approx(((9 + 3 / 32) * INCH, (4.75 + 1 / 64) * INCH))
    assert {i.what: i.count for i in box.piece.items} == {
        "butt hinge, brass": 2,
        "wood screw, flat head, for hinges": 12,
    }
