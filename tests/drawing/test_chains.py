"""Boxes and arrows: nothing lies on a box, every arrow ends at its box."""

from itertools import pairwise

from docgen.drawing.chains import Item, drawn
from docgen.drawing.records import Area, Line, Path, Text
from docgen.layout.model import Rect
from docgen.packet.fonts import PacketMetrics

METRICS = PacketMetrics()
AREA = Rect(10, 10, 240, 150)
ITEMS = [
    Item(0, "sides", ("6 × 16",)),
    Item(0, "top"),
    Item(1, "bottom", ("length: 32", "width: 15")),
    Item(2, "back"),
    Item(2, "rail"),
]
ARROWS = [(0, 2), (1, 3), (2, 3), (2, 4), (0, 4)]


def boxes(records: list[object]) -> list[tuple[float, float, float, float]]:
    paths = [r for r in records if isinstance(r, Path)]
    return [(p.points[0][0], p.points[0][1], p.points[2][0], p.points[2][1]) for p in paths]


def test_boxes_stand_in_their_columns_one_below_the_other() -> None:
    records, tall = drawn(ITEMS, ARROWS, AREA, 2.5, METRICS) or ([], 0.0)
    found = boxes(list(records))
    assert len(found) == len(ITEMS)
    assert found[0][0] == found[1][0] == AREA.x and found[2][0] > found[0][2]
    assert all(low >= AREA.top - tall - 1e-6 for _, low, _, _ in found)
    for i, a in enumerate(found):
        for b in found[i + 1 :]:
            assert a[2] < b[0] or b[2] < a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_many_columns_stand_closer_together_before_there_is_no_picture() -> None:
    items = [Item(n, f"part {n}") for n in range(6)]
    arrows = [(n, n + 1) for n in range(5)]
    room = drawn(items, arrows, Rect(10, 10, 6 * 30 + 5 * 9, 150), 2.5, METRICS)
    assert room is not None and len(boxes(list(room[0]))) == 6
    assert drawn(items, arrows, Rect(10, 10, 6 * 30 + 5 * 7, 150), 2.5, METRICS) is None
    for line in (r for r in room[0] if isinstance(r, Line)):
        assert line.a[0] <= line.b[0] + 1e-6


def test_no_line_runs_through_a_box_and_every_arrow_has_a_head() -> None:
    records, _ = drawn(ITEMS, ARROWS, AREA, 2.5, METRICS) or ([], 0.0)
    for line in (r for r in records if isinstance(r, Line)):
        x0, x1 = sorted((line.a[0], line.b[0]))
        y0, y1 = sorted((line.a[1], line.b[1]))
        for bx0, by0, bx1, by1 in boxes(list(records)):
            assert not (x0 < bx1 - 1e-6 and x1 > bx0 + 1e-6 and y0 < by1 - 1e-6 and y1 > by0 + 1e-6)
    heads = [r.rings[0][0] for r in records if isinstance(r, Area)]
    assert len(heads) == len(ARROWS)
    lefts = {round(b[0], 6) for b in boxes(list(records))[2:]}
    assert {round(tip[0], 6) for tip in heads} <= lefts


def test_level_lines_of_two_sources_never_lie_on_each_other() -> None:
    records, _ = drawn(ITEMS, ARROWS, AREA, 2.5, METRICS) or ([], 0.0)
    heads = sorted(r.rings[0][0] for r in records if isinstance(r, Area))
    for (x, y), (u, v) in pairwise(heads):
        assert x != u or abs(y - v) > 0.5


def test_words_stand_in_their_box() -> None:
    records, _ = drawn(ITEMS, ARROWS, AREA, 2.5, METRICS) or ([], 0.0)
    found = boxes(list(records))
    for text in (r for r in records if isinstance(r, Text)):
        assert any(b[0] < text.at[0] < b[2] and b[1] < text.at[1] < b[3] for b in found)


def test_what_does_not_fit_is_not_drawn() -> None:
    assert drawn(ITEMS, ARROWS, Rect(10, 10, 240, 20), 2.5, METRICS) is None
    assert drawn([Item(c, "x") for c in range(8)], [], AREA, 2.5, METRICS) is None
