import pytest

from docgen.geometry.outlines import bounds
from docgen.piece.faults import Fault
from docgen.piece.kinds import kinds
from docgen.piece.operations.notch import Notch
from docgen.piece.records import Face
from docgen.piece.solids import Solids
from docgen.schedules.templates import templates
from tests.piece.desk import HEAD, PARTS, built
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize(
    ("notch", "volume"),
    [
        (Notch((None, 30), (None, 40)), 30 * 40 * 20),
        (Notch((350, None), (90, None)), 50 * 30 * 20),
        (Notch((100, 150), (None, 25)), 50 * 25 * 20),
        (Notch((100, 150), (20, 60), (None, 8)), 50 * 40 * 8),
        (Notch((100, 150), (20, 60), (12, None)), 50 * 40 * 8),
    ],
)
def test_notches(notch: Notch, volume: float) -> None:
    assert taken(notch, board()) == pytest.approx(volume)
    proven(notch, board())


def test_a_corner_notch_is_measured_from_its_own_sides() -> None:
    sizes = made(Notch((350, None), (90, None)), board()).sizes
    assert [s.value for s in sizes] == [50, 30]


def test_nothing_left_and_nothing_taken() -> None:
    for notch in (Notch(), Notch((50, 50), (None, 20)), Notch((-5, 50), (None, 20))):
        with pytest.raises(Fault):
            notch.made(board())


def test_the_statement_s_notch_is_printed_on_the_face_that_shows_its_corners() -> None:
    (one,) = made(Notch((None, 30), (None, 40), template=True), board()).templates
    assert one.face == Face(2, 1) and one.whole
    assert bounds(one.waste[0]) == ((0, 0), (30, 40))
    (one,) = made(Notch((350, None), (None, None), (12, None), template=True), board()).templates
    assert one.face == Face(1, 1)
    assert bounds(one.waste[0]) == ((350, 12), (400, 20))
    assert made(Notch((None, 30), (None, 40)), board()).templates == ()


def test_a_step_without_a_corner_and_a_blind_notch_are_left_to_their_figures() -> None:
    for notch in (Notch((None, 30), template=True), Notch((100, 150), (20, 60), (12, None), template=True)):
        assert made(notch, board()).templates == ()


def test_notches_in_both_corners_of_a_shelf_are_one_template() -> None:
    said = "operations:\n  - notch: {part: leg, off: {bottom: 2, left: 1/2}}\n  - notch: {part: leg, off: {top: 2, left: 1/2}}\n"
    piece = built(HEAD + PARTS + said)
    solids = Solids(piece)
    (row,) = templates(piece, kinds(piece, solids), solids)
    assert row.title == "notch" and len(row.seen.waste) == 2
    assert len(row.seen.outline.edges) == 8
