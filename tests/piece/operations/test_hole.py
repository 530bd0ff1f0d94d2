import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.hole_row import HoleLine
from docgen.piece.records import Face, Purpose, Sink
from tests.piece.desk import HEAD, PARTS, built, codes
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


def readings(hole: Hole) -> dict[str, float | str]:
    (setting,) = made(hole, board()).settings
    return {n: v if isinstance(v, str) else float(v) for n, v, _ in (*setting.values, *setting.places)}


def test_a_hole_that_leans_in_one_view_is_set_by_that_lean() -> None:
    hole = Hole(Face(2, 1), ((200, 60),), 6, leans=(15, 0))
    told = readings(hole)
    assert (told["table tilt, from square"], told["table tilt, from the drill"]) == (15, 75)
    assert told["goes in toward"] == "the right"
    assert (
        made(hole, board()).holes[0].note == "leans 15° from square (75° from the face) toward the right as it goes in"
    )


def test_a_hole_that_leans_both_ways_is_set_along_its_sight_line() -> None:
    """Rake 15°, splay 10°: tan² 15° + tan² 10° = tan² 17.78°, and tan 15° ∕ tan 10° = tan 56.65°."""
    hole = Hole(Face(2, 1), ((200, 60),), 6, leans=(-10, 15), name="A", note="socket", template=True)
    told = readings(hole)
    assert told["table tilt, from square"] == pytest.approx(17.78, abs=0.005)
    assert told["table tilt, from the drill"] == pytest.approx(72.22, abs=0.005)
    assert told["sight line, from straight to the left, swung to the back"] == pytest.approx(56.65, abs=0.005)
    note = made(hole, board()).holes[0].note
    assert note.startswith("socket; leans ≈17.78° from square (≈72.22° from the face) along its sight line")
    assert note.endswith("toward the left, swung ≈56.65° to the back")
    (a, b, label), *barbs = made(hole, board()).templates[0].lines
    assert label == "sight line" and "the drill leans to its head" in made(hole, board()).templates[0].notes[-1]
    assert [(tip, text) for tip, _, text in barbs] == [
        (b, "")
    ] * 2  # the head at the left and back, where the drill leans
    assert b[0] < 200 and b[1] > 60
    assert all(math.dist(a, end) < math.dist(a, b) for _, end, _ in barbs)
    assert math.degrees(math.atan2(b[1] - a[1], a[0] - b[0])) == pytest.approx(56.65, abs=0.005)
    assert ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) == pytest.approx((200, 60))


@pytest.mark.parametrize("face", FACES)
def test_sinks_in_every_face(face: Face) -> None:
    at = MIDDLE[face.axis]
    counterbored = Hole(face, (at,), 5, 15, sink=Sink(9, 6))
    plain = taken(Hole(face, (at,), 5, 15), board())
    assert taken(counterbored, board()) - plain == pytest.approx(math.pi * 6 * (4.5**2 - 2.5**2), rel=2 * CHORDS)
    sunk = Hole(face, (at,), 5, 15, sink=Sink(9, None, 90))
    cone = math.pi * 2 / 3 * (4.5**2 + 4.5 * 2.5 + 2.5**2) - math.pi * 2.5**2 * 2
    assert taken(sunk, board()) - plain == pytest.approx(cone, rel=2 * CHORDS)
    through = Hole(face, (at,), 5, sink=Sink(9, 6))
    assert taken(through, board()) == pytest.approx(math.pi * (4.5**2 * 6 + 2.5**2 * (DEEP[face.axis] - 6)), rel=CHORDS)
    for hole in (counterbored, sunk, through):
        every_parameter_moves_the_solid(hole, board())
        figures_measure_what_they_say(hole, board())


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("leans", [(8, 0), (-5, 6)])
def test_leaning_holes_in_every_face(face: Face, leans: tuple[float, float]) -> None:
    part = board(400, 120, 60)
    at = {0: (60, 30), 1: (200, 30), 2: (200, 60)}[face.axis]
    hole = Hole(face, (at,), 6, 25, leans=leans, tip=180)
    assert taken(hole, part) == pytest.approx(math.pi * 9 * 25, rel=CHORDS)
    figures_measure_what_they_say(hole, part)


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
        (Hole(Face(2, 1), ((200, 60),), 5, 10, sink=Sink(9, 10)), "sink-deep"),
        (Hole(Face(2, 1), ((200, 60),), 5, sink=Sink(9, 20)), "sink-deep"),
        (Hole(Face(2, 1), ((200, 60),), 5, sink=Sink(46, None, 90)), "sink-deep"),
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


@pytest.mark.parametrize(
    "hole",
    [Hole(Face(2, 1), ((200, 115),), 5, leans=(0, 20)), Hole(Face(2, 1), ((4, 60),), 5, 15, leans=(-20, 0))],
)
def test_leaning_holes_that_break_out_at_a_side(hole: Hole) -> None:
    with pytest.raises(Fault) as fault:
        hole.check_exit(board(), hole.points[0])
    assert fault.value.code == "hole-exit"


def test_a_hole_that_the_file_says_may_not_break_out() -> None:
    said = "holes:\n  - hole: {part: top, face: top, at: {across: 18, deep: 1/2}, diameter: 1/4, lean: {front: 45}}\n"
    assert codes(HEAD + PARTS + said) == ["hole-exit"]
    assert built(HEAD + PARTS + said.replace("front: 45", "back: 45")).part("top").features


def test_the_mouth_is_set_with_all_its_figures() -> None:
    bored = made(Hole(Face(2, 1), ((50, 50),), 6, sink=Sink(12, 9)), board()).settings[0].values
    assert bored[2:] == (("counterbore first, diameter", 12, "length"), ("counterbore, depth", 9, "length"))
    cone = made(Hole(Face(2, 1), ((50, 50),), 6, sink=Sink(12, None, 90)), board()).settings[0].values
    assert cone[2:] == (("countersink, diameter", 12, "length"), ("countersink", 90, "angle"))
