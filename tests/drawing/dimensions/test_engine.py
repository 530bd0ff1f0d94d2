"""The laws of placing: nothing on a text, leaders do not cross, arrows measure what the figure says."""

import math
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing import lettering
from docgen.drawing.boxes import Box, crossing, inside_length, overlap
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Angular, Arranged, Callout, Linear, Rules, Wanted
from docgen.drawing.records import Line, Point, Text
from tests.support.metrics import RoundMetrics

METRICS = RoundMetrics()
LEVEL, PLUMB = (1.0, 0.0), (0.0, 1.0)
WIDE, HIGH = 400.0, 200.0


def outline(scale: float) -> list[tuple[Point, Point]]:
    corners = [(0.0, 0.0), (WIDE * scale, 0.0), (WIDE * scale, HIGH * scale), (0.0, HIGH * scale)]
    return list(zip(corners, corners[1:] + corners[:1], strict=True))


def arranged(
    wanted: list[Wanted], scale: float = 0.25, height: float = 3.5, *, apart: bool = True
) -> tuple[Engine, Arranged]:
    engine = Engine(
        outline(scale),
        outline=(0, 0, WIDE * scale, HIGH * scale),
        scale=scale,
        at=(0, 0),
        rules=Rules(height=height, apart=apart),
        metrics=METRICS,
    )
    return engine, engine.arrange(wanted)


def texts(result: Arranged) -> list[Box]:
    return [lettering.box(r, METRICS) for r in result.records if isinstance(r, Text)]


def strokes(engine: Engine, result: Arranged) -> list[tuple[Point, Point]]:
    return [(a, b) for a, b, kind in engine.occupied.lines if kind == "view"] + [
        (r.a, r.b) for r in result.records if isinstance(r, Line)
    ]


def assert_clear(engine: Engine, result: Arranged) -> None:
    boxes = texts(result)
    for a, b in combinations(boxes, 2):
        assert not overlap(a, b)
    for box in boxes:
        for a, b in strokes(engine, result):
            assert inside_length(box, a, b) < 1e-6
    leaders = [(a, b) for a, b, kind in engine.occupied.lines if kind == "leader"]
    assert not any(crossing(*p, *q) for p, q in combinations(leaders, 2))


xs = st.integers(0, int(WIDE))
ys = st.integers(0, int(HIGH))
labels = st.sampled_from(["7⁄8", "11 31⁄32", "stop 3⁄4 (a)", "dado 13⁄16 ⊕", "302", "29.585 ≈ 29 19⁄32"])


@st.composite
def wishes(draw: st.DrawFn) -> list[Wanted]:
    out: list[Wanted] = []
    for n in range(draw(st.integers(1, 9))):
        kind = draw(st.sampled_from(["level", "plumb", "slanted", "hole", "angle"]))
        a, b = (draw(xs), draw(ys)), (draw(xs), draw(ys))
        key, text = f"w{n}", draw(labels)
        datum = draw(st.booleans())
        if kind == "level" and abs(a[0] - b[0]) > 2:
            start = (0, a[1]) if datum else a
            out.append(Linear(key, start, b, LEVEL, text, datum=datum))
        elif kind == "plumb" and abs(a[1] - b[1]) > 2:
            start = (a[0], 0) if datum else a
            out.append(Linear(key, start, b, PLUMB, text, datum=datum))
        elif kind == "slanted" and math.dist(a, b) > 5:
            long = math.dist(a, b)
            out.append(Linear(key, a, b, ((b[0] - a[0]) / long, (b[1] - a[1]) / long), text))
        elif kind == "hole":
            out.append(Callout(key, a, 6.0, (f"2× ⌀{text}", "⌴ ⌀1⁄2 ↧ 1⁄4")))
        elif kind == "angle" and math.dist(a, b) > 5:
            out.append(Angular(key, a, (a[0] + 30, a[1]), b, "17.8°"))
    return out


@given(wishes())
@settings(max_examples=60, deadline=None)
def test_nothing_lies_on_a_text_and_leaders_do_not_cross(wanted: list[Wanted]) -> None:
    engine, result = arranged(wanted)
    assert_clear(engine, result)


@given(wishes())
@settings(max_examples=40, deadline=None)
def test_each_wish_is_placed_once_or_told(wanted: list[Wanted]) -> None:
    _, result = arranged(wanted)
    keys = sorted([p.wanted.key for p in result.placed] + [w.key for w in result.left])
    assert keys == sorted(w.key for w in wanted)


