"""Joinery details are as large as the pages that they take have room for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from docgen.sheets.joinery import details
from docgen.sheets.joint_laid import laid_out
from docgen.sheets.joint_pages import Piece, packed
from tests.support.scales import joinery_laid, sections


@pytest.mark.parametrize(("name", "paper"), [("map-case", "a4"), ("settle", "a3"), ("door-cabinet", "letter")])
def test_no_detail_could_be_larger_where_it_stands(name: str, paper: str) -> None:
    assert [s for s in sections(name, paper) if s.here is not None] == []


def test_growing_takes_no_further_page() -> None:
    """The door cabinet's tenon joints grow to true size right across a page; with less room they stay in their columns."""
    of, laid, room = joinery_laid("door-cabinet", "a4")
    grown = [x for group in laid.drawn for x, _ in group if x.across]
    assert grown and laid.pages == 3
    low = laid_out(of, list(details(of)), replace(room, height=room.height * 0.8))
    assert low.large < laid.large


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
