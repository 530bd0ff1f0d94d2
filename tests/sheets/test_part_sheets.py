"""Part sheets and general views on the examples: nothing overlaps, everything is told, arrows agree with figures."""

import math
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import combinations

import pytest

from docgen.drawing import lettering
from docgen.drawing.boxes import inside_length, overlap
from docgen.drawing.dimensions import engine
from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.records import Line, Pen, Sheet, Text
from docgen.drawing.views import chords
from docgen.layout.read import read_layout
from docgen.sheets import parts, views
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Setting, Subject
from docgen.sheets.part_words import datum_line, operation_lines
from docgen.trade.splay import true_lean
from docgen.units import format_angle
from tests.support.by_hand import arrow_value
from tests.support.printed import METRICS, context, packed


@cache
def sheets(name: str, paper: str) -> tuple[Sheet, ...]:
    c = context(name, paper)
    return (*views.make(c, {}), *parts.make(c, {}))


CASES = [("bookcase", "a4"), ("wall-shelf", "letter"), ("sketching-desk", "letter")]


def texts(sheet: Sheet) -> list[Text]:
    return [r for r in sheet.records if isinstance(r, Text)]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_text_lies_on_a_text_or_a_line(name: str, paper: str) -> None:
    for sheet in sheets(name, paper):
        boxes = [(t.text, lettering.box(t, METRICS).grown(-0.15)) for t in texts(sheet)]
        for (one, a), (two, b) in combinations(boxes, 2):
            assert not overlap(a, b), (sheet.key, one, two)
        lines = [c for r in sheet.records for c in chords(r)]
        for text, box in boxes:
            assert sum(inside_length(box, a, b) for a, b in lines) < 0.3, (sheet.key, text)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_all_stands_within_the_drawing_area(name: str, paper: str) -> None:
    for sheet in sheets(name, paper):
        area = read_layout(paper).for_size(sheet.size).area
        for t in texts(sheet):
            x0, y0, x1, y1 = lettering.box(t, METRICS).bounds()
            assert area.x - 1e-6 <= x0
            assert x1 <= area.right + 1e-6, (sheet.key, t.text)
            assert area.y - 1e-6 <= y0, (sheet.key, t.text)
            assert y1 <= area.top + 1e-6
        for r in sheet.records:
            if isinstance(r, Line):
                assert all(area.x - 0.01 <= p[0] <= area.right + 0.01 for p in (r.a, r.b))
                assert all(area.y - 0.01 <= p[1] <= area.top + 0.01 for p in (r.a, r.b))


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_figures_are_high_enough_for_the_bench(name: str, paper: str) -> None:
    for sheet in sheets(name, paper):
        assert all(t.height >= 2.5 - 1e-9 for t in texts(sheet))


def subjects(name: str, paper: str) -> Iterator[Subject]:
    c = context(name, paper)
    for kind in c.kinds:
        part = c.piece.part(kind.first)
        if not part.hardware:
            yield Subject(part, c.solids, c.piece.units, True)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_arrow_distance_times_scale_is_the_figure(name: str, paper: str) -> None:
    for subject in subjects(name, paper):
        setting = Setting((1, 4), 2.5, False)
        made = spread(subject, setting, METRICS)
        assert made is not None
        for a in made.arranged:
            for p in a.placed:
                if isinstance(p.wanted, Linear):
                    assert p.arrows is not None
                    distance = math.dist(*p.arrows) / setting.factor
                    for size in p.wanted.sizes:
                        assert distance == pytest.approx(float(size.value), abs=0.01), (subject.part.path, size)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_size_that_fixes_something_is_printed_or_told(name: str, paper: str) -> None:
    for subject in subjects(name, paper):
        made = spread(subject, Setting((1, 4), 2.5, False), METRICS)
        assert made is not None
        told = [s for a in made.arranged for w in (*(p.wanted for p in a.placed), *a.left) for s in w.sizes]
        for figure in subject.plan.figures:
            assert any(s in told for s in figure.sizes), (subject.part.path, figure.size)
            assert arrow_value(figure.size) == pytest.approx(float(figure.size.value), abs=0.01)


def test_the_same_piece_gives_the_same_pages() -> None:
    c = context("bookcase", "a4")
    assert (*views.make(c, {}), *parts.make(c, {})) == sheets("bookcase", "a4")


