"""Sections of joints that lean are turned on paper until their figures stand square, and say so."""

from __future__ import annotations

import pytest

from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.records import Arc, Area, Text
from docgen.drawing.symbols_turned import turned_sign
from docgen.drawing.wording import Notes
from docgen.geometry.section import section_view
from docgen.packet.fonts import PacketMetrics
from docgen.schedules.turned import turn, turned_about
from docgen.sheets.joint_sizes import wanted
from tests.sheets.test_joinery import context, pages
from tests.sheets.test_joint_cut import details

FRONT = section_view((0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
LEANS = (0.8, 0.0, 0.6)
SQUARE_TO_IT = (-0.6, 0.0, 0.8)
UP = (0.0, 0.0, 1.0)


def test_a_view_is_turned_to_the_part_along_which_most_figures_run() -> None:
    degrees = turn(FRONT, [LEANS, UP], [LEANS, SQUARE_TO_IT])
    assert degrees == pytest.approx(-36.8699)  # clockwise
    view = section_view((0.0, -1.0, 0.0), turned_about(FRONT, degrees))
    assert max(map(abs, view.flat(LEANS))) == pytest.approx(1.0)
    assert max(map(abs, view.flat(SQUARE_TO_IT))) == pytest.approx(1.0)


def test_what_stands_square_or_has_no_part_to_turn_to_stays() -> None:
    assert turn(FRONT, [LEANS, UP], [UP, UP]) == 0.0
    assert turn(FRONT, [UP], [LEANS, SQUARE_TO_IT]) == 0.0  # a mitred corner with its tenon at 45 degrees stands
    assert turn(FRONT, [LEANS], [LEANS, UP]) == 0.0  # no gain
    assert turn(FRONT, [(0.6, 0.6, 0.5)], [LEANS, SQUARE_TO_IT]) == 0.0  # not in the plane


@pytest.mark.parametrize(
    ("name", "word", "which", "degrees"),
    [
        ("settle", "mortise and tenon", -2, 12.0),
        ("tool-tote", "screwed", 0, 11.94),
        ("sketching-desk", "loose tenon", 0, 14.0),
    ],
)
def test_all_figures_of_a_leaning_joint_stand_square(name: str, word: str, which: int, degrees: float) -> None:
    cut = details(name, word)[which].cut
    assert cut is not None and abs(cut.plane.turned) == pytest.approx(degrees, abs=0.05)
    told = [w for w in wanted(cut, Notes(context(name).piece.units)) if isinstance(w, Linear)]
    assert told and all(min(map(abs, w.along)) < 1e-6 for w in told)


def test_a_turned_section_says_so() -> None:
    texts = [r.text for s in pages("joinery", "settle") for r in s.records if isinstance(r, Text)]
    assert texts.count("12°") == 1 and "turned on paper" in texts  # at the section; the key tells no angle
    assert "turned on paper" not in [
        r.text for s in pages("joinery", "bookcase") for r in s.records if isinstance(r, Text)
    ]


def test_the_arrow_of_the_sign_goes_the_way_the_view_was_turned() -> None:
    assert turned_sign(0.0, 2.5, PacketMetrics()) == ([], 0.0)
    for degrees, side in ((12.0, -1.0), (-12.0, 1.0)):
        records, wide = turned_sign(degrees, 2.5, PacketMetrics())
        arc = next(r for r in records if isinstance(r, Arc))
        head = next(r for r in records if isinstance(r, Area)).rings[0]
        assert (head[0][0] - arc.centre[0]) * side > 0  # over the top to the left is counter-clockwise
        assert head[0][1] < max(p[1] for p in head[1:])  # and the head points down
        assert wide > arc.radius * 2 and [r.text for r in records if isinstance(r, Text)] == ["12°"]
