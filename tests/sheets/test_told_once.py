"""No figure stands twice on a part sheet, and no chain of figures is closed, found from what is drawn alone."""

from __future__ import annotations

import pytest

from docgen.sheets.part_view import Subject
from tests.sheets.test_rank import EXAMPLES, bench
from tests.support.benched import Benched, benched
from tests.support.generated_pieces import pieces
from tests.support.twice import told_twice

MADE_UP = 40001
MANY = 8


def subjects(b: Benched) -> list[Subject]:
    return [
        Subject(
            b.piece.part(k.first),
            b.solids,
            b.piece.units,
            True,
            asked=tuple(w for w in b.piece.drawing if w.part in k.parts),
        )
        for k in b.kinds
        if not b.piece.part(k.first).hardware
    ]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_figure_of_the_examples_stands_once(name: str) -> None:
    assert {s.part.path: found for s in subjects(bench(name)) if (found := told_twice(s))} == {}


def test_every_figure_of_made_up_pieces_stands_once() -> None:
    found: dict[tuple[int, str], list[str]] = {}
    for (seed, text), _ in zip(pieces(MADE_UP), range(MANY), strict=False):
        for s in subjects(benched(text)):
            if told := told_twice(s):
                found[seed, s.part.path] = told
    assert found == {}