def test_general_views_number_every_kind_that_is_seen() -> None:
    pages = [s for s in sheets("bookcase", "a4") if s.kind == "views"]
    c = context("bookcase", "a4")
    numbers = {str(c.piece.part(k.first).number) for k in c.kinds}
    printed = [t.text for page in pages for t in texts(page) if t.bold]
    assert all(printed.count(n) == 2 for n in numbers)  # in a balloon and in the list
    (said,) = {page.scale for page in pages}
    scale = said.split(" : ")
    assert (int(scale[0]), int(scale[1])) in c.layout.scales["mm"]


def test_general_views_tell_an_assembly_that_is_less_than_the_piece() -> None:
    """The desk's case is 34 by 16 by 6 1/2 in and stands 22 in up, in a piece of 36 1/2 by 20 by 30 in."""
    printed = [t.text for page in sheets("sketching-desk", "letter") if page.kind == "views" for t in texts(page)]
    for text in ("36 1⁄2", "20", "30", "case: 34", "case: 16", "case: 6 1⁄2", "below case: 22"):
        assert text in printed


def test_operations_for_numbered_mates_are_told_together() -> None:
    c = context("bookcase", "a4")
    names = {p.path: p.called for p in c.piece.parts}
    lines = operation_lines(c.piece.part("left side"), names)
    assert lines[0] == "1. 5× dado (housing) for shelf 1 to 5"
    assert lines[1].startswith("2. rabbet")


def test_operations_stand_in_the_order_of_work_and_what_is_not_cut_is_no_operation() -> None:
    c = context("sketching-desk", "letter")
    names = {p.path: p.called for p in c.piece.parts}
    rail = operation_lines(c.piece.part("easel.left"), names, c.lists.setups)
    kinds = [line.split(". ", 1)[1].removeprefix("2× ").split()[0] for line in rail]
    assert kinds.index("rabbet") < kinds.index("mitre") < kinds.index("mortise") < kinds.index("tapped")
    cabinet = context("door-cabinet", "a4")
    shelf = next(p for p in cabinet.piece.parts if p.called == "case shelf 1")
    assert operation_lines(shelf, {}, cabinet.lists.setups) == []


def test_general_views_give_every_shelf_by_its_top() -> None:
    """The lowest shelf's underside is 60 up and each board 20 thick; the top one lies 40 below the sides' ends of 1800."""
    printed = [t.text for page in sheets("bookcase", "a4") if page.kind == "views" for t in texts(page)]
    for text in ("80", "500", "920", "1340", "1760", "1800", "front; heights to the tops of boards"):
        assert text in printed


def test_a_part_that_would_come_out_little_is_drawn_on_two_blocks_of_twice_the_scale() -> None:
    blocks = [s.block for page in packed("tool-tote", "letter") for s in page.blocks]
    ends = [b for b in blocks if b.kind.first == "left end"]
    assert [b.subject.block for b in ends] == [", 1 of 2", ", 2 of 2"]
    assert all(b.placed.setting.factor >= 1 / 4 for b in ends)


def test_what_is_cut_after_the_glue_up_shares_a_page() -> None:
    late = [s for s in parts.make(context("map-case", "a4"), {}) if s.key.startswith("glued/")]
    assert len(late) == 1 and late[0].title.startswith("case, front")


def test_the_shop_says_once_how_near_a_line_comes_to_its_figure() -> None:
    c = context("bookcase", "a4")
    near = replace(c.piece, shop=(*c.piece.shop, ("placing", Fraction(3, 10))))
    said = " ".join(t.text for page in parts.make(replace(c, piece=near), {}) for t in texts(page))
    assert "lines and holes within 0.3 mm of their figures" in said.replace("  ", " ")
    assert "of their figures" not in " ".join(t.text for page in parts.make(c, {}) for t in texts(page))


def test_several_leaning_holes_are_told_in_a_table_and_no_longer_in_remarks() -> None:
    entries = [b.block for p in packed("splayed-stool", "a4") for b in p.blocks]
    seat = next(e for e in entries if e.subject.part.path == "seat")
    texts = [r.text for r in seat.placed.records if isinstance(r, Text)]
    assert "sight line" in " ".join(texts) and not any("leans" in t for t in texts)
    lean, sight = true_lean(11, 14)  # of the legs, as the file has it
    assert texts.count(format_angle(lean)) == 4
    assert texts.count(f"back {format_angle(sight)}") == texts.count(f"front {format_angle(sight)}") == 2
    rows = {row.name: row for f in seat.subject.part.features for row in f.made.holes}
    for name, row in rows.items():
        at = len(texts) - 1 - texts[::-1].index(name)  # in the table, behind the views
        side = "right" if row.direction[0] > 0 else "left"
        assert texts[at + 2 : at + 4] == ["through", side]
        assert texts[at + 4].startswith("back" if row.direction[1] > 0 else "front")


