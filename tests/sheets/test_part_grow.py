"""What shares a page is drawn as large as the page has room for."""

from dataclasses import replace

import pytest

from docgen.sheets import part_clear, parts
from docgen.sheets.context import Context
from docgen.sheets.part_block import fine, fitted, poor
from docgen.sheets.part_clear import clear, levelled
from docgen.sheets.part_grow import filled, larger
from docgen.sheets.part_pages import Page
from docgen.sheets.part_share import Entry
from tests.support import scales
from tests.support.printed import context, packed

CASES = [("settle", "letter"), ("dovetailed-box", "a4"), ("wall-shelf", "letter"), ("bookcase", "a3")]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_drawing_would_go_on_its_page_a_step_larger(name: str, paper: str) -> None:
    assert [d.part for d in scales.drawings(name, paper) if d.here is not None] == []


def drawn(name: str, paper: str, path: str) -> list[Entry]:
    return [s.block for page in packed(name, paper) for s in page.blocks if s.block.kind.first == path]


def drawn_now(c: Context, path: str) -> list[Entry]:
    """The drawings of a part as they are made with what a test has changed."""
    return [s.block for page in parts.packed(c) for s in page.blocks if s.block.kind.first == path]


def smaller(c: Context, entry: Entry) -> Entry:
    """The drawing two steps of the ladder smaller."""
    factor = entry.placed.setting.factor / 4
    placed = fitted(entry.subject, entry.kind, c, (c.layout.area.width, c.layout.area.height), (0.0, factor))
    assert placed is not None
    return replace(entry, placed=placed)


def page_of(c: Context, *entries: Entry, pages: int = 1) -> Page[Entry]:
    """A page of so many times the paper's height."""
    page: Page[Entry] = Page(c.layout.area.width, pages * c.layout.area.height)
    for e in entries:
        assert page.take(lambda room, e=e: e)  # type: ignore[misc]
    return page


def test_a_drawing_alone_on_its_page_becomes_as_large_as_the_page_takes() -> None:
    c = context("settle", "letter")
    (slat,) = drawn("settle", "letter", "slat.1")
    small = smaller(c, slat)
    assert small.placed.setting.factor < slat.placed.setting.factor
    (page,) = filled(c, [page_of(c, small)])
    assert page.blocks[0].block.placed.setting.scale == slat.placed.setting.scale


def test_the_smallest_drawing_of_a_page_grows_first_and_all_still_fit() -> None:
    c = context("settle", "letter")
    (stile,) = drawn("settle", "letter", "left stile")
    (slat,) = drawn("settle", "letter", "slat.1")
    before = [smaller(c, e) for e in (stile, slat)]
    (page,) = filled(c, [page_of(c, *before, pages=2)])
    after = [s.block for s in page.blocks]
    assert [e.kind.first for e in after] == ["left stile", "slat.1"]
    least = min(e.placed.setting.factor for e in before)
    assert min(e.placed.setting.factor for e in after) > least
    assert sum(e.placed.height for e in after) <= page.high


def test_a_first_drawing_grows_no_larger_than_the_further_ones() -> None:
    for name, paper in CASES:
        first: dict[str, Entry] = {}
        for page in packed(name, paper):
            for s in page.blocks:
                kept = first.setdefault(s.block.kind.first, s.block)
                assert s.block.placed.setting.factor >= kept.placed.setting.factor - 1e-9


def test_a_step_larger_is_the_next_scale_of_the_ladder() -> None:
    c = context("settle", "letter")
    (stile,) = drawn("settle", "letter", "left stile")
    assert stile.placed.setting.scale == (1, 4)
    assert larger(c, stile, 1.0) == (1, 2)
    assert larger(c, stile, 0.4) is None


def test_figures_that_stand_for_next_to_nothing_on_paper_make_a_drawing_hard_to_read_but_not_the_thickness() -> None:
    c = context("door-cabinet", "letter")
    (pane,) = drawn("door-cabinet", "letter", "left door.pane")  # 4 mm at 1 : 10
    assert fine(pane.placed) == 0
    assert not poor(pane.placed)
    (rail,) = drawn("door-cabinet", "letter", "left door.top rail")
    assert not poor(rail.placed)
    assert poor(smaller(c, rail).placed)


def test_a_part_that_is_hard_to_read_takes_one_further_page_at_most(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts, "detailed", lambda _, entries, __: entries)  # with its crowd in a detail it grows again
    c = context("sketching-desk", "letter")
    ends = drawn_now(c, "case.top")
    assert [e.placed.setting.scale for e in ends] == [(1, 4)] * 2
    monkeypatch.setattr(part_clear, "FURTHER", 0.0)
    ends = drawn_now(c, "case.top")
    assert ends[0].placed.setting.scale == (1, 8)
    assert poor(ends[0].placed)
    monkeypatch.setattr(part_clear, "FURTHER", 1.0)
    again = clear(c, ends)
    more = sum(e.placed.height for e in again) - sum(e.placed.height for e in ends)
    assert 0 < more <= c.layout.area.height


def test_parts_of_about_the_same_sizes_have_one_scale_where_a_page_takes_them() -> None:
    scale = {p: drawn("dovetailed-box", "letter", p)[0].placed.setting.scale for p in ("front", "back")}
    assert scale == {"front": (1, 2), "back": (1, 2)}


def test_parts_that_are_not_alike_keep_their_scales() -> None:
    c = context("settle", "letter")
    every = [drawn("settle", "letter", p) for p in ("seat", "slat.1")]
    assert levelled(c, every) == every
