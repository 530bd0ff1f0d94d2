"""Packing blocks on pages, setting words where views leave room, small tables among them."""

from dataclasses import dataclass
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.boxes import Box, overlap
from docgen.drawing.lettering import box
from docgen.drawing.records import Line, Text
from docgen.sheets.part_grid import Grid
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_room import AIR, Extent, Said, laid, spot
from tests.support.metrics import RoundMetrics

METRICS = RoundMetrics()


@dataclass(frozen=True)
class Flat:
    size: tuple[float, float]


sizes = st.lists(st.tuples(st.integers(20, 200), st.integers(20, 120)), min_size=1, max_size=8)


@given(sizes)
@settings(max_examples=40, deadline=None)
def test_blocks_on_a_page_keep_apart_and_inside(wished: list[tuple[int, int]]) -> None:
    page: Page[Flat] = Page(200.0, 250.0)
    for wide, high in wished:
        block = Flat((float(wide), float(high)))
        page.take(lambda room, b=block: b if b.size[0] <= room[0] and b.size[1] <= room[1] else None)
    boxes = [
        Box.between(s.free.x, -s.free.y, s.free.x + s.block.size[0], -s.free.y - s.block.size[1]) for s in page.blocks
    ]
    for one, two in combinations(boxes, 2):
        assert not overlap(one.grown(BETWEEN / 2 - 1e-6), two.grown(BETWEEN / 2 - 1e-6))
    for b in boxes:
        x0, y0, x1, y1 = b.bounds()
        assert x0 >= 0
        assert y1 <= 0
        assert x1 <= 200
        assert y0 >= -250 - 1e-6


def test_a_narrow_block_leaves_the_width_beside_it_to_others() -> None:
    page: Page[Flat] = Page(200.0, 250.0)
    rooms: list[tuple[float, float]] = []

    def fit(room: tuple[float, float]) -> Flat:
        rooms.append(room)
        return Flat((80.0, 60.0))

    assert page.take(fit)
    assert page.take(fit)
    assert rooms == [(200.0, 250.0), (200 - 80 - BETWEEN, 60.0)]
    assert [s.beside for s in page.blocks] == [True, False]


def test_a_block_that_fits_nowhere_is_not_taken() -> None:
    page: Page[Flat] = Page(200.0, 250.0)
    assert not page.take(lambda room: None)
    assert page.blocks == []


def test_columns_and_rows_follow_one_another_and_hang_from_the_corner() -> None:
    extents = [Extent(0, 0, (-5, -10, 60, 30)), Extent(1, 0, (0, 0, 20, 30)), Extent(0, 1, (0, 0, 60, 8))]
    fields = [e.moved(by) for e, by in zip(extents, laid(extents), strict=True)]
    assert min(f[0] for f in fields) == 0
    assert max(f[3] for f in fields) == 0
    for one, two in combinations(fields, 2):
        assert not overlap(Box.between(*one), Box.between(*two))
    assert fields[0][2] < fields[1][0]
    assert fields[0][3] < fields[2][1]


views = st.lists(
    st.tuples(st.integers(0, 1), st.integers(-1, 1), st.integers(10, 90), st.integers(10, 80)), min_size=1, max_size=4
)


@given(views, st.integers(1, 30))
@settings(max_examples=40, deadline=None)
def test_words_stand_clear_of_the_views_and_in_the_room(places: list[tuple[int, int, int, int]], lines: int) -> None:
    extents = [Extent(c, r, (0.0, 0.0, float(w), float(h))) for c, r, w, h in dict.fromkeys(places)]
    taken = {(e.column, e.row): e for e in extents}
    every = list(taken.values())
    fields = [e.moved(by) for e, by in zip(every, laid(every), strict=True)]
    said = Said(tuple(f"line {n} of what is said here" for n in range(lines)), 2.5, METRICS)
    found = spot(fields, said, (200.0, 240.0))
    if found is None:
        return
    assert found.tall <= 240 + 1e-6
    if found.wide:
        words = Box.between(found.at[0], found.at[1], found.at[0] + found.wide, found.at[1] - said.tall(found.wide))
        assert words.bounds()[2] <= 200 + 1e-6
        for f in fields:
            assert not overlap(words.grown(AIR / 2 - 1e-3), Box.between(*f).grown(AIR / 2 - 1e-3))


