import math
from collections.abc import Callable

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.arris import Chamfer, RoundOver
from docgen.piece.records import Face
from tests.piece.operations.trial import CHORDS, board, proven, taken, worked

PAIRS = [(Face(2, s), Face(a, t)) for s in (0, 1) for a in (0, 1) for t in (0, 1)]


@pytest.mark.parametrize(("face", "edge"), [*PAIRS, (Face(0, 1), Face(1, 0))])
def test_round_over_on_every_arris(face: Face, edge: Face) -> None:
    over = RoundOver(face, edge, 6)
    run = {0: 400, 1: 120, 2: 20}[3 - face.axis - edge.axis]
    assert taken(over, board()) == pytest.approx(36 * (1 - math.pi / 4) * run, rel=2 * CHORDS)
    proven(over, board())


def ended(leg: float, across: Callable[[float], float]) -> tuple[float, float]:
    """How far before a stop the full shape ends, and what the bit takes beyond it: slices square to its axis, by hand.

    At the depth z the bit reaches `across(z)` into the face from an edge on which a bearing of 6.35 radius runs.
    """
    b, n = 6.35, 4000
    taken = 0.0
    for k in range(n):
        radius = b + across((k + 0.5) * leg / n)
        taken += (radius**2 * math.acos(b / radius) - b * math.sqrt(radius**2 - b * b)) / 2 * leg / n
    return math.sqrt((b + leg) ** 2 - b * b), taken


def test_a_stopped_round_over_runs_out_before_its_stops() -> None:
    over = RoundOver(Face(2, 1), Face(1, 0), 6, 50, 300)
    reach, end = ended(6, lambda z: 6 - math.sqrt(36 - (6 - z) ** 2))
    full = 36 * (1 - math.pi / 4) * (250 - 2 * reach)
    assert taken(over, board()) == pytest.approx(full + 2 * end, rel=2 * CHORDS)
    proven(over, board())
    solid = worked(over, board())
    # On the arris the last trace of it lies at the stop; in the middle of the run-out less is taken.
    assert solid.contains((49.5, 0.05, 19.95)) and not solid.contains((50.5, 0.01, 19.99))
    assert not solid.contains((50 + reach + 0.5, 1.0, 19.5)) and solid.contains((50 + reach / 3, 1.0, 19.5))
    assert float(over.made(board()).settings[0].travel.start) == pytest.approx(50 + reach)  # type: ignore[union-attr]


def test_the_bits_middle_is_told_beside_the_stops() -> None:
    reach, _ = ended(6, lambda z: 6 - z)
    (setting,) = RoundOver(Face(2, 1), Face(1, 0), 6, None, 300).made(board()).settings
    told = {name: float(value) for name, value, kind in setting.places if kind == "length"}
    (stop, first), (middle, second) = told.items()
    assert stop.startswith("round-over stops from") and middle.startswith("bit's middle stops from")
    assert (first, second) == pytest.approx((100, 100 + reach))


@pytest.mark.parametrize("operation", [RoundOver, Chamfer])
def test_stops_too_near_each_other_leave_no_full_shape(operation: type) -> None:
    legs = (6,) if operation is RoundOver else (6, 6)
    reach, _ = ended(6, lambda z: 6 - z)
    operation(Face(2, 1), Face(1, 0), *legs, 50, 50 + 2 * reach + 0.1).made(board())
    with pytest.raises(Fault) as caught:
        operation(Face(2, 1), Face(1, 0), *legs, 50, 50 + 2 * reach - 0.1).made(board())
    assert caught.value.code == "run-range"


@pytest.mark.parametrize(("face", "edge"), PAIRS)
def test_chamfer_on_every_arris(face: Face, edge: Face) -> None:
    chamfer = Chamfer(face, edge, 6, 4)
    run = {0: 400, 1: 120, 2: 20}[3 - face.axis - edge.axis]
    assert taken(chamfer, board()) == pytest.approx(12 * run)
    proven(chamfer, board())


def test_a_stopped_chamfer_runs_out_before_its_stop() -> None:
    chamfer = Chamfer(Face(2, 0), Face(1, 1), 5, 5, start=40)
    reach, end = ended(5, lambda z: 5 - z)
    assert taken(chamfer, board()) == pytest.approx(12.5 * (360 - reach) + end, rel=1e-3)
    proven(chamfer, board())


def test_a_planed_chamfer_is_pared_square_to_its_stop() -> None:
    assert taken(Chamfer(Face(2, 0), Face(1, 1), 6, 4, start=40), board()) == pytest.approx(12 * 360)


def test_no_room() -> None:
    for operation in (RoundOver(Face(2, 1), Face(1, 0), 21), Chamfer(Face(2, 1), Face(1, 0), 6, 21)):
        with pytest.raises(Fault):
            operation.made(board())
