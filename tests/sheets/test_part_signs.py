"""What stands under a part's views."""

import pytest

from docgen.drawing.records import Text
from docgen.piece.records import Face
from docgen.sheets import parts
from tests.support.printed import context


@pytest.mark.parametrize(("name", "paper"), [("bookcase", "a4"), ("side-table", "a4"), ("wall-shelf", "letter")])
def test_each_sheet_of_a_part_with_a_show_face_says_where_that_is(name: str, paper: str) -> None:
    c = context(name, paper)
    told = [r.text for sheet in parts.make(c, {}) for r in sheet.records if isinstance(r, Text)]
    shown = [p for p in (c.piece.part(k.first) for k in c.kinds) if p.show is not None and not p.hardware]
    for part in shown:
        assert part.show is not None
        behind = part.plain_side(Face(part.show.axis, 1 - part.show.side))
        assert any(
            (t.startswith(f"{part.plain_side(part.show)}, ") and t.endswith(", show face"))
            or (t.startswith(f"{behind}, ") and ", show face behind" in t)
            for t in told
        ), part.path
    assert any("show face" in t for t in told) == bool(shown)
