"""Long parts drawn broken: where, by how much, and told so on the page."""

import math
from itertools import pairwise

import pytest

from docgen.drawing.breaks import Gone
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Linear, Rules
from docgen.drawing.lettering import width
from docgen.drawing.records import Line, Path, Pen, Text
from docgen.geometry.lines import Drawn, Stroke
from docgen.sheets import part_shorter, parts
from docgen.sheets.part_broken import GAP, MARGIN, REMARK, along, axis_of, fuses, marked, slender, stretches
from docgen.sheets.parts import Entry
from tests.support.printed import METRICS, context, figures, packed

BROKEN = [
    ("sketching-desk", "letter", "stand.stretcher", (1, 2)),
    ("sketching-desk", "letter", "stand.left rear", (1, 4)),  # ends, and a mortise between them: two breaks
    ("map-case", "a4", "rail", (1, 2)),  # two breaks
    ("settle", "letter", "apron", (1, 2)),
    ("door-cabinet", "a4", "left door.right stile", (1, 2)),
    ("map-case", "a4", "front.bottom", (1, 2)),
    ("tool-tote", "letter", "handle", (1, 2)),
]
WHOLE = [
    ("side-table", "a4", "front left leg"),  # tapers
    ("settle", "letter", "crest"),  # a curve
]


def entries(name: str, paper: str) -> list[Entry]:
    return [b.block for page in packed(name, paper) for b in page.blocks]


def entries_now(name: str, paper: str) -> list[Entry]:
    """The drawings as they are made with what a test has changed."""
    return [b.block for page in parts.packed(context(name, paper)) for b in page.blocks]


def strip(length: float, *across: float) -> Drawn:
    """A board with lines across it."""
    ends = [((0.0, 0.0), (length, 0.0)), ((length, 60.0), (0.0, 60.0))]
    return Drawn(tuple(Stroke(a, b, 0) for a, b in (*ends, *(((x, 0.0), (x, 60.0)) for x in across))), ())


@pytest.mark.parametrize(("name", "paper", "path", "scale"), BROKEN)
def test_a_long_part_is_broken_at_the_same_place_in_every_view_and_drawn_larger(
    name: str, paper: str, path: str, scale: tuple[int, int]
) -> None:
    made = [e for e in entries(name, paper) if e.subject.part.path == path]
    for entry in made:
        subject, setting = entry.subject, entry.placed.setting
        if not along(subject.stations(False)):  # a block of the ends alone
            assert not subject.gone and setting.factor >= scale[0] / scale[1]
            continue
        assert slender(subject.part) and setting.scale == scale
        assert subject.gone
        lines = [r for r in entry.placed.records if isinstance(r, Path) and r.pen is Pen.BREAK]
        seen = [s for s in subject.stations(setting.upright) if axis_of(s.view) is not None]
        assert seen and len(lines) == 2 * len(seen) * len(subject.gone)
        axis = axis_of(seen[0].view)
        assert axis is not None
        assert len({round(r.points[0][axis], 3) for r in lines}) == 2 * len(subject.gone)  # in line as the views
        for s in seen:
            assert subject.whole is not None
            short, long = (
                b[axis + 2] - b[axis] for b in (x.bounds(s, setting.upright) for x in (subject, subject.whole))
            )
            assert short == pytest.approx(long - sum(g.taken for g in subject.gone))
        words = " ".join(r.text for r in entry.placed.records if isinstance(r, Text))
        assert REMARK in words


@pytest.mark.parametrize(("name", "paper", "path"), WHOLE)
def test_a_part_with_something_all_along_stays_whole(name: str, paper: str, path: str) -> None:
    for entry in entries(name, paper):
        if entry.subject.part.path == path:
            assert not entry.subject.gone
            assert not any(isinstance(r, Path) and r.pen is Pen.BREAK for r in entry.placed.records)


def test_every_dimension_that_spans_a_break_is_marked_and_no_other_one() -> None:
    every = [f for n, p, path, _ in BROKEN for f in figures(n, p) if f.entry.subject.part.path == path]
    spanning = [f for f in every if f.broken]
    assert len(spanning) >= len(BROKEN)
    for f in every:
        assert f.broken == (isinstance(f.wanted, Linear) and f.wanted.taken > 0)


def test_the_longest_stretch_that_is_empty_in_all_views_is_broken_in_its_middle() -> None:
    views = [(strip(1800.0, 0.0, 400.0, 1800.0), ()), (strip(1800.0, 0.0, 1700.0, 1800.0), ())]
    (gone,) = stretches(views, (), factor=0.2, shorter=100.0)
    assert (gone.low + gone.high) / 2 == pytest.approx((400 + 1700) / 2)
    assert gone.taken * 0.2 == pytest.approx(100.0)
    assert gone.gap * 0.2 == pytest.approx(GAP)


def test_where_one_stretch_is_not_enough_the_longest_ones_are_broken_each_by_its_share() -> None:
    views = [(strip(1800.0, 0.0, 500.0, 900.0, 950.0, 1800.0), ())]  # 500, 400, 50 and 850 mm are empty
    (one,) = stretches(views, (), factor=0.2, shorter=140.0)
    assert one.low > 950 and one.high < 1800
    first, second, third = stretches(views, (), factor=0.2, shorter=250.0)
    assert first.high < 500 < second.low and second.high < 900 and third.low > 950
    gone = (first, second, third)
    assert sum(g.taken for g in gone) * 0.2 == pytest.approx(250.0)
    assert all(g.gap * 0.2 == pytest.approx(GAP) for g in gone)
    for g, (low, high) in zip(gone, ((0, 500), (500, 900), (950, 1800)), strict=True):
        assert g.low - low == pytest.approx(high - g.high)  # in the middle of its stretch
        assert (g.low - low) * 0.2 >= MARGIN - 1e-9
    kept = 500 + 400 + 850 - 3 * (2 * MARGIN + GAP) / 0.2
    assert stretches(views, (), factor=0.2, shorter=kept * 0.2 + 0.1) == ()


