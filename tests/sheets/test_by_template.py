"""Set-ups and steps name the templates that they go by."""

import re

import pytest

from docgen.drawing.records import Text
from docgen.schedules.gauges import gauges
from docgen.sheets import setups, work
from docgen.sheets.by_template import by_gauge, by_template, goes_by, numbered_templates
from tests.sheets.test_joinery import context


@pytest.mark.parametrize(
    ("name", "machine", "what", "told"),
    [
        ("tool-tote", "band saw", "front", "template T2"),
        ("tool-tote", "jigsaw", "back", "template T3"),
        ("settle", "band saw", "left end", "templates T1, T2, T3"),
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


@pytest.mark.parametrize(("name", "what", "told"), [
    ("sketching-desk", "clearance hole", "templates T1, T2"),  # drill guides
    ("sketching-desk", "bore for the sleeve", "templates T5, T6"),  # outlines that have the bore
    ("settle", "corner", "templates T1, T2, T3"),  # those with their holes too
    ("settle", "screw hole", "templates T2, T3"),
    ("tool-tote", "screw hole", "template T2 (front)"),  # the back's own is printed about its hand hole alone
    ("sketching-desk", "slide screws", "template T2 (case right side)"),  # divider and drawer sides have none
])  # fmt: skip
def test_holes_are_drilled_by_the_templates_that_show_them(name: str, what: str, told: str) -> None:
    of = context(name)
    (setup,) = [s for s in of.lists.setups if s.what == what]
    assert by_template(of)[setup.number] == told


@pytest.mark.parametrize(
    "name", ["sketching-desk", "settle", "tool-tote", "splayed-stool", "dovetailed-box", "side-table", "step-stool"]
)
def test_every_template_and_gauge_is_named_by_a_step(name: str) -> None:
    of = context(name)
    told = " ".join(r.text for page in work.make(of, {}) for r in page.records if isinstance(r, Text))
    names = [n for n, _ in numbered_templates(of.solids, of.kinds)]
    names += [f"G{n}" for n, g in enumerate(gauges(of.piece, of.kinds), 1) if any(": " in use for use in g.uses)]
    seen = (
        {"G1", "G2"} if name == "splayed-stool" else set()
    )  # its legs are looked at by these, no machine is set by them
    assert [n for n in names if n not in seen and not re.search(rf"\b{n}\b", told)] == []


def test_pages_print_the_numbers() -> None:
    of = context("tool-tote")
    for sheet in (setups, work):
        said = " ".join(r.text for page in sheet.make(of, {}) for r in page.records if isinstance(r, Text))
        assert all(f"T{n}" in said for n in (1, 2, 3)) and "by its template" not in said


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (
            "sketching-desk",
            ("Set by angle gauge G1; laid out by templates T8, T9, T16.", "Laid out by templates T1, T2."),
        ),
        ("settle", ("Laid out by templates T2, T3.",)),
    ],
)
def test_a_set_up_names_its_gauges_and_templates_on_its_own_sheet(name: str, told: tuple[str, ...]) -> None:
    of = context(name)
    lines = [r.text for page in setups.make(of, {}) for r in page.records if isinstance(r, Text)]
    assert [text for text in told if text not in lines] == []
    named = " ".join(lines)
    for names in (*by_template(of).values(), *by_gauge(of).values()):
        assert names in named


def test_an_upright_bit_wants_no_gauge_though_the_walls_of_its_dado_lean() -> None:
    of = context("step-stool")
    found = by_gauge(of)
    by_what = {s.what: found.get(s.number, "") for s in of.lists.setups}
    assert by_what["walls of the dado, at the lean"] == by_what["bevel"] == "angle gauge G1"
    assert by_what["dado with leaning walls, its floor"] == by_what["dado, flat-bottomed"] == ""