@given(wishes(), st.sampled_from([0.1, 0.2, 0.25, 0.5]))
@settings(max_examples=40, deadline=None)
def test_arrows_measure_what_was_wanted(wanted: list[Wanted], scale: float) -> None:
    _, result = arranged(wanted, scale)
    for p in result.placed:
        w = p.wanted
        if isinstance(w, Linear):
            assert p.arrows is not None
            true = abs((w.b[0] - w.a[0]) * w.along[0] + (w.b[1] - w.a[1]) * w.along[1])
            assert math.dist(*p.arrows) / scale == pytest.approx(true, abs=1e-6)


@given(wishes())
@settings(max_examples=15, deadline=None)
def test_the_same_wishes_in_any_order_give_the_same_page(wanted: list[Wanted]) -> None:
    assert arranged(wanted)[1] == arranged(wanted[::-1])[1]


@given(st.lists(st.integers(5, int(WIDE) - 5), min_size=1, max_size=12, unique=True), st.booleans())
@settings(max_examples=40, deadline=None)
def test_positions_from_one_datum_always_find_a_place(places: list[int], level: bool) -> None:
    if not level:
        places = sorted({p % int(HIGH - 10) + 5 for p in places})
    wanted: list[Wanted] = [
        Linear(f"p{n}", (0, 0), (p, 0) if level else (0, p), LEVEL if level else PLUMB, f"{p} 7⁄8", datum=True)
        for n, p in enumerate(places)
    ]
    end = (WIDE, 0.0) if level else (0.0, HIGH)
    wanted.append(Linear("all", (0, 0), end, LEVEL if level else PLUMB, "15 3⁄4", overall=True, datum=True))
    engine, result = arranged(wanted)
    assert result.left == ()
    assert_clear(engine, result)


def test_shortest_stands_nearest_and_the_whole_outermost_at_even_steps() -> None:
    wanted: list[Wanted] = [
        Linear("c", (0, 0), (WIDE, 0), LEVEL, "400", overall=True, datum=True),
        Linear("b", (0, 0), (300, 0), LEVEL, "300", datum=True),
        Linear("a", (0, 0), (120, 0), LEVEL, "120", datum=True),
    ]
    _, result = arranged(wanted)
    away = {p.wanted.key: -p.arrows[0][1] for p in result.placed if p.arrows}
    assert away["a"] == pytest.approx(10)  # ISO practice: 10 mm to the first line
    assert away["b"] - away["a"] == pytest.approx(away["c"] - away["b"])
    assert 7 <= away["b"] - away["a"] <= 8


def test_many_from_one_datum_become_running_dimensions_with_one_origin() -> None:
    wanted: list[Wanted] = [Linear(f"p{n}", (0, 0), (n * 60, 0), LEVEL, str(n * 60), datum=True) for n in range(1, 6)]
    _, result = arranged(wanted)
    assert {p.how for p in result.placed} == {"running"}
    assert len({p.arrows[0] for p in result.placed if p.arrows}) == 1


@pytest.mark.parametrize(
    ("below", "above", "how"),
    [
        (4, 2, ("running", "running")),
        (4, 1, ("running", "lane")),  # one figure alone is no row
        (3, 2, ("running", "running")),  # many on both sides together
        (2, 2, ("lane", "lane")),
    ],
)
def test_one_direction_of_a_view_is_told_in_one_way(below: int, above: int, how: tuple[str, str]) -> None:
    wanted: list[Wanted] = [Linear(f"b{n}", (0, 0), (n * 60, 10), LEVEL, "b", datum=True) for n in range(1, below + 1)]
    wanted += [Linear(f"t{n}", (0, 0), (n * 75, HIGH - 10), LEVEL, "t", datum=True) for n in range(1, above + 1)]
    _, result = arranged(wanted)
    assert tuple({p.how for p in result.placed if p.wanted.key[0] == side} for side in "bt") == ({how[0]}, {how[1]})


def test_text_reads_from_below_or_from_the_right() -> None:
    wanted: list[Wanted] = [
        Linear("w", (0, 0), (WIDE, 0), LEVEL, "400", overall=True),
        Linear("h", (0, 0), (0, HIGH), PLUMB, "200", overall=True),
        Linear("s", (100, 150), (200, 50), (math.sqrt(0.5), -math.sqrt(0.5)), "141.4"),
    ]
    _, result = arranged(wanted)
    assert sorted(round(r.angle, 6) for r in result.records if isinstance(r, Text)) == [
        0,
        0,
        90,
    ]  # beside a slanted line the figure stays level


