"""Joinery details are as large as the pages that they take have room for."""

from __future__ import annotations

import pytest

from docgen.sheets import joint_laid
from docgen.sheets.joinery import details
from docgen.sheets.joint_laid import Layout, laid_out
from docgen.sheets.joint_pages import Piece, packed
from tests.support.scales import joinery_laid, sections


@pytest.mark.parametrize(("name", "paper"), [("map-case", "a4"), ("settle", "a3"), ("door-cabinet", "letter")])
def test_no_detail_could_be_larger_where_it_stands(name: str, paper: str) -> None:
    assert [s for s in sections(name, paper) if s.here is not None] == []


def ungrown(monkeypatch: pytest.MonkeyPatch, name: str, paper: str) -> Layout:
    """Return the details as they were laid out before any of them grew."""
    of, _, room = joinery_laid(name, paper)
    with monkeypatch.context() as held:
        held.setattr(joint_laid, "_grown", lambda context, best, room, memos: best)
        return laid_out(of, list(details(of)), room)


@pytest.mark.parametrize(("name", "paper"), [("door-cabinet", "a4"), ("map-case", "a4")])
def test_growing_takes_no_further_page(monkeypatch: pytest.MonkeyPatch, name: str, paper: str) -> None:
    """The door cabinet's tenon joints grow to true size right across a page."""
    _, laid, _ = joinery_laid(name, paper)
    bare = ungrown(monkeypatch, name, paper)
    assert laid.pages == bare.pages and laid.reduced <= 1 and laid.large > bare.large


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_page_more_is_worth_several_details_at_true_size(monkeypatch: pytest.MonkeyPatch, paper: str) -> None:
    """Five joints of the settle stood at half their size, so that they took three pages and not four."""
    _, laid, _ = joinery_laid("settle", paper)
    bare = ungrown(monkeypatch, "settle", paper)
    assert laid.pages == bare.pages + 1
    assert laid.reduced <= 1 and bare.reduced - laid.reduced >= 4


def test_what_is_tiny_grows_beyond_true_size() -> None:
    """A hinge's leaf of 1.5 mm was a stroke between two arrows."""
    _, laid, _ = joinery_laid("map-case", "a4")
    hinge = next(x for group in laid.drawn for x, _ in group if x.detail.meeting.joint.word == "hinge")
    assert hinge.scale == (2, 1)


def test_orders_are_tried_until_no_page_can_be_saved() -> None:
    """Two of each pair fill a column: placed as given, or the tallest first, they would take a page more."""
    tall = (60.0, 50.0, 50.0, 40.0, 30.0, 30.0, 20.0, 20.0)
    spots = packed([[Piece(t)] for t in tall], columns=1, room=100.0, gap=0.0)
    assert max(s.page for group in spots for s in group) == 2


@pytest.mark.parametrize("paper", ["letter", "a4", "a3"])
def test_a_tall_row_of_dovetails_may_fill_its_column(paper: str) -> None:
    """It stood at half its size above a third of a white page."""
    _, laid, _ = joinery_laid("dovetailed-box", paper)
    row = next(x for group in laid.drawn for x, _ in group if x.detail.meeting.joint.word == "dovetail")
    assert row.scale == (1, 1)
