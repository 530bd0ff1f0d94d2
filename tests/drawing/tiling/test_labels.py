from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.lettering import box
from docgen.drawing.records import Line, Text
from docgen.drawing.tiles import shared_pages
from docgen.drawing.tiling.arranged import place
from docgen.drawing.tiling.labels import Label, Row, size_of
from docgen.drawing.tiling.room import Room
from docgen.drawing.tiling.truesize import TrueSize
from docgen.layout.read import read_layout
from tests.support.metrics import RoundMetrics

WINDOW = (0.0, 0.0, 190.0, 150.0)
METRICS = RoundMetrics()
SIDES = [((20, 20), (160, 20)), ((160, 20), (160, 120)), ((160, 120), (20, 120)), ((20, 120), (20, 20))]


def boxes(records):
    return [box(r, METRICS).bounds() for r in records if isinstance(r, Text)]


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(25, 155), st.floats(25, 115), st.sampled_from(["⌀17⁄64", "R 1 1⁄8", "datum: front edge"])),
        min_size=1,
        max_size=6,
    )
)
def test_labels_lie_whole_in_the_window_off_lines_and_off_each_other(wanted) -> None:
    room = Room.of(WINDOW, SIDES)
    labels = [Label((x, y), (Row(text, 3.5), Row("second row", 2.5)), reach=2.0) for x, y, text in wanted]
    records = place(labels, room, SIDES, METRICS)
    found = boxes(records)
    assert len(found) == 2 * len(labels)
    for i, b in enumerate(found):
        assert WINDOW[0] <= b[0] and WINDOW[1] <= b[1] and b[2] <= WINDOW[2] and b[3] <= WINDOW[3]
        assert room.clear(b)
        for o in found[:i]:
            apart = b[2] <= o[0] + 1e-6 or o[2] <= b[0] + 1e-6 or b[3] <= o[1] + 1e-6 or o[3] <= b[1] + 1e-6
            assert apart


def test_captions_prefer_the_inside_of_the_outline() -> None:
    room = Room.of(WINDOW, SIDES)
    (text,) = place([Label((90, 70), (Row("leg", 3.5, True),), leader=False)], room, SIDES, METRICS)
    b = box(text, METRICS).bounds()
    assert 20 < b[0] < b[2] < 160
    assert 20 < b[1] < b[3] < 120


def test_leader_begins_off_the_hole_it_names() -> None:
    room = Room.of(WINDOW, SIDES)
    records = place([Label((90, 70), (Row("⌀8", 3.5),), reach=4.0)], room, SIDES, METRICS)
    (leader,) = [r for r in records if isinstance(r, Line)]
    assert abs(((leader.a[0] - 90) ** 2 + (leader.a[1] - 70) ** 2) ** 0.5 - 4.0) < 1e-9


def test_a_label_without_room_is_printed_all_the_same() -> None:
    tight = (0.0, 0.0, 30.0, 8.0)
    room = Room.of(tight, [((0, y), (30, y)) for y in range(9)])
    records = place([Label((15, 4), (Row("must be read", 2.5),))], room, [], METRICS)
    assert [r.text for r in records if isinstance(r, Text)] == ["must be read"]
    assert size_of((Row("must be read", 2.5),), METRICS)[0] < 30


def test_a_spare_label_without_room_is_left_out() -> None:
    for window, shown in (((0.0, 0.0, 30.0, 8.0), 1), ((0.0, 0.0, 90.0, 60.0), 2)):
        labels = [Label((15, 4), (Row("R 1 1⁄8", 3.5),)), Label((16, 4), (Row("arc begins", 2.5),), spare=True)]
        records = place(labels, Room.of(window, []), [], METRICS)
        assert [r.text for r in records if isinstance(r, Text)] == ["R 1 1⁄8", "arc begins"][:shown]


def test_a_narrow_drawing_gets_room_for_a_caption_that_fits_neither_in_it_nor_beside_it() -> None:
    layout = read_layout("a4")
    sides = tuple(
        Line(a, b) for a, b in (((0, 0), (29, 0)), ((29, 0), (29, 52)), ((29, 52), (0, 52)), ((0, 52), (0, 0)))
    )
    hatching = tuple(Line((0, y), (29, y + 1)) for y in range(5, 50, 6))
    caption = Label((15, 26), (Row("the drawer's left side", 3.5, True), Row("No. 9", 2.5)), leader=False, arrow=0.0)
    for inks in ((*sides, *hatching), sides):
        (page,) = shared_pages([TrueSize("T1", ("Lay it.",), inks, (caption,), sides)], layout, METRICS, "Templates")
        (said,) = [r for r in page.records if isinstance(r, Text) and r.text.startswith("the drawer")]
        room = Room.of((0.0, 0.0, *page.size), [(r.a, r.b) for r in page.records if isinstance(r, Line)])
        assert room.clear(box(said, METRICS).bounds())


def test_a_label_without_room_for_all_its_rows_has_fewer() -> None:
    whole = (Row("R 1 1⁄8", 3.5), Row("its centre", 2.5), Row("3 in from the end", 2.5))
    for high in (60.0, 9.0):
        room = Room.of((0.0, 0.0, 60.0, high), [])
        out = place([Label((15, 4), whole, less=whole[:1])], room, [], METRICS)
        assert [r.text for r in out if isinstance(r, Text)] == [r.text for r in (whole if high > 9 else whole[:1])]


def leader_of(label: Label, room: Room) -> Line:
    (line,) = [r for r in place([label], room, SIDES, METRICS) if isinstance(r, Line)]
    return line


def test_a_leader_never_runs_along_a_line_through_its_point() -> None:
    """A mark at the end of a thick edge: the free places along the edge, or straight on from it, would hide the leader."""
    for at, edge in (((80.0, 20.6), ((80, 20), (160, 20))), ((80.0, 20.0), ((20, 20), (80, 20)))):
        line = leader_of(Label(at, (Row("arc begins", 2.5),)), Room.of(WINDOW, [edge]))
        assert abs(line.b[1] - line.a[1]) > 0.3 * abs(line.b[0] - line.a[0])


def test_a_leader_runs_away_from_the_centre_of_its_arc() -> None:
    for centre, way in (((90.0, 50.0), 1), ((90.0, 90.0), -1)):
        line = leader_of(Label((90.0, 70.0), (Row("arc begins", 2.5),), away=centre), Room.of(WINDOW, []))
        assert (line.b[1] - line.a[1]) * way > 0


def test_a_leader_would_rather_cross_hatching_than_an_edge() -> None:
    above = [((60.0, 72.0), (120.0, 72.0))]
    below = [((60.0, 68.0), (120.0, 68.0))]
    walls = [((86.0, 60.0), (86.0, 80.0)), ((94.0, 60.0), (94.0, 80.0))]
    label = Label((90.0, 70.0), (Row("R 5", 2.5),))
    up = leader_of(label, Room.of(WINDOW, [*below, *walls], hatching=above))
    down = leader_of(label, Room.of(WINDOW, [*above, *walls], hatching=below))
    assert up.b[1] > 72 and down.b[1] < 68


def test_a_label_of_a_long_line_may_begin_anywhere_along_it() -> None:
    taken = [((x, y), (x, y + 68.0)) for x in range(80, 190, 3) for y in (0.0, 72.0)]
    label = Label((160.0, 70.0), (Row("5 in from the front edge", 3.5),), also=((40.0, 70.0),))
    line = leader_of(label, Room.of(WINDOW, taken))
    assert line.a == (40.0, 70.0)
