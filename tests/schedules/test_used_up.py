"""What is used up at the work: how much of it the piece takes."""

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from docgen.piece.model import Pane
from docgen.piece.records import Authority
from docgen.schedules.used_up import COATS, USED, used_up
from docgen.sheets import cutting, hardware
from docgen.units import Units
from tests.sheets.lists import context, flat
from tests.support.pieces import GLASS, part, piece
from tests.support.steps import example

SIDE = ((0, 20), (0, 300), (0, 700))


def test_a_pane_is_bedded_all_round_and_wood_is_finished_on_all_faces() -> None:
    glazed = piece(
        part("pane", ((0, 400), (0, 4), (0, 300)), "across", material=GLASS, authority=Authority.MEASURE),
        part("side", SIDE, number=2),
        panes=(Pane("pane", ("a rail", "b rail"), "pane", 1, (8, 6)),),
    )
    bed, finish = used_up(glazed)
    assert (bed.what, bed.size, bed.where) == ("felt, tape or putty", "at least 1.4 m", "pane")
    # 2 × (700 × 300 + 300 × 20 + 700 × 20) mm² = 0.46 m², rounded up; glass takes none
    assert (finish.what, finish.size, finish.group) == ("finish", "for 0.5 m² a coat", USED)
    assert f"{COATS} coats" in finish.note


def test_measures_are_told_in_the_units_of_the_file() -> None:
    (finish,) = used_up(piece(part("side", SIDE), units=Units("inch", Fraction(1, 32))))
    assert finish.size == "for 5 ft² a coat"  # 0.46 m² are 4.95 ft²


def test_glue_says_how_much_is_glued_in_one_go_and_wax_goes_with_wooden_runners() -> None:
    chest = {row.what: row for row in used_up(example("seed-chest")[0])}
    assert {"wood glue", "hard wax", "finish"} == set(chest)
    assert "drawer 1" in chest["hard wax"].where
    settle = {row.what: row for row in used_up(example("settle")[0])}
    assert "18 joints in one go" in settle["wood glue"].note and "hard wax" not in settle


@pytest.mark.parametrize("name", sorted(path.stem for path in Path("examples").glob("*.yaml")))
def test_glue_is_bought_for_as_many_joints_as_the_largest_glue_up_says(name: str) -> None:
    of, lists = example(name)
    steps = [re.findall(r"(\d+) joints?\b", row.what) for row in lists.work if row.key.startswith("glue ")]
    (glue,) = [row.note for row in used_up(of) if row.what == "wood glue"]
    assert re.findall(r"(\d+) joint", glue) == [str(max(int(found[0]) for found in steps if found))]


def test_the_list_has_it_where_something_is_bought() -> None:
    for name in ("map-case", "seed-chest", "settle"):
        of, lists = example(name)
        assert tuple(row for row in lists.hardware if row.group == USED) == used_up(of)


def test_a_piece_of_wood_and_glue_alone_has_what_is_used_up_under_its_cutting_list() -> None:
    of, lists = example("step-stool")
    given = replace(context("a4"), piece=of, lists=lists, findings=())
    assert hardware.make(given, {}) == ()
    text = flat(cutting.make(given, {}))
    assert "wood glue" in text and "6 joints in one go" in text and "for 1.3 m² a coat" in text
    bought = replace(given, piece=example("settle")[0], lists=example("settle")[1])
    assert USED not in flat(cutting.make(bought, {})) and USED in flat(hardware.make(bought, {}))
