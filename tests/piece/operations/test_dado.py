import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.dado import Dado, trench
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import Authority, Face
from tests.piece.operations.trial import board, made, proven, taken

TOP, BOTTOM = Face(2, 1), Face(2, 0)


@pytest.mark.parametrize("face", [TOP, BOTTOM])
def test_through_dado(face: Face) -> None:
    dado = Dado(face, 1, 100, 118, 6)
    assert taken(dado, board()) == pytest.approx(18 * 6 * 120)
    proven(dado, board())


def test_stopped_dado_with_round_end() -> None:
    dado = Dado(TOP, 1, 100, 112, 6, start=30, round_end=True)
    assert taken(dado, board()) == pytest.approx(6 * (12 * 90 + math.pi * 36 / 2), rel=1e-3)
    stop = next(s for s in made(dado, board()).sizes if s.label == "stop")
    assert (stop.value, stop.note) == (24, "to the end of the arc")
    assert {stop.start[0], stop.end[0]} == {(dado.low + dado.high) / 2}  # the arc's tip, where its line ends
    proven(dado, board())


def test_groove_stopped_at_both_ends_is_measured_from_each_end() -> None:
    groove = Dado(BOTTOM, 0, 10, 16, 5, start=20, stop=370, label="groove")
    assert taken(groove, board()) == pytest.approx(6 * 5 * 350)
    assert [s.value for s in made(groove, board()).sizes if s.label == "stop"] == [20, 30]
    assert [(m.position, m.wood) for m in made(groove, board()).marks] == [(20, -1), (370, 1)]
    proven(groove, board())


def test_dado_in_an_edge() -> None:
    slot = Dado(Face(1, 0), 0, 5, 11, 8)
    assert taken(slot, board()) == pytest.approx(6 * 8 * 400)
    proven(slot, board())


def test_marks_say_where_the_wood_stays() -> None:
    marks = made(Dado(TOP, 1, 100, 118, 6), board()).marks
    assert [(m.position, m.wood) for m in marks] == [(100, -1), (118, 1)]


def test_a_trench_that_reaches_the_end_leaves_no_skin() -> None:
    assert taken(Dado(TOP, 1, 0, 18, 6), board()) == pytest.approx(18 * 6 * 120)


@pytest.mark.parametrize(
    ("dado", "code", "field"),
    [
        (Dado(TOP, 1, 100, 118, 20), "depth-range", "depth"),
        (Dado(TOP, 1, 118, 118, 6), "width-range", "high"),
        (Dado(TOP, 1, 390, 402, 6), "outside-part", "span"),
        (Dado(TOP, 1, 100, 118, 6, start=130), "run-range", "stop"),
        (Dado(TOP, 1, 100, 118, 6, start=80, stop=70), "run-range", "stop"),
    ],
)
def test_impossible_trenches(dado: Dado, code: str, field: str) -> None:
    with pytest.raises(Fault) as fault:
        dado.made(board())
    assert (fault.value.code, fault.value.field) == (code, field)


def test_a_squared_stop_is_where_the_cutters_rim_stops_and_is_chopped_there() -> None:
    """A bit that went on to its full width at the mark would cut its own radius past it, into sight."""
    square = made(Dado(TOP, 1, 100, 120, 6, start=22), board())
    front = board().side(Face(1, 0))
    assert square.settings[0].places[2:] == (
        (f"rim of the cutter stops from the {front}", 22, "length"),
        ("then", "square the stopped end with a chisel", "text"),
    )
    assert [c.key for c in square.cautions] == ["router", "chisel"]
    assert next(s.note for s in square.sizes if s.label == "stop") == "square end"
    through = made(Dado(TOP, 1, 100, 120, 6), board())
    assert len(through.settings[0].places) == 2 and [c.key for c in through.cautions] == ["router"]


def test_a_round_stop_has_one_figure_on_sheet_stick_and_set_up() -> None:
    groove = made(Dado(BOTTOM, 0, 10, 16, 5, start=20, stop=370, round_end=True, label="groove"), board())
    rims = [v for name, v, _ in groove.settings[0].places if name.startswith("rim of the cutter")]
    assert rims == [s.value for s in groove.sizes if s.label == "stop"] == [17, 27]
    assert [m.position for m in groove.marks] == [17, 373]
    assert [v for name, v, _ in groove.settings[0].places if name.startswith("full width")] == [20, 30]


def test_a_groove_says_in_which_face_it_lies() -> None:
    groove = made(Dado(BOTTOM, 0, 10, 16, 5, label="groove"), board())
    assert groove.settings[0].places == (("in", f"the {board().side(BOTTOM)}", "text"),)


def test_a_groove_for_a_runner_is_cut_to_its_figure_and_the_runner_fitted_to_it() -> None:
    groove = Dado(TOP, 0, 30, 46.5, 6, label="groove", fit="runner")
    (wide,) = [s for s in made(groove, board()).sizes if s.label == "groove"]
    assert (wide.authority, wide.note) == (Authority.CUT, "the runner is fitted to it")
    (setting,) = made(groove, board()).settings
    assert (setting.note, setting.fitted) == ("to its figure: each runner is fitted to its own groove later", "runner")
    assert taken(groove, board()) == taken(Dado(TOP, 0, 30, 46.5, 6), board())


def test_what_is_cut_in_one_pass_with_another_part_has_no_set_up_of_its_own() -> None:
    groove = Dado(TOP, 0, 30, 46.5, 6, onward=True)
    found = made(groove, board())
    assert (found.settings, found.cautions) == ((), ()) and len(found.cuts) == 1


def test_a_trench_at_the_end_has_one_wall_and_is_given_as_a_rabbet() -> None:
    for cut, wall in ((Dado(TOP, 1, 0, 18, 6), 18), (Dado(TOP, 1, 382, 400, 6), 382)):
        step = trench(board(), cut)
        assert isinstance(step, Rabbet) and taken(step, board()) == pytest.approx(taken(cut, board()))
        # The stick has the wall alone: at the end itself nothing is to be marked.
        assert [(m.position, m.label) for m in made(step, board()).marks] == [(wall, "rabbet")]
    inside = Dado(TOP, 1, 100, 118, 6)
    assert trench(board(), inside) is inside
    stopped = trench(board(), Dado(TOP, 1, 0, 12, 6, start=30, round_end=True))
    assert isinstance(stopped, Rabbet) and stopped.cutter == 6
    squared = trench(board(), Dado(TOP, 1, 0, 12, 6, start=30))
    assert isinstance(squared, Rabbet) and squared.cutter is None
