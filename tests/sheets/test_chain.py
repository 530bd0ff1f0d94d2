"""The picture of the chain of sizes: on every paper each box and each arrow stands on the sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path as File

import pytest

from docgen.drawing.records import Area, Path, Sheet
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.schedules.rows import ChainRows
from docgen.sheets import chain
from docgen.sheets.context import Context
from tests.sheets import lists
from tests.support.steps import example

PAPERS = ("letter", "a4", "letter-landscape", "a4-landscape", "a3", "tabloid")
NAMES = tuple(sorted(f.stem for f in (File(__file__).parents[2] / "examples").glob("*.yaml")))


def on_paper(sheets: tuple[Sheet, ...]) -> tuple[int, int]:
    """Return how many boxes and how many heads of arrows stand on the sheets; each has to lie wholly on its own."""
    boxes = heads = 0
    for sheet in sheets:
        for r in sheet.records:
            if isinstance(r, Area) or (isinstance(r, Path) and r.closed):
                points = r.points if isinstance(r, Path) else r.rings[0]
                assert all(0 < x < sheet.size[0] and 0 < y < sheet.size[1] for x, y in points)
                boxes, heads = boxes + isinstance(r, Path), heads + isinstance(r, Area)
    return boxes, heads


@pytest.mark.parametrize("name", NAMES)
def test_each_box_and_arrow_of_the_examples_stands_on_paper(name: str) -> None:
    piece, told = example(name)
    solids = Solids(piece)
    own = kinds(piece, solids)
    for paper in PAPERS:
        context = Context(piece, solids, own, told, (), read_layout(paper), PacketMetrics(), "print")
        assert on_paper(chain.make(context, {})) == (len(told.chain.boxes), len(told.chain.arrows)), paper


def test_a_picture_never_falls_between_a_page_and_the_one_after_it() -> None:
    """Whatever the height of a column, it is drawn whole or listed: what a first page takes, one that goes on may not."""
    given = lists.context()
    box = replace(given.lists.chain.boxes[0], parts=("one",))
    drawn = 0
    for count in range(8, 24):
        boxes = (
            replace(box, title="case", column=0),
            *(replace(box, title=f"part {n}", column=1) for n in range(count)),
        )
        rows = ChainRows(boxes, tuple((0, n) for n in range(1, count + 1)), (), (), ())
        sheets = chain.make(replace(given, lists=replace(given.lists, chain=rows)), {})
        found = on_paper(sheets)
        if "An arrow" in lists.flat(sheets):
            assert found == (count + 1, count)
            drawn += 1
        else:
            assert f"part {count - 1}" in lists.flat(sheets)
    assert 0 < drawn < 16
