import pytest

from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.mortise_steps import Flare, Haunch
from docgen.piece.operations.tongue import Tongue
from docgen.piece.operations.wedging import Kerfs
from docgen.piece.records import Face
from tests.piece.operations.trial import (
    board,
    every_parameter_is_told_once,
    figures_measure_what_they_say,
    made,
    proven,
    taken,
)


@pytest.mark.parametrize("face", [Face(2, 0), Face(2, 1), Face(1, 0), Face(1, 1)])
@pytest.mark.parametrize("lengthwise", [True, False])
def test_a_mortise_widens_toward_the_far_face(face: Face, lengthwise: bool) -> None:
    along = 0 if lengthwise else 3 - face.axis
    middle = (200, 10) if face.axis == 1 else (200, 60)
    thick = 120 if face.axis == 1 else 20
    mortise = Mortise(face, middle, along, 8, 6, None, squared=True, steps=(Flare(thick / 4, 2),))
    # The slot itself, and over three quarters of the thickness a triangle at each end.
    assert taken(mortise, board()) == pytest.approx(thick * 6 * 8 + 0.75 * thick * 6 * 2, rel=1e-6)
    proven(mortise, board())


@pytest.mark.parametrize("face", [Face(2, 0), Face(2, 1)])
@pytest.mark.parametrize("along", [0, 1])
def test_haunches_go_on_beyond_the_slot(face: Face, along: int) -> None:
    steps = (Haunch(True, 10, 4), Haunch(False, 12, 5))
    mortise = Mortise(face, (200, 60), along, 40, 8, 15, squared=True, steps=steps)
    assert taken(mortise, board()) == pytest.approx(8 * (40 * 15 + 10 * 4 + 12 * 5))
    proven(mortise, board())


def test_a_haunch_at_the_end_of_its_part_is_open() -> None:
    mortise = Mortise(Face(2, 1), (370, 60), 0, 40, 8, 15, squared=True, steps=(Haunch(True, 10, 4),))
    assert taken(mortise, board()) == pytest.approx(8 * (40 * 15 + 10 * 4))


@pytest.mark.parametrize("end", [Face(0, 0), Face(0, 1)])
def test_kerfs_start_at_the_tip_of_the_tenon(end: Face) -> None:
    kerfs = Kerfs(end, 30, 20, 100, 12, 2, 18)
    every_parameter_is_told_once(kerfs, board())
    figures_measure_what_they_say(kerfs, board())
    (one, two) = made(kerfs, board()).cuts
    assert one.shape != two.shape
    assert made(Tongue(end, 6, 14, 30), board()).allowances[0].amount == 30
