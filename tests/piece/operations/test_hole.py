import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.hole_row import HoleLine
from docgen.piece.records import Face, Purpose, Sink
from tests.piece.operations.trial import (
    CHORDS,
    board,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    taken,
)

FACES = [Face(a, s) for a in range(3) for s in (0, 1)]
MIDDLE = {0: (60, 10), 1: (200, 10), 2: (200, 60)}
DEEP = {0: 400, 1: 120, 2: 20}


@pytest.mark.parametrize("face", FACES)
def test_through_hole_in_every_face(face: Face) -> None:
    hole = Hole(face, (MIDDLE[face.axis],), 8)
    assert taken(hole, board()) == pytest.approx(math.pi * 16 * DEEP[face.axis], rel=CHORDS)
    every_parameter_moves_the_solid(hole, board())
    figures_measure_what_they_say(hole, board())


@pytest.mark.parametrize("face", FACES)
def test_blind_hole_ends_in_the_drills_point(face: Face) -> None:
    hole = Hole(face, (MIDDLE[face.axis],), 8, 10)
    point = math.pi * 16 * (4 / math.tan(math.radians(59))) / 3
    assert taken(hole, board()) == pytest.approx(math.pi * 16 * 10 + point, rel=CHORDS)
    every_parameter_moves_the_solid(hole, board())


def test_flat_bottomed_hole() -> None:
    assert taken(Hole(Face(2, 1), ((200, 60),), 35, 12, tip=180), board()) == pytest.approx(
        math.pi * 17.5**2 * 12, rel=CHORDS
    )


def test_countersunk_hole() -> None:
    hole = Hole(Face(2, 1), ((200, 60),), 5, sink=Sink(10, None, 90))
    cone = math.pi * 2.5 / 3 * (25 + 12.5 + 6.25)  # frustum from radius 5 to 2.5, 2.5 deep
    assert taken(hole, board()) == pytest.approx(math.pi * 6.25 * 17.5 + cone, rel=CHORDS)
    every_parameter_moves_the_solid(hole, board())
    figures_measure_what_they_say(hole, board())


def test_counterbored_hole() -> None:
    hole = Hole(Face(2, 0), ((200, 60),), 5, sink=Sink(12, 6))
    assert taken(hole, board()) == pytest.approx(math.pi * (36 * 6 + 6.25 * 14), rel=CHORDS)
    every_parameter_moves_the_solid(hole, board())


def test_leaning_hole_goes_through_at_its_angle() -> None:
    hole = Hole(Face(2, 1), ((200, 60),), 6, leans=(15, -10))
    slope = math.hypot(math.tan(math.radians(15)), math.tan(math.radians(10)))
    assert taken(hole, board()) == pytest.approx(math.pi * 9 * 20 * math.sqrt(1 + slope * slope), rel=CHORDS)
    every_parameter_moves_the_solid(hole, board())
    figures_measure_what_they_say(hole, board())
    readings = {n: v for n, v, _ in made(hole, board()).settings[0].values}
    assert readings["table tilt along the length, from square"] == 15
    assert readings["table tilt along the length, from the drill"] == 75


def test_holes_in_line_share_a_figure() -> None:
    hole = Hole(Face(2, 1), ((50, 30), (150, 30), (350, 30)), 5, 8, tip=180)
    positions = [s for s in made(hole, board()).sizes if s.parameters[0].startswith("points")]
    assert [float(s.value) for s in positions] == [50, 150, 350, 30]
    assert positions[-1].parameters == ("points.0.1", "points.1.1", "points.2.1")


def test_the_chart_row_has_points_on_the_face_and_looks_into_the_wood() -> None:
    hole = Hole(Face(2, 1), ((50, 30),), 5, 8, Purpose.TAPPED, "A", "#7", thread="1/4-20 UNC", thread_depth=6)
    (row,) = made(hole, board()).holes
    assert row.points == ((50, 30, 20),) and row.direction == (0, 0, -1)
    assert (row.name, row.thread, row.thread_depth, row.drill) == ("A", "1/4-20 UNC", 6, "#7")
    assert [c.key for c in made(hole, board()).cautions] == ["drill press", "tap"]


@pytest.mark.parametrize("along", [0, 1])
def test_row_of_holes(along: int) -> None:
    first = Hole(Face(2, 1), ((50, 20),), 5, 8)
    row = HoleLine(first, along, 16, 4)
    assert taken(row, board()) == pytest.approx(4 * taken(first, board()))
    every_parameter_moves_the_solid(row, board())
    figures_measure_what_they_say(row, board())
    step = (16, 0) if along == 0 else (0, 16)
    points = [p[:2] for p in made(row, board()).holes[0].points]
    assert points == [(50 + n * step[0], 20 + n * step[1]) for n in range(4)]


def test_row_is_told_by_its_first_place_and_its_spacing() -> None:
    flat = Hole(Face(2, 1), ((50, 20),), 5, 8, tip=180)
    sizes = made(HoleLine(flat, 0, 16, 4), board()).sizes
    assert [(float(s.value), s.label) for s in sizes] == [(50, ""), (20, ""), (5, "4 ×"), (8, "deep"), (16, "3 ×")]


def test_template_shows_the_pattern_in_the_outline() -> None:
    (template,) = made(Hole(Face(2, 1), ((50, 30), (350, 30)), 5, template=True), board()).templates
    assert template.holes == ((50, 30, 5), (350, 30, 5))


@pytest.mark.parametrize(
    ("hole", "code"),
    [
        (Hole(Face(2, 1), ((1, 60),), 5), "hole-outside"),
        (Hole(Face(2, 1), ((200, 130),), 5), "hole-outside"),
        (Hole(Face(2, 1), ((200, 60),), 5, 20), "hole-too-deep"),
        (Hole(Face(2, 1), ((200, 60),), 0), "diameter-range"),
        (Hole(Face(2, 1), ((200, 60),), 5, sink=Sink(5, 2)), "sink-range"),
        (Hole(Face(2, 1), ((200, 60),), 5, leans=(85, 0)), "lean-range"),
    ],
)
def test_impossible_holes(hole: Hole, code: str) -> None:
    with pytest.raises(Fault) as fault:
        hole.made(board())
    assert fault.value.code == code


def test_a_plain_hole_tells_each_number_once() -> None:
    class Plain(Hole):
        pass

    hole = Hole(Face(2, 1), ((200, 60),), 8, 10)
    told = {p for s in made(hole, board()).sizes for p in s.parameters}
    assert told == {"points.0.0", "points.0.1", "diameter", "depth"}
