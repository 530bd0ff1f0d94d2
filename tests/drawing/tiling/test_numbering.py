"""Numbers of templates: the printed ones, taken by the command as well as titles."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from docgen.cli import main
from docgen.drawing.tiling.numbering import asked, listed
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.kinds import kinds
from docgen.schedules.make import schedules
from docgen.sheets.context import Context
from docgen.sheets.true_drawings import drawings
from tests.examples.test_pieces import example

ROOT = Path(__file__).parents[3]
TITLES = {"T1": "seat: disc", "T2": "leg: T1", "T10": "leg: foot", "G1": "angle gauge 14°"}


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("T1", "T1"),
        ("t1", "T1"),
        ("T2B", "T2"),  # a piece of a long template is the template
        ("g1", "G1"),
        ("seat: disc", "T1"),
        ("T1  seat: disc", "T1"),  # a line of the list
        ("leg: T1", "T2"),  # a title goes before a number
        ("T10", "T10"),
        ("T3", None),
        ("T1 leg: foot", None),
        ("1", None),
        ("", None),
    ],
)
def test_a_drawing_is_asked_for_by_number_or_by_title(text: str, number: str | None) -> None:
    assert asked(text, TITLES) == number


def test_the_list_tells_both() -> None:
    assert listed(TITLES) == ["T1   seat: disc", "T2   leg: T1", "T10  leg: foot", "G1   angle gauge 14°"]
    assert listed({}) == []


@pytest.mark.parametrize("name", ["splayed-stool", "tool-tote", "settle"])
@pytest.mark.parametrize("paper", ["a4", "letter-landscape"])
def test_the_command_numbers_as_the_packet_does(name: str, paper: str) -> None:
    made = example(name)
    same = kinds(made.piece, made.solids)
    lists = schedules(made.piece, made.solids, same)
    context = Context(made.piece, made.solids, same, lists, (), read_layout(paper), PacketMetrics(), "")
    printed = [d.drawing.title.split("  ", 1) for d in drawings(context)]
    told = CliRunner().invoke(main, ["outline", str(ROOT / "examples" / f"{name}.yaml")]).output.splitlines()
    here = {number: title.strip() for number, title in (line.split("  ", 1) for line in told)}
    for number, title in printed:
        found = asked(number, here)
        # What many parts share has no part before its title; equal titles are numbered behind, pieces tell their end.
        assert found is not None and here[found].split(": ")[-1].rstrip(" 23456789") in title
    assert {asked(number, here) for number, _ in printed} == set(here)


def test_a_number_writes_the_drawing_of_its_title(tmp_path: Path) -> None:
    stool = str(ROOT / "examples" / "splayed-stool.yaml")
    by_number = CliRunner().invoke(main, ["outline", stool, "--template", "T1"])
    by_title = CliRunner().invoke(main, ["outline", stool, "--template", "seat: disc"])
    assert by_number.exit_code == 0 and by_number.output == by_title.output
    out = tmp_path / "seat.svg"
    assert "T1 seat: disc" in CliRunner().invoke(main, ["outline", stool, "--template", "t1", "-o", str(out)]).output
    wrong = CliRunner().invoke(main, ["outline", stool, "--template", "T9"])
    assert wrong.exit_code == 2 and "[unknown-template]" in wrong.output
