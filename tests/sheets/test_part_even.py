"""Figures of one height in all drawings of a part."""

import pytest

from docgen.sheets import parts
from docgen.sheets.part_even import evened
from docgen.sheets.part_pages import Page
from docgen.sheets.part_share import Entry
from tests.support.printed import context

Pages = list[Page[Entry]]


def uneven(pages: Pages) -> set[str]:
    """Return the parts with figures of several heights."""
    found: dict[str, set[float]] = {}
    for e in (s.block for page in pages for s in page.blocks):
        found.setdefault(e.kind.first, set()).add(e.placed.setting.height)
    return {part for part, heights in found.items() if len(heights) > 1}


@pytest.mark.parametrize(
    ("name", "paper", "higher", "lower"),
    [("door-cabinet", "letter", "case.left", ""), ("map-case", "a4", "", "front.left")],
)
def test_figures_of_a_part_are_made_higher_where_they_have_room_and_else_lower(
    name: str, paper: str, higher: str, lower: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before: Pages = []
    monkeypatch.setattr(parts, "evened", lambda c, pages: evened(c, before.extend(pages) or pages))
    after = parts.packed(context(name, paper))
    assert {higher, lower} - {""} <= uneven(before)
    assert uneven(after) == set()
    assert len(after) == len(before)
    for was, now in zip(before, after, strict=True):
        for one, other in zip((s.block for s in was.blocks), (s.block for s in now.blocks), strict=True):
            assert one.placed.setting.scale == other.placed.setting.scale
            assert sum(s.block.size[1] for s in now.blocks if not s.beside) <= now.high + 1e-6
            if one.kind.first == higher:
                assert other.placed.setting.height == 3.5
            elif one.kind.first == lower:
                assert other.placed.setting.height == 2.5
            else:
                assert other.placed.setting.height == one.placed.setting.height or one.kind.first in uneven(before)
