"""A row of equal cuts is not told to the end against the width that it fills: one of its figures stands in brackets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.sheets.test_rank import EXAMPLES, bench
from tests.sheets.test_told_once import subjects
from tests.support.full_rows import full_rows


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_row_of_the_examples_is_closed(name: str) -> None:
    assert [(s.part.path, found) for s in subjects(bench(name)) if (found := full_rows(s))] == []


def test_pins_and_tails_that_fill_a_width_without_brackets_are_found() -> None:
    side = next(s for s in subjects(bench("dovetailed-box")) if s.part.path == "left side")
    plain = [
        replace(f, made=replace(f.made, sizes=tuple(replace(s, reference=False) for s in f.made.sizes)))
        for f in side.part.features
    ]
    told = full_rows(replace(side, part=replace(side.part, features=tuple(plain))))
    assert any("4× tail" in t and "fill the whole" in t for t in told)
