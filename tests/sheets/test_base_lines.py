"""The base lines of templates are drawn while the ends stand from which they are measured."""

import pytest

from docgen.schedules.from_stock import TO_SIZE
from docgen.sheets.base_lines import base_lines
from docgen.sheets.true_drawings import shown
from tests.sheets.test_joinery import context


@pytest.mark.parametrize("name", ["sketching-desk", "settle", "tool-tote"])
def test_each_base_line_is_told_before_the_first_set_up_of_its_parts(name: str) -> None:
    of = context(name)
    told = base_lines(of)
    for number, row, crop in shown(of):
        for path in row.parts if crop.bases else ():
            (step,) = [s for s in of.lists.work if s.number in told and path in s.parts]
            assert number in told[step.number]
            assert step.number < min(s.number for s in of.lists.work if s.key.startswith("set-up") and path in s.parts)


def test_lines_at_one_distance_are_told_once_with_all_their_templates() -> None:
    of = context("sketching-desk")
    (step,) = [s for s in of.lists.work if s.key == TO_SIZE]
    told = base_lines(of)[step.number]
    assert "square across 2× front leg, 2× rear leg, 26 in from the bottom end (T8, T12, T16)" in told
    assert "square across 2× rear leg, 23 in from the bottom end (T3, T4)" in told


def test_no_template_no_line() -> None:
    assert base_lines(context("bookcase")) == {}
