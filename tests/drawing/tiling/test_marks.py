"""Where two tiles meet they print the same marks at the same place of the drawing."""

import math

import pytest

from docgen.drawing.lettering import box
from docgen.drawing.records import Line, Path, Pen, Text
from docgen.drawing.tiling.grid import Field, tile
from docgen.drawing.tiling.ink import segments
from docgen.drawing.tiling.marks import ARM, join_records, joins, marks, match_mark
from docgen.drawing.tiling.room import Room
from docgen.layout.read import read_layout
from tests.support.metrics import RoundMetrics

INKS = (Path(((0, 0), (500, 0), (500, 330), (0, 330)), closed=True), Line((0, 165), (500, 165)))


def tiling_and_room():
    tiling = tile(INKS, [Field(190, 220)], 15)
    return tiling, Room.of((0, 0, 0, 0), [s for ink in INKS for s in segments(ink)])


def test_both_sides_of_a_join_print_the_same_marks() -> None:
    tiling, room = tiling_and_room()
    seen = 0
    for t in tiling.tiles:
        for join in joins(tiling, t):
            back = next(j for j in joins(tiling, join.other) if j.other == t)
            assert (join.at, join.low, join.high) == (back.at, back.low, back.high)
            assert marks(join, room) == marks(back, room)
            assert join.trimmed != back.trimmed
            seen += 1
    assert seen == 2 * 7  # 3 × 2 tiles: 4 upright joins and 3 level ones, each from both sides


def test_marks_stand_far_apart_and_off_the_drawing() -> None:
    tiling, room = tiling_and_room()
    for t in tiling.tiles:
        for join in joins(tiling, t):
            places = marks(join, room)
            assert len(places) >= 2
            assert places[-1] - places[0] > (join.high - join.low) / 3
            for along in places:
                assert room.clear(join.around(along, ARM, -ARM, ARM))


def test_a_mark_crosses_the_join_in_every_stroke() -> None:
    tiling, _ = tiling_and_room()
    join = joins(tiling, tiling.tiles[0])[0]
    for stroke in match_mark(join, join.low + 40):
        axis = 0 if join.upright else 1
        ends = sorted((stroke.a[axis], stroke.b[axis]))
        assert ends[0] < join.at < ends[1]
        assert abs(ends[0] + ends[1] - 2 * join.at) < 1e-9


@pytest.mark.parametrize(("along", "across"), [(0.3, 0.0), (0.0, 0.3), (-0.3, 0.0), (0.0, -0.3), (0.22, 0.22)])
def test_three_tenths_either_way_part_the_halves_of_a_stroke(along: float, across: float) -> None:
    tiling, _ = tiling_and_room()
    join = joins(tiling, tiling.tiles[0])[0]
    pen = read_layout("a4").pens[Pen.THIN.value].width
    step = join.point(along, across)
    shift = (step[0] - join.point(0.0)[0], step[1] - join.point(0.0)[1])
    parted = []
    for stroke in match_mark(join, join.low + 40):
        dx, dy = stroke.b[0] - stroke.a[0], stroke.b[1] - stroke.a[1]
        parted.append(abs(shift[0] * dy - shift[1] * dx) / math.hypot(dx, dy))  # square to the stroke
    assert max(parted) > pen


def test_neighbours_are_named_and_the_trim_line_runs_through() -> None:
    tiling, room = tiling_and_room()
    last = tiling.tiles[-1]
    assert last.name == "C2"
    drawn = join_records(tiling, last, room, RoundMetrics(), 2.5)
    told = " ".join(r.text for r in drawn if isinstance(r, Text))
    assert "B2" in told
    assert "C1" in told
    trims = [r for r in drawn if isinstance(r, Line) and r.pen is Pen.TRIM]
    assert {(t.a[1], t.b[1]) for t in trims if t.a[0] == t.b[0]} == {(last.window[1], last.window[3])}
    assert len(trims) == 2


def test_a_name_stands_beside_the_join_where_the_drawing_leaves_no_more_of_the_strip() -> None:
    tiling, room = tiling_and_room()
    here = next(t for t in tiling.tiles if t.name == "B1")
    join = next(j for j in joins(tiling, here) if j.side == "left")
    along = Line((join.at - 4.5, -10.0), (join.at - 4.5, 400.0))  # a line along the whole strip
    narrow = Room.of((0, 0, 0, 0), [*((tuple(r[:2]), tuple(r[2:])) for r in room.lines), *segments(along)])
    drawn = join_records(tiling, here, narrow, RoundMetrics(), 2.5)
    name = next(r for r in drawn if isinstance(r, Text) and "A1" in r.text)
    x0, _, x1, _ = box(name, RoundMetrics()).bounds()
    assert join.at - 4.5 < x0 < x1 < join.at
