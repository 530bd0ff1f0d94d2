"""A part that comes out little stands in as few blocks as it can at twice the scale."""

import pytest

from docgen.sheets.part_share import Entry
from tests.support.printed import packed


def drawings(name: str, paper: str, path: str) -> list[Entry]:
    return [s.block for page in packed(name, paper) for s in page.blocks if s.block.kind.first == path]


def test_a_part_takes_lower_figures_rather_than_a_page_for_one_edge() -> None:
    (front,) = drawings("tool-tote", "letter", "front")
    assert front.placed.setting.scale == (1, 4) and front.placed.setting.height == pytest.approx(2.5)
    assert len(front.subject.stations(True)) == 2


def test_one_that_fits_a_page_with_high_figures_keeps_them() -> None:
    assert all(e.placed.setting.height == pytest.approx(3.5) for e in drawings("tool-tote", "letter", "left end"))
