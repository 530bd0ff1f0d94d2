"""Set-ups and steps name the templates that they go by."""

import pytest

from docgen.drawing.records import Text
from docgen.sheets import setups, work
from docgen.sheets.by_template import by_template, goes_by
from tests.sheets.test_joinery import context


@pytest.mark.parametrize(
    ("name", "machine", "what", "told"),
    [
        ("tool-tote", "band saw", "front", "template T2"),
        ("tool-tote", "jigsaw", "back", "template T3"),
        ("settle", "band saw", "left end", "template T1"),
        ("dovetailed-box", "hand saw", "left side", "template T1"),  # marked by it, and sawn by hand
    ],
)
def test_a_set_up_has_the_numbers_of_the_templates_of_its_cuts(name: str, machine: str, what: str, told: str) -> None:
    of = context(name)
    found = by_template(of)
    (setup,) = [s for s in of.lists.setups if s.machine == machine and s.parts[0][0] == what and s.number in found]
    assert found[setup.number] == told


def test_what_is_made_by_a_template_of_its_own_is_no_cut() -> None:
    of = context("side-table")  # the buttons have one; the slots that take their tongues have none
    found = by_template(of)
    assert [s.what for s in of.lists.setups if s.number in found] == ["taper on a sled"]
    assert not any(goes_by(of.piece, s) for s in of.lists.setups if s.what == "slot")


def test_pages_print_the_numbers() -> None:
    of = context("tool-tote")
    for sheet in (setups, work):
        said = " ".join(r.text for page in sheet.make(of, {}) for r in page.records if isinstance(r, Text))
        assert all(f"T{n}" in said for n in (1, 2, 3)) and "by its template" not in said
