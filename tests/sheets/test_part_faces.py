"""Which face of a part is drawn: the show face wherever another one tells nothing more."""

import pytest

from docgen.piece.records import Face
from tests.sheets.test_part_shoulders import subject


@pytest.mark.parametrize(
    ("name", "path"),
    [("sketching-desk", "stand.stretcher"), ("settle", "slat.1"), ("settle", "crest"), ("settle", "foot rail")],
)
def test_what_is_hidden_from_both_sides_is_told_on_the_show_face_alone(name: str, path: str) -> None:
    part = subject(name, path)
    assert part.first == part.part.show
    assert Face(part.first.axis, 1 - part.first.side) not in part.plan.others


def test_a_groove_that_is_seen_from_behind_is_told_there() -> None:
    box_front = subject("sketching-desk", "drawer.box front")
    (depth,) = [f for f in box_front.plan.figures if f.size.label == "groove"]
    assert depth.size.face == box_front.first  # on lines that are seen
