import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.leaning_dado import LeaningDado, leaning_trench
from docgen.piece.operations.leaning_rabbet import LeaningRabbet
from docgen.piece.records import Face, SizeKind
from tests.piece.operations.trial import board, made, proven, taken
from tests.support.by_hand import floor_further_on, mouth_of_dado

TOP, BOTTOM, FRONT = Face(2, 1), Face(2, 0), Face(1, 0)


@pytest.mark.parametrize("face", [TOP, BOTTOM])
@pytest.mark.parametrize("tilt", [10, -12.5])
def test_every_number_of_a_dado_with_leaning_walls_counts_and_is_told_once(face: Face, tilt: float) -> None:
    dado = LeaningDado(face, 1, 100, 120, 6, tilt)
    assert taken(dado, board()) == pytest.approx(20 * 6 * 120)  # a parallelogram is as large as the rectangle
    proven(dado, board())
    stopped = LeaningDado(face, 1, 100, 120, 6, tilt, start=30, stop=100)
    assert taken(stopped, board()) == pytest.approx(20 * 6 * 70)
    proven(stopped, board())


def test_along_the_grain_and_in_an_edge() -> None:
    proven(LeaningDado(TOP, 0, 40, 55, 5, 8, start=30, stop=350), board())
    proven(LeaningDado(FRONT, 0, 6, 14, 5, 8), board())


def test_the_wood_that_goes_lies_where_the_walls_lean_to() -> None:
    """Above 0 the walls run toward the high side as they go in, from either face."""
    for face in (TOP, BOTTOM):
        for tilt in (10, -10):
            (cut,) = made(LeaningDado(face, 1, 100, 120, 6, tilt), board()).cuts
            floor = 14.0 if face.side else 6.0
            places = [cut.shape.frame.point((e.end[0], e.end[1], 0.0)) for e in cut.shape.outline.edges]
            at_floor = sorted(p[0] for p in places if abs(p[2] - floor) < 1e-9)
            by = math.copysign(floor_further_on(6, 10), tilt)
            assert at_floor == pytest.approx([100 + by, 120 + by])


def test_the_figures_of_the_face_and_of_the_set_ups() -> None:
    """20 thick at 10°: 20 / cos 10° on the face; an upright bit clears that less 6 · tan 10°."""
    wide = mouth_of_dado(20, 10)
    assert wide == pytest.approx(20.30853)
    found = made(LeaningDado(TOP, 1, 100, 100 + wide, 6, 10, mate="tread"), board())
    routed, pared = found.settings
    told = {name: value for name, value, _ in (*routed.values, *routed.places, *pared.values, *pared.places)}
    assert told["strip that it clears"] == pytest.approx(wide - floor_further_on(6, 10))
    assert told["wide, square to the walls"] == 20 and told["walls, from square to the face"] == 10
    assert told["wide, on the face"] == pytest.approx(wide)
    assert told["going in, the walls lean toward"] == f"the {board().side(Face(0, 1))}"
    assert pared.jig[0] == "guide block" and "10°" in pared.jig[1] and pared.mate == "tread"
    assert [(float(m.position), m.wood) for m in found.marks] == [(100, -1), (pytest.approx(100 + wide), 1)]
    (angle,) = [s for s in found.sizes if s.kind is SizeKind.ANGLE]
    assert (angle.value, angle.note) == (10, "80° to the face")


@pytest.mark.parametrize(
    ("dado", "code", "field"),
    [
        (LeaningDado(TOP, 1, 100, 118, 20, 10), "depth-range", "depth"),
        (LeaningDado(TOP, 1, 100, 118, 6, 0), "angle-range", "tilt"),
        (LeaningDado(TOP, 1, 100, 118, 6, 50), "angle-range", "tilt"),
        (LeaningDado(TOP, 1, 100, 101, 6, 10), "width-range", "high"),
        (LeaningDado(TOP, 1, 382, 399.5, 6, 10), "outside-part", "span"),
        (LeaningDado(TOP, 1, 100, 118, 6, 10, start=130), "run-range", "stop"),
        (LeaningRabbet(TOP, Face(0, 1), 20, 20, 10), "depth-range", "depth"),
        (LeaningRabbet(TOP, Face(0, 1), 6, 1, 10), "width-range", "on"),
        (LeaningRabbet(TOP, Face(0, 1), 6, 400, 10), "width-range", "on"),
    ],
)
def test_impossible_ones(dado: LeaningDado | LeaningRabbet, code: str, field: str) -> None:
    with pytest.raises(Fault) as fault:
        dado.made(board())
    assert (fault.value.code, fault.value.field) == (code, field)


@pytest.mark.parametrize("edge", [Face(0, 0), Face(0, 1), Face(1, 1)])
@pytest.mark.parametrize("tilt", [10, -10])
def test_every_number_of_a_rabbet_with_a_leaning_wall_counts(edge: Face, tilt: float) -> None:
    rabbet = LeaningRabbet(TOP, edge, 6, 20, tilt)
    # At the floor it is narrower by d · tan a where the wall leans to the edge, wider where it leans from it.
    by = floor_further_on(6, 10) * (1 if tilt > 0 else -1) * (-1 if edge.side else 1)
    run = 120 if edge.axis == 0 else 400
    assert taken(rabbet, board()) == pytest.approx((20 + 20 + by) / 2 * 6 * run)
    proven(rabbet, board())
    proven(LeaningRabbet(TOP, edge, 6, 20, tilt, start=30, stop=90), board())


def test_an_upright_bit_clears_a_rabbet_as_far_as_its_wall_does_not_overhang() -> None:
    wide = [made(LeaningRabbet(TOP, Face(0, 1), 6, 20, t), board()).settings[0].values[1][1] for t in (10, -10)]
    assert wide == pytest.approx([20 - floor_further_on(6, 10), 20])


def test_a_trench_whose_far_wall_lies_beyond_the_end_is_a_rabbet() -> None:
    inside = LeaningDado(TOP, 1, 100, 120, 6, 10)
    assert leaning_trench(board(), inside) is inside
    found = leaning_trench(board(), LeaningDado(TOP, 1, 380, 400, 6, 10))
    assert isinstance(found, LeaningRabbet) and (found.edge, found.on) == (Face(0, 1), 20)
    low = leaning_trench(board(), LeaningDado(TOP, 1, 0, 20, 6, -10))
    assert isinstance(low, LeaningRabbet) and (low.edge, low.on) == (Face(0, 0), 20)