def test_no_figure_is_set_lower_than_asked() -> None:
    _, result = arranged([Linear("w", (0, 0), (9, 0), LEVEL, "3⁄8", datum=True)], height=2.5)
    assert [r.height for r in result.records if isinstance(r, Text)] == [2.5]


def test_an_angle_is_drawn_between_its_arms() -> None:
    _, result = arranged([Angular("a", (200, 50), (300, 50), (260, 110), "45°")], scale=0.5)
    (p,) = result.placed
    assert p.arrows is not None
    apex = (100.0, 25.0)
    turns = [math.degrees(math.atan2(q[1] - apex[1], q[0] - apex[0])) for q in p.arrows]
    assert abs(turns[1] - turns[0]) == pytest.approx(45)


def test_each_arm_of_an_angle_reaches_its_arc() -> None:
    """One arm runs along the lower edge of the view, the other slants where nothing is drawn."""
    engine, result = arranged([Angular("a", (200, 0), (300, 0), (260, 60), "45°")], scale=0.5)
    (p,) = result.placed
    assert p.arrows is not None
    view = [(a, b) for a, b, kind in engine.occupied.lines if kind == "view"]
    drawn = [(r.a, r.b) for r in result.records if isinstance(r, Line)]
    for end in p.arrows:
        assert any(_off(end, a, b) < 0.05 for a, b in (*view, *drawn)), f"nothing carries the arrow at {end}"
    assert not any(_off(p.arrows[0], a, b) < 0.05 and _off(p.arrows[1], a, b) < 0.05 for a, b in drawn)


def _off(p: Point, a: Point, b: Point) -> float:
    """Return how far a point lies from a line between two points."""
    long = math.dist(a, b)
    t = max(0.0, min(1.0, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / long**2))
    return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def test_a_long_figure_is_not_read_at_the_arrow_of_a_longer_dimension() -> None:
    """Two holes near each other, told from one end: each figure stands at the end of its own extension line.

    Where they are told from two places, the shorter one goes outside, its figure beside its own arrow.
    """
    text = "4.209 ≈ 4 13⁄64 + 0.006"
    near = Linear("near", (0.0, 0.0), (80.0, 0.0), LEVEL, text, datum=True)
    far = Linear("far", (0.0, 0.0), (130.0, 0.0), LEVEL, "6.765", datum=True)
    engine, result = arranged([near, far])
    assert_clear(engine, result)
    assert {p.how for p in result.placed} == {"running"}
    near, far = replace(near, datum=False), replace(far, a=(10.0, 0.0), datum=False)
    engine, result = arranged([near, far])
    assert_clear(engine, result)
    own, other = (next(p for p in result.placed if p.wanted is w) for w in (near, far))
    assert own.arrows[1][1] < other.arrows[1][1] < 0.0  # further out
    box = next(lettering.box(r, METRICS).bounds() for r in own.records if isinstance(r, Text))
    assert 0.0 < box[0] - own.arrows[1][0] < 5.0


@pytest.mark.parametrize("turned", [30.0, 45.0, 135.0, 160.0])
def test_the_line_of_a_slanted_dimension_leads_to_its_figure(turned: float) -> None:
    """A level figure beyond the arrow hangs at the end of a level line: beside the slanted one it could be another's."""
    way = (math.cos(math.radians(turned)), math.sin(math.radians(turned)))
    start = (200.0, 60.0)
    wish = Linear("slanted", start, (start[0] + 40 * way[0], start[1] + 40 * way[1]), way, "1.254 ≈ 1 1⁄4 + 0.004 (f)")
    engine, result = arranged([wish])
    assert_clear(engine, result)
    (placed,) = result.placed
    x0, y0, x1, y1 = lettering.box(next(r for r in placed.records if isinstance(r, Text)), METRICS).bounds()
    level = [r for r in placed.records if isinstance(r, Line) and r.a[1] == r.b[1]]
    assert any(y0 < r.b[1] < y1 and min(abs(r.b[0] - x0), abs(r.b[0] - x1)) < 2.0 for r in level)
    assert any(
        math.dist(r.a, q) < 1e-6
        for r in level
        for other in placed.records
        if isinstance(other, Line) and other != r
        for q in (other.a, other.b)
    )