def test_no_callout_of_the_back_runs_right_across_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Five holes in a row are told before nine down an edge, which have more places, where their leader would be long."""

    c = context("bookcase", "a4")
    back = c.piece.part("back panel")
    unlike = [
        replace(
            f,
            made=replace(
                f.made, holes=tuple(replace(r, diameter=Fraction(32 + n, 10), drill="") for r in f.made.holes)
            ),
        )
        for n, f in enumerate(back.features)
    ]
    bored = replace(back, features=tuple(unlike))
    piece = replace(c.piece, parts=tuple(bored if p.path == back.path else p for p in c.piece.parts))

    def longest() -> float:
        made = parts.make(replace(c, piece=piece), {})
        back = next(s for s in made if any(t.text == "back panel" or "8  back panel" in t.text for t in texts(s)))
        thin = [r for r in back.records if isinstance(r, Line) and r.pen is Pen.THIN]
        return max(math.dist(r.a, r.b) for r in thin if r.a[0] != r.b[0] and r.a[1] != r.b[1])

    assert longest() < engine.FAR
    monkeypatch.setattr(engine, "FAR", math.inf)
    assert longest() > 80


def test_positions_run_from_each_datum_side_that_a_figure_starts_at() -> None:
    told = {s.part.path: datum_line(s) for name in ("door-cabinet", "side-table") for s in subjects(name, "a4")}
    assert told["left door.left stile"] == "Positions run from the bottom end and the front face"  # mortises' centres
    # A taper takes the right face of this leg, so that nothing can be gauged from it.
    assert told["front left leg"] == "Positions run from the bottom end, the front edge and the left face"
    # Tenons stand out beyond the shoulder; the buttons of the top bear on the top edge.
    assert told["front apron"] == "Positions run from the left shoulder and the top edge"
    assert told["case.left"] == "Positions run from the bottom end"  # how deep a dado goes is no place
    assert told["case.shelf 1"] == ""


def test_a_view_from_behind_says_that_the_left_edge_lies_at_the_right() -> None:
    def captions(key: str) -> list[str]:
        told = [t.text for s in sheets("door-cabinet", "a4") if s.title.startswith(key) for t in texts(s)]
        return [t for t in told if " up" in t and t[:4] in ("back", "fron")]

    assert captions("case back") == ["back face, top up, show face behind, left edge at the right"]
    stile = captions("door closing stile")
    assert all(t.endswith("left edge at the right") == t.startswith("back face, top up") for t in stile) and stile


def test_holes_that_are_drilled_later_are_named_where_they_stand_as_phantom_circles() -> None:
    printed = [t.text for s in sheets("map-case", "a4") if "back" in s.title for t in texts(s)]
    assert "W: 2× later" in printed
    stile = [t.text for s in sheets("door-cabinet", "a4") if "hanging stile" in s.title for t in texts(s)]
    assert "A: 6× later" in stile


def test_a_hole_that_is_drilled_later_is_a_cross_where_its_circle_would_be_a_speck() -> None:
    """The wall screws' holes of 5 mm are 1 mm on paper at 1:5."""
    (back,) = [s for s in sheets("map-case", "a4") if "W: 2× later" in [t.text for t in texts(s)]]
    assert back.scale == "1 : 5"
    assert not [r for r in back.records if not isinstance(r, Text) and getattr(r, "pen", None) is Pen.PHANTOM]
    small = [r for r in back.records if isinstance(r, Line) and r.pen is Pen.THIN and 3 < math.dist(r.a, r.b) < 5]
    middles = [tuple(round((a + b) / 2, 2) for a, b in zip(r.a, r.b, strict=True)) for r in small]
    crossed = {m for m in middles if middles.count(m) == 2}
    part = next(p for p in context("map-case", "a4").piece.parts if p.path == "back")
    one, two = next(h.points for f in part.features for h in f.made.holes if h.name == "W")
    apart = math.dist(map(float, one), map(float, two)) / 5
    assert any(math.dist(a, b) == pytest.approx(apart, abs=0.05) for a in crossed for b in crossed)
