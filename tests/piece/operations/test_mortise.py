import math
from dataclasses import replace

import pytest

from docgen.geometry.make import frame_along
from docgen.piece.faults import Fault
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.mortise import CutMortise, Mortise
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.records import Face, Feature, Stage
from tests.piece.operations.trial import CHORDS, board, made, proven, taken


def slot_area(long: float, wide: float) -> float:
    return (long - wide) * wide + math.pi * wide * wide / 4


@pytest.mark.parametrize("face", [Face(2, 0), Face(2, 1)])
@pytest.mark.parametrize("along", [0, 1])
def test_round_ended_mortise(face: Face, along: int) -> None:
    mortise = Mortise(face, (200, 60), along, 40, 10, 12)
    assert taken(mortise, board()) == pytest.approx(12 * slot_area(40, 10), rel=CHORDS)
    proven(mortise, board())


def test_mortise_in_an_end() -> None:
    mortise = Mortise(Face(0, 1), (60, 10), 1, 40, 8, 25)
    assert taken(mortise, board()) == pytest.approx(25 * slot_area(40, 8), rel=CHORDS)
    proven(mortise, board())
    assert made(mortise, board()).marks == ()


def test_squared_mortise_and_its_marks() -> None:
    mortise = Mortise(Face(1, 0), (200, 10), 0, 40, 8, 25, squared=True)
    assert taken(mortise, board()) == pytest.approx(25 * 40 * 8)
    assert [(m.position, m.wood) for m in made(mortise, board()).marks] == [(180, -1), (220, 1)]
    assert [s.note for s in made(mortise, board()).settings] == ["then square the ends with a chisel"]
    assert [c.key for c in made(mortise, board()).cautions] == ["router", "chisel"]


def test_mortise_right_through_has_no_depth_to_tell() -> None:
    mortise = Mortise(Face(2, 1), (200, 60), 0, 40, 10, None, squared=True)
    # The board is 20 thick.
    assert taken(mortise, board()) == pytest.approx(20 * 40 * 10)
    proven(mortise, board())
    assert made(mortise, board()).settings[0].values[-1] == ("depth", "through", "text")


def test_mortise_square_to_a_slanted_cut() -> None:
    r = math.sqrt(0.5)
    frame = frame_along((380.0, 0.0, 0.0), (-r, 0.0, -r), (r, 0.0, -r))
    mortise = CutMortise(Face(0, 1), frame, 2, -60, 30, 6, 10, lengthwise=False)
    # The frame's plane passes through the board's lower end corner at 45°, so that a slot is cut full depth.
    assert taken(mortise, board(380)) > 0
    told = {p for s in made(mortise, board()).sizes for p in s.parameters}
    assert told == {"out", "over", "length", "width", "depth"}


@pytest.mark.parametrize(
    "mortise",
    [
        Mortise(Face(2, 1), (200, 60), 0, 40, 10, 20),
        Mortise(Face(2, 1), (200, 60), 0, 8, 10, 12),
        Mortise(Face(2, 1), (10, 60), 0, 40, 10, 12),
        Mortise(Face(2, 1), (200, 60), 2, 40, 10, 12),
    ],
)
def test_impossible_mortises(mortise: Mortise) -> None:
    with pytest.raises(Fault):
        mortise.made(board())


def test_slotted_hole() -> None:
    slotted = SlottedHole(Face(2, 1), (200, 60), 1, 14, 5)
    assert taken(slotted, board()) == pytest.approx(20 * slot_area(14, 5), rel=CHORDS)
    proven(slotted, board())


def test_slotted_hole_with_room_for_the_head() -> None:
    slotted = SlottedHole(Face(2, 1), (200, 60), 0, 14, 5, bore=(11, 6))
    assert slotted.travel == 9
    assert taken(slotted, board()) == pytest.approx(14 * slot_area(14, 5) + 6 * slot_area(20, 11), rel=CHORDS)
    proven(slotted, board(), derived=("counterbore",))


def test_a_mortise_is_set_from_the_sides_that_it_is_nearer_to() -> None:
    """Mortises at a leg's top are measured from the top: an error of its length would open the joint there."""
    here = board()
    high = made(Mortise(Face(2, 1), (350, 100), 0, 40, 10, 15), here).settings[0]
    low = made(Mortise(Face(2, 1), (50, 20), 0, 40, 10, 15), here).settings[0]
    for setting, side in ((high, 1), (low, 0)):
        end, edge = here.side(Face(0, side)), here.side(Face(1, side))
        assert setting.places == (
            ("in", "the top face", "text"),
            (f"middle from the {edge}", 20, "length"),
            (f"near end from the {end}", 30, "length"),
            (f"far end from the {end}", 70, "length"),
        )
    assert high.travel is not None and (high.travel.start, high.travel.stop) == (330, 370)


def test_a_side_that_is_cut_away_is_no_side_to_measure_from() -> None:
    """A leg's slanted top has no one height: its mortises are told from the foot, which is square."""
    slant = EndCut(Face(0, 1), 390, (-14, 0))
    part = replace(board(), features=(Feature("top", "end cut", "top", Stage.PART, slant.made(board())),))
    places = made(Mortise(Face(2, 1), (350, 100), 0, 40, 10, 15), part).settings[0].places
    assert places[2:] == (
        (f"near end from the {part.side(Face(0, 0))}", 330, "length"),
        (f"far end from the {part.side(Face(0, 0))}", 370, "length"),
    )
