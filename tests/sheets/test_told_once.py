"""No figure stands twice on a part sheet, no chain of figures is closed and no leaders cross, found from what is drawn."""

from __future__ import annotations

import pytest

from docgen.drawing import choose
from docgen.sheets.part_view import Subject
from tests.sheets.test_rank import EXAMPLES, bench
from tests.support.benched import Benched, benched
from tests.support.generated_pieces import pieces
from tests.support.twice import crossed, told_twice

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


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_leaders_of_the_examples_cross(name: str) -> None:
    assert {s.part.path: found for s in subjects(bench(name)) if (found := crossed(s))} == {}


def test_every_figure_of_made_up_pieces_stands_once_and_no_leaders_cross() -> None:
    found: dict[tuple[int, str], list[str]] = {}
    for (seed, text), _ in zip(pieces(MADE_UP), range(MANY), strict=False):
        for s in subjects(benched(text)):
            if told := told_twice(s) + crossed(s):
                found[seed, s.part.path] = told
    assert found == {}


def test_a_figure_that_is_drawn_twice_and_a_chain_that_is_closed_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the choosing of figures the wall shelf's side has a closed chain, the table's leg its mortises twice."""
    monkeypatch.setattr(choose, "underived", lambda every: every)
    monkeypatch.setattr(choose, "counted", lambda every, _: every)
    side = next(s for s in subjects(bench("wall-shelf")) if s.part.path == "left side")
    assert any("stop 80" in told and "closes a ring" in told for told in told_twice(side))
    leg = next(s for s in subjects(bench("side-table")) if s.part.path == "front left leg")
    assert any("mortise 68" in told for told in told_twice(leg))
