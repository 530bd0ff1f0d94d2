"""Pages of parts that are half empty become one."""

from itertools import pairwise

import pytest

from docgen.drawing.unfold import stacked
from docgen.piece.records import Face
from docgen.sheets.part_merge import Merger
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_share import Entry
from docgen.sheets.parts import packed
from tests.sheets.test_part_sheets import context

CASES = [("sketching-desk", "letter"), ("tool-tote", "letter"), ("map-case", "a4"), ("wall-shelf", "letter")]


def drawn(name: str, paper: str) -> list[list[Entry]]:
    return [[s.block for s in page.blocks] for page in packed(context(name, paper))]


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_drawings_of_one_part_stay_in_their_order_and_none_is_lost(name: str, paper: str) -> None:
    told: dict[str, list[str]] = {}
    for blocks in drawn(name, paper):
        for entry in blocks:
            told.setdefault(entry.kind.first, []).append(entry.subject.block)
    c = context(name, paper)
    assert set(told) == {k.first for k in c.kinds if not c.piece.part(k.first).hardware}
    for labels in told.values():
        assert labels == ([f", {n} of {len(labels)}" for n in range(1, len(labels) + 1)] if len(labels) > 1 else [""])


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_two_neighbours_would_go_on_one_page_as_they_are(name: str, paper: str) -> None:
    pages = packed(context(name, paper))
    for one, other in pairwise(pages):
        if one.blocks[-1].block.whole is None and other.blocks[-1].block.whole is None:
            tall = sum(s.block.placed.height + BETWEEN for s in (*one.blocks, *other.blocks)) - BETWEEN
            assert tall > one.high


def test_a_further_drawing_is_as_large_as_the_first_or_larger() -> None:
    for blocks in drawn("sketching-desk", "letter"):
        for entry in blocks:
            first = next(e for page in drawn("sketching-desk", "letter") for e in page if e.kind is entry.kind)
            assert entry.placed.setting.factor >= first.placed.setting.factor - 1e-9


def test_pages_that_fit_one_another_become_one() -> None:
    c = context("sketching-desk", "letter")
    every = [e for page in drawn("sketching-desk", "letter") for e in page]
    low = [e for e in every if e.placed.height < c.layout.area.height / 2 - BETWEEN][:2]
    pages: list[Page[Entry]] = []
    for entry in low:
        page: Page[Entry] = Page(c.layout.area.width, c.layout.area.height)
        page.take(lambda room, e=entry: e)  # type: ignore[misc]
        pages.append(page)
    (both,) = Merger(c).merged(pages)
    assert [s.block for s in both.blocks] == low


def test_views_without_the_principal_one_lie_and_ends_have_one_side_up() -> None:
    sides = stacked((500.0, 60.0, 30.0), (Face(1, 0), Face(2, 0)), beside=False)
    assert [(s.column, s.row) for s in sides] == [(0, 0), (0, -1)]
    assert all(s.view.right[0] == 1.0 for s in sides)
    for spans in ((500.0, 60.0, 30.0), (500.0, 30.0, 60.0)):
        wide = 1 if spans[1] > spans[2] else 2
        ends = stacked(spans, (Face(0, 0), Face(0, 1)), beside=True)
        assert [(s.column, s.row) for s in ends] == [(0, 0), (1, 0)]
        assert ends[0].view.up == ends[1].view.up
        assert all(abs(s.view.right[wide]) == 1.0 for s in ends)
        assert all(s.view.toward[0] == (1.0 if s.face.side else -1.0) for s in ends)


def test_small_ends_of_a_slender_part_stand_in_a_block_of_their_own_unless_that_takes_a_page() -> None:
    c = context("splayed-stool", "a4")
    every = [e for page in drawn("splayed-stool", "a4") for e in page if e.kind.first == "front left leg"]
    sides, ends = every
    assert [f.axis for f in ends.subject.only] == [0]
    assert ends.placed.setting.factor >= 2 * sides.placed.setting.factor
    whole = ends.joined
    assert whole is not None
    high = max(whole.placed.height, sides.placed.height + BETWEEN, ends.placed.height) + 1.0
    pages: list[Page[Entry]] = [Page(c.layout.area.width, high) for _ in every]
    for page, entry in zip(pages, every, strict=True):
        assert page.take(lambda room, e=entry: e)  # type: ignore[misc]
    (page,) = Merger(c).merged(pages)
    assert [s.block for s in page.blocks] == [whole]


def test_a_part_that_was_broken_to_a_larger_scale_does_not_take_its_ends_back_smaller() -> None:
    c = context("door-cabinet", "a4")
    sides, ends = [e for page in drawn("door-cabinet", "a4") for e in page if e.kind.first == "left door.right stile"]
    assert ends.joined is not None
    assert ends.joined.placed.setting.factor < sides.placed.setting.factor
    pages: list[Page[Entry]] = [Page(c.layout.area.width, c.layout.area.height) for _ in range(2)]
    for page, entry in zip(pages, (sides, ends), strict=True):
        assert page.take(lambda room, e=entry: e)  # type: ignore[misc]
    merged = Merger(c).merged(pages)
    assert [s.block for page in merged for s in page.blocks] == [sides, ends]


@pytest.mark.parametrize(
    ("name", "paper", "path", "scales"),
    [
        ("dovetailed-box", "letter", "front", [(1, 2), (1, 1)]),  # pins
        ("bookcase", "letter", "shelf.1", [(1, 5)]),  # broken: two pages for a plain board are too many
    ],
)
def test_a_part_that_comes_out_rather_little_takes_half_a_page_more_for_twice_the_scale_and_no_further(
    name: str, paper: str, path: str, scales: list[tuple[int, int]]
) -> None:
    found = [e.placed.setting.scale for page in drawn(name, paper) for e in page if e.kind.first == path]
    assert found == scales