def test_nothing_goes_where_the_stretch_is_too_short_or_it_is_not_worth_it() -> None:
    views = [(strip(1000.0, 0.0, *range(500, 1001, 20)), ())]
    room = 500 * 0.2 - 2 * MARGIN - GAP
    assert stretches(views, (), factor=0.2, shorter=room - 0.1)
    assert stretches(views, (), factor=0.2, shorter=room + 0.1) == ()
    assert stretches(views, (), factor=0.2, shorter=5.0) == ()


@pytest.mark.parametrize("upright", [False, True])
def test_a_shared_line_gets_its_mark_at_the_break_and_keeps_its_ends(upright: bool) -> None:
    axis = int(upright)
    gone = (Gone(300.0, 700.0, 15.0),)
    wanted = []
    for n, (x, taken) in enumerate(((100.0, 0.0), (200.0, 0.0), (500.0, 385.0), (550.0, 385.0), (600.0, 385.0))):
        b = (0.0, x) if upright else (x, 0.0)
        along = (0.0, 1.0) if upright else (1.0, 0.0)
        wanted.append(Linear(str(n), (0.0, 0.0), b, along, str(x + taken), datum=True, taken=taken))
    outline = (0.0, 0.0, 20.0, 150.0) if upright else (0.0, 0.0, 150.0, 20.0)
    engine = Engine([], outline=outline, scale=0.2, at=(0.0, 0.0), rules=Rules(height=2.5), metrics=METRICS)
    plain = engine.arrange(wanted)
    assert {p.how for p in plain.placed} == {"running"}
    made = marked(plain, axis, gone, engine)
    assert not made.left
    (line,) = (r for r in made.records if isinstance(r, Path) and len(r.points) == 6)
    (was,) = {r for r in plain.records if isinstance(r, Line)} - set(made.records)
    assert {line.points[0], line.points[-1]} == {was.a, was.b}
    off = [p[axis] for p, q in pairwise(line.points) if math.dist(p, q) < 5]
    assert all(200 * 0.2 < v < 500 * 0.2 for v in off)


def test_a_dimension_without_room_for_its_mark_is_left() -> None:
    text = "a figure as long as its line"
    long = width(text, 3.5, METRICS) + 3.0
    wanted = Linear("0", (0.0, 0.0), (long, 0.0), (1.0, 0.0), text, taken=900.0)
    engine = Engine([], outline=(0.0, 0.0, long, 20.0), scale=1.0, at=(0.0, 0.0), rules=Rules(), metrics=METRICS)
    plain = engine.arrange([wanted])
    assert len(plain.placed) == 1
    made = marked(plain, 0, (Gone(10.0, 913.0, 3.0),), engine)
    assert made.placed == () and made.left == (wanted,)


def test_a_part_is_slender_from_eight_times_its_width_on() -> None:
    c = context("settle", "letter")
    assert slender(c.piece.part("apron")) and not slender(c.piece.part("seat"))


def test_a_rather_long_part_is_broken_where_a_view_would_run_together_on_paper() -> None:
    side, _ = (e for e in entries("bookcase", "a4") if e.subject.part.path == "left side")
    part = side.subject.part  # 1800 × 280 × 20
    assert not slender(part)
    assert fuses(part, 1 / 20)  # its edge would be 1 mm broad
    assert not fuses(part, 1 / 10)
    assert side.subject.gone
    assert side.placed.setting.scale == (1, 5)


def test_a_part_is_not_broken_where_its_page_takes_it_whole_at_the_same_scale() -> None:
    (shelf,) = (e for e in entries("bookcase", "a4") if e.subject.part.path == "shelf.1")
    assert not shelf.subject.gone
    assert shelf.placed.setting.scale == (1, 5)
    (shelf,) = (e for e in entries("bookcase", "letter") if e.subject.part.path == "shelf.1")  # it is narrower
    assert shelf.subject.gone
    assert shelf.placed.setting.scale == (1, 5)


def test_a_plain_pane_is_not_broken_to_draw_it_larger() -> None:
    (pane,) = (e for e in entries("door-cabinet", "a4") if e.subject.part.path == "left door.pane")
    assert not pane.subject.gone


def test_another_step_larger_takes_hardly_more_paper(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "detailed", lambda _, entries, __: entries)  # with its crowd in a detail it grows again
    larger = [e for e in entries_now("sketching-desk", "letter") if e.subject.part.path == "stand.left front"]
    monkeypatch.setattr(part_shorter, "PAPER", 0.0)
    plain = [e for e in entries_now("sketching-desk", "letter") if e.subject.part.path == "stand.left front"]
    assert [e.placed.setting.scale for e in plain] == [(1, 4), (1, 4), (1, 1)]
    assert [e.placed.setting.scale for e in larger][:2] == [(1, 2), (1, 2)]
    assert sum(e.placed.height for e in larger) <= 1.15 * sum(e.placed.height for e in plain)
