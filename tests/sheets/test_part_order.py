"""Parts stand on few pages in the order of their numbers, all of one on pages that follow one another."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from docgen.drawing.records import Text
from docgen.sheets import order, part_order, parts
from docgen.sheets.part_fit import lost
from docgen.sheets.part_order import Ways, bound
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_share import Entry
from docgen.sheets.parts import packed
from tests.support import printed
from tests.support.printed import context

CASES = [("sketching-desk", "letter"), ("tool-tote", "letter"), ("map-case", "a4"), ("wall-shelf", "letter")]
MORE = re.compile(r"more of part (\d+): sheets? ([\d, ]+)")


def laid(name: str, paper: str) -> list[list[Entry]]:
    return [[s.block for s in page.blocks] for page in packed(context(name, paper))]


def drawn(name: str, paper: str) -> list[list[Entry]]:
    return [[s.block for s in page.blocks] for page in printed.packed(name, paper)]


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
    high = context(name, paper).layout.area.height
    for one, other in pairwise(drawn(name, paper)):
        if one[-1].whole is None and other[-1].whole is None:
            assert sum(e.placed.height + BETWEEN for e in (*one, *other)) - BETWEEN > high


def test_a_further_drawing_is_as_large_as_the_first_or_larger() -> None:
    for blocks in drawn("sketching-desk", "letter"):
        for entry in blocks:
            first = next(e for page in drawn("sketching-desk", "letter") for e in page if e.kind is entry.kind)
            assert entry.placed.setting.factor >= first.placed.setting.factor - 1e-9


@pytest.mark.parametrize(("name", "paper"), [*CASES, ("door-cabinet", "a4"), ("settle", "letter"), ("map-case", "a3")])
def test_all_of_a_part_stands_on_pages_that_follow_one_another(name: str, paper: str) -> None:
    pages: dict[str, list[int]] = {}
    for n, blocks in enumerate(drawn(name, paper)):
        for entry in blocks:
            pages.setdefault(entry.kind.first, []).append(n)
    for found in pages.values():
        assert sorted(set(found)) == list(range(found[0], found[-1] + 1))


def out_of_order(name: str, paper: str, pages: list[list[Entry]]) -> int:
    kinds = [k.first for k in context(name, paper).kinds]
    first = list(dict.fromkeys(kinds.index(e.kind.first) for blocks in pages for e in blocks))
    return sum(a > b for a, b in pairwise(first))


@pytest.mark.parametrize(("name", "paper"), [("door-cabinet", "a4"), ("tool-tote", "letter"), ("seed-chest", "a4")])
def test_a_part_leaves_its_place_only_where_that_saves_a_page(
    name: str, paper: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = drawn(name, paper)
    moved = out_of_order(name, paper, pages)
    monkeypatch.setattr(part_order, "SMALL", 0.0)  # nothing may move
    still = laid(name, paper)
    assert out_of_order(name, paper, still) == 0
    saved = len(still) - len(pages)
    assert (saved > 0) == (moved > 0)
    assert saved >= (moved + 1) // 2  # a part that is moved goes out of order with one before it or behind it, or both


def test_a_part_that_goes_on_elsewhere_says_on_which_sheets() -> None:
    c = context("map-case", "a4")
    pages = order.sheets(c, ("cover", "parts"))
    heads = [[t.text for t in page.records if isinstance(t, Text) and t.bold] for page in pages]
    told = 0
    for n, page in enumerate(pages, 1):
        for text in (t.text for t in page.records if isinstance(t, Text)):
            found = MORE.fullmatch(text)
            if found is not None:
                told += 1
                others = [int(number) for number in found[2].split(", ")]
                assert n not in others
                assert others == [
                    m
                    for m, texts in enumerate(heads, 1)
                    if m != n and any(re.match(rf"{found[1]}  .*, \d of \d$", text) for text in texts)
                ]
    split = [{n for n, blocks in enumerate(drawn("map-case", "a4")) for e in blocks if e.kind is k} for k in c.kinds]
    assert told == sum(len(on) for on in split if len(on) > 1) > 5


def test_pages_have_keys_of_their_own() -> None:
    keys = [sheet.key for sheet in parts.make(context("map-case", "a4"), {})]
    assert len(set(keys)) == len(keys)
    assert "part/case.left/2" in keys


def test_parts_that_fit_one_page_share_it() -> None:
    c = context("sketching-desk", "letter")
    every = [e for page in drawn("sketching-desk", "letter") for e in page if not e.subject.only]
    low = [e for e in every if e.placed.height < c.layout.area.height / 2 - BETWEEN][:2]
    (both,) = bound(c, [[[entry]] for entry in low])
    assert [s.block for s in both.blocks] == low


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_drawing_comes_down_a_step_only_to_share_its_page(name: str, paper: str) -> None:
    for blocks in drawn(name, paper):
        assert len(blocks) > 1 or lost(blocks[0]) == 0


def ways_of(monkeypatch: pytest.MonkeyPatch, name: str, paper: str, part: str) -> Ways:
    """Return the ways in which a part may be drawn."""
    every: list[Ways] = []
    monkeypatch.setattr(parts, "bound", lambda c, found: bound(c, every.extend(found) or found))
    laid(name, paper)
    return next(ways for ways in every if ways[0][0].kind.first == part)


def test_small_ends_of_a_slender_part_may_stand_in_a_block_of_their_own(monkeypatch: pytest.MonkeyPatch) -> None:
    (sides, ends), (whole,) = ways_of(monkeypatch, "splayed-stool", "a4", "front left leg")
    assert [f.axis for f in ends.subject.only] == [0]
    assert ends.placed.setting.factor >= 2 * sides.placed.setting.factor
    assert whole is ends.joined
    assert {s.face for s in whole.subject.stations(False)} == {
        s.face for e in (sides, ends) for s in e.subject.stations(False)
    }


def test_a_part_that_was_broken_to_a_larger_scale_does_not_take_its_ends_back_smaller(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ((sides, ends),) = ways_of(monkeypatch, "map-case", "a4", "front.bottom")
    assert ends.joined is not None
    assert ends.joined.placed.setting.factor < sides.placed.setting.factor


def test_the_second_way_to_draw_a_part_is_taken_where_it_saves_a_page_and_not_else() -> None:
    c = context("sketching-desk", "letter")
    found = [e for page in drawn("sketching-desk", "letter") for e in page]
    every = [replace(e, kind=found[0].kind) for e in found]  # as if all were drawings of one part
    tall = [e for e in every if e.placed.height > 0.6 * c.layout.area.height][:3]
    low = [e for e in every if e.placed.height < 0.45 * c.layout.area.height][:2]
    for first, second, taken in ((tall[:2], tall[2], [tall[2]]), (low, tall[2], low)):
        assert [s.block for page in bound(c, [[first, [second]]]) for s in page.blocks] == taken


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
