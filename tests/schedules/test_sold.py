"""What shops have where the list asks for a size that they do not keep."""

import pytest

from docgen.schedules.sold import sold
from tests.support.pieces import INCH, MM
from tests.support.steps import example


@pytest.mark.parametrize(
    ("what", "size", "told"),
    [
        ("wood screw, flat head, for hinges", "No. 4 × 15 mm", "in metric shops the nearest is 3 × 16"),  # shank 2.84
        ("wood screw, round head", "No. 8 × 30", "in metric shops the nearest is 4 × 30"),  # shank 4.17
        ("dowel, fluted", "6 × 27 mm", "nearest length sold that goes in: 25"),
        ("dowel, fluted", "6 × 30 mm", ""),
        ("dowel, fluted", "6 × 20 mm", "sold from 25 up: cut it"),
        ("dowel, fluted", "7 × 30 mm", ""),  # nothing is known of these
        ("brads", "1 × 16 mm", ""),
        ("wood screw", "", ""),
    ],
)
def test_in_a_file_in_millimetres(what: str, size: str, told: str) -> None:
    assert sold(what, size, MM) == told


def test_in_a_file_in_inches() -> None:
    assert sold("wood screw, flat head", "No. 6 × 1 1/4", INCH) == ""
    assert sold("wood screw, flat head", "No. 6 × 1 3/8", INCH) == "nearest length sold: 1 1/4"
    assert sold("dowel, fluted", "3/8 × 1 3/4 in", INCH) == "nearest length sold that goes in: 1 1/2"


def test_the_hardware_list_says_it() -> None:
    notes = {(row.what, row.size): row.note for row in example("map-case")[1].hardware}
    assert "nearest length sold that goes in: 25" in notes["dowel, fluted", "6 × 27 mm"]
    hinge = next(row for row in example("door-cabinet")[1].hardware if "for hinges" in row.what)
    assert "3 × 16" in hinge.note
