import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import Face
from tests.piece.operations.trial import board, made, proven, taken


@pytest.mark.parametrize("face", [Face(2, 0), Face(2, 1)])
@pytest.mark.parametrize("edge", [Face(1, 0), Face(1, 1), Face(0, 0), Face(0, 1)])
def test_through_rabbet_on_every_arris(face: Face, edge: Face) -> None:
    rabbet = Rabbet(face, edge, 8, 5)
    run = 400 if edge.axis == 1 else 120
    assert taken(rabbet, board()) == pytest.approx(8 * 5 * run)
    proven(rabbet, board())


@pytest.mark.parametrize("edge", [Face(1, 0), Face(1, 1)])
def test_stopped_rabbet_keeps_the_cutters_arc(edge: Face) -> None:
    rabbet = Rabbet(Face(2, 1), edge, 8, 12, start=40, stop=350, cutter=10)
    one_end = 10 * 12 - 10 * 10 * (1 - math.pi / 4)
    assert taken(rabbet, board()) == pytest.approx(8 * (12 * 310 + 2 * one_end), rel=1e-4)
    assert [s.value for s in made(rabbet, board()).sizes if s.label == "stop"] == [30, 40]


def test_squared_stop() -> None:
    rabbet = Rabbet(Face(2, 1), Face(1, 1), 8, 12, start=40)
    assert taken(rabbet, board()) == pytest.approx(8 * 12 * 360)
    proven(rabbet, board())


def test_both_readings_are_in_words() -> None:
    labels = [s.label for s in made(Rabbet(Face(2, 1), Face(1, 1), 8, 5), board()).sizes]
    assert labels == ["into the thickness", "along the face"]


def test_an_end_rabbet_marks_its_shoulder() -> None:
    (mark,) = made(Rabbet(Face(2, 1), Face(0, 1), 8, 5), board()).marks
    assert (mark.position, mark.wood) == (395, -1)


def test_too_deep() -> None:
    with pytest.raises(Fault) as fault:
        Rabbet(Face(2, 1), Face(1, 1), 20, 5).made(board())
    assert fault.value.field == "into"


def test_the_set_up_names_face_and_arris_and_where_the_rim_stops() -> None:
    here = board()
    answer = made(Rabbet(Face(2, 1), Face(1, 1), 12, 10, start=70, stop=355), here)
    (setting,) = answer.settings
    assert setting.places == (
        ("cut into", f"the {here.side(Face(2, 1))}, along the {here.side(Face(1, 1))}", "text"),
        (f"rim of the cutter stops from the {here.side(Face(0, 0))}", 70, "length"),
        (f"rim of the cutter stops from the {here.side(Face(0, 1))}", 45, "length"),
        ("then", "square the stopped ends with a chisel", "text"),
    )
    assert setting.values[0][0] == "cutter"
    assert [c.key for c in answer.cautions] == ["router", "chisel"]


def test_a_stop_left_round_names_the_cutter_that_leaves_it() -> None:
    answer = made(Rabbet(Face(2, 1), Face(1, 0), 8, 12, start=40, cutter=10), board())
    (setting,) = answer.settings
    assert setting.values[0] == ("cutter, diameter", 20, "length")
    assert [v for name, v, _ in setting.places if "stops" in name] == [30]
    assert [v for name, v, _ in setting.places if "full width" in name] == [40]
    assert [m.position for m in answer.marks] == [30]
    assert [c.key for c in answer.cautions] == ["router"]
