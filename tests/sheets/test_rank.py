"""The figures printed on a part's sheet fix every number of the part, and none of them says what others say already."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from docgen.sheets.part_view import Subject
from tests.support.benched import Benched, example, made
from tests.support.rank import doubled, figures, flush, jacobian, loose, measures, wrong

EXAMPLES = tuple(sorted(p.stem for p in (Path(__file__).parents[2] / "examples").glob("*.yaml")))


@cache
def bench(name: str) -> Benched:
    return example(name)


CASES = [(n, k.first) for n in EXAMPLES for k in bench(n).kinds if not bench(n).piece.part(k.first).hardware]


@pytest.mark.parametrize(("name", "path"), CASES)
def test_the_printed_figures_fix_every_number_and_none_is_doubled(name: str, path: str) -> None:
    assert wrong(bench(name), path) == ([], [])


def test_a_figure_that_is_left_out_leaves_its_number_loose_and_one_said_twice_is_found() -> None:
    b = bench("bookcase")
    part = made(b, "left side")
    names = measures(part)
    rows = jacobian(part, names)
    told = figures(part, Subject(part.part, b.solids, b.piece.units, True))
    depth = next(keys for keys in told if any(k[2] == "depth" for k in keys))
    rest = [keys for keys in told if keys is not depth]
    assert ("dado 1", "depth") in loose([*(rows[key] for keys in rest for key in keys), *flush(part, names)], names)
    assert doubled([*told, depth], rows) == [depth, depth]