@given(views, st.integers(1, 30), st.integers(2, 9))
@settings(max_examples=40, deadline=None)
def test_a_table_that_stands_apart_is_clear_of_views_and_words(
    places: list[tuple[int, int, int, int]], lines: int, holes: int
) -> None:
    extents = list({(c, r): Extent(c, r, (0.0, 0.0, float(w), float(h))) for c, r, w, h in places}.values())
    fields = [e.moved(by) for e, by in zip(extents, laid(extents), strict=True)]
    grid = Grid((("hole", "bore"), *((f"A{n}", "⌀1⁄2") for n in range(holes))), 2.5, METRICS)
    said = Said(tuple(f"line {n} of what is said" for n in range(lines)), 2.5, METRICS, (("Holes:", grid),))
    found = spot(fields, said, (200.0, 240.0))
    if found is None or found.beside is None:
        return
    texts, tables = said.apart()
    boxes = [
        Box.between(s.at[0], s.at[1] - what.tall(s.wide), s.at[0] + s.wide, s.at[1])
        for s, what in ((found, texts), (found.beside, tables))
    ]
    assert found.tall == pytest.approx(max(-b.bounds()[1] for b in (*boxes, *(Box.between(*f) for f in fields))))
    assert found.tall <= 240 + 1e-6
    assert found.right <= 200 + 1e-6
    for one, two in combinations((*boxes, *(Box.between(*f) for f in fields)), 2):
        if one in boxes:
            assert not overlap(one.grown(AIR / 2 - 1e-3), two.grown(AIR / 2 - 1e-3))


def test_a_table_stands_apart_where_words_and_table_find_no_place_together() -> None:
    views = [(0.0, -100.0, 100.0, 0.0), (107.0, -30.0, 150.0, 0.0)]
    grid = Grid((("hole", "bore"), *((f"A{n}", "⌀1⁄2") for n in range(6))), 2.5, METRICS)
    said = Said(tuple(f"line {n} of what is said" for n in range(26)), 2.5, METRICS, (("Holes:", grid),))
    texts, _ = said.apart()
    room = (220.0, texts.tall(62.0) + 1.0)
    found = spot(views, said, room)
    assert grid.wide < 45
    assert found is not None
    assert found.beside is not None
    assert found.at == (155.0, 0.0)
    assert found.beside.at == (105.0, -35.0)
    assert sum(isinstance(r, Text) for r in found.records(said, 220.0)) == 26 + 1 + 14
    assert spot(views, texts, room) is not None
    assert spot(views, said, (room[0] - 10.0, room[1])) is None


def test_words_stand_in_a_narrow_column_only_where_no_wider_one_fits() -> None:
    said = Said(tuple(f"line {n} of what is said" for n in range(20)), 2.5, METRICS)
    views = [(0.0, -200.0, 120.0, 0.0)]
    wide, tight = (120.0 + AIR + w for w in (62.0, 46.0))
    plain, narrow = (spot(views, said, (wide, 205.0), narrow=may) for may in (False, True))
    assert plain == narrow is not None
    assert spot(views, said, (tight, 205.0)) is None
    found = spot(views, said, (tight, 205.0), narrow=True)
    assert found is not None
    assert found.wide == pytest.approx(46.0)
    assert spot(views, said, (tight - 1.0, 205.0), narrow=True) is None


def test_what_is_too_large_finds_no_spot() -> None:
    said = Said(("a word",), 2.5, METRICS)
    assert spot([(0.0, -50.0, 210.0, 0.0)], said, (200.0, 240.0)) is None
    assert spot([(0.0, -245.0, 100.0, 0.0)], said, (200.0, 240.0)) is None


def test_no_text_of_a_table_lies_on_its_rules() -> None:
    rows = (
        ("hole", "from left end", "bore"),
        ("A1", "11 7⁄8", "⌀17⁄64 THRU"),
        ("A2", "3", "same as the one above it, but deeper"),
    )
    grid = Grid(rows, 2.5, METRICS)
    records = grid.records((10.0, -20.0))
    boxes = [box(r, METRICS) for r in records if isinstance(r, Text)]
    for one, two in combinations(boxes, 2):
        assert not overlap(one, two)
    for b in boxes:
        x0, y0, x1, y1 = b.bounds()
        assert x0 > 10
        assert x1 < 10 + grid.wide
        assert -20 - grid.tall < y0
        assert y1 < -20
        for r in records:
            if isinstance(r, Line) and r.a[0] == r.b[0]:
                assert not x0 < r.a[0] < x1
    assert Said(("word",), 2.5, METRICS, (("Holes:", grid),)).least == grid.wide
