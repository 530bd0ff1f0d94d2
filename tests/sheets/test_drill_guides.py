"""What of a drill guide is printed: the datum corner with it, unless leaving it out saves a page; captions off the marks."""

from fractions import Fraction

import pytest

from docgen.drawing.records import Text
from docgen.geometry.shapes import Vec2
from docgen.packet.fonts import PacketMetrics
from docgen.piece.hole_names import named
from docgen.piece.model import Kind
from docgen.piece.records import Face, HoleRow, Made, Purpose
from docgen.sheets import templates
from docgen.sheets.true_drawings import drawings, shown
from tests.sheets.truesize import context, part

KINDS = (Kind(("cheek",)),)


def bored(*places: Vec2):
    points = tuple((Fraction(x), Fraction(y), Fraction(20)) for x, y in places)
    row = HoleRow("A", Purpose.PLAIN, Face(2, 1), points, (0.0, 0.0, -1.0), Fraction(6), "6 mm")
    return context(named((part("cheek", 1, (165, 400, 20), Made(holes=(row,))),)), KINDS, "letter")


@pytest.mark.parametrize(
    ("places", "bases", "pages"),
    [
        (((40.0, 200.0), (120.0, 260.0), (80.0, 380.0)), (), 2),
        (((40.0, 300.0), (120.0, 340.0), (80.0, 380.0)), ((1, 280),), 1),
        (((40.0, 30.0), (120.0, 60.0), (80.0, 90.0)), ((1, 110),), 1),
    ],
)
def test_the_datum_corner_stays_unless_that_takes_a_page_more(places, bases, pages: int) -> None:
    c = bored(*places)
    ((_, _, crop),) = shown(c)
    assert crop.bases == bases
    assert all(crop.shows(x, y) for x, y in places)
    assert len(templates.make(c, {})) == pages + 1  # and the one that explains


def test_the_page_names_the_holes_as_the_part_s_sheet_does() -> None:
    (drawn,) = drawings(bored((40.0, 300.0), (120.0, 340.0), (80.0, 380.0)))
    said = [row.text.split("  ")[0] for label in drawn.drawing.labels for row in label.rows]
    assert {"A1", "A2", "A3"} <= set(said)
    assert drawn.drawing.title == "T1  cheek: drill guide"


def test_captions_keep_off_the_crosses_of_the_joint() -> None:
    pages = templates.make(bored((40.0, 200.0), (120.0, 260.0), (80.0, 380.0)), {})[1:]
    for page in pages:
        names = [r for r in page.records if isinstance(r, Text) and r.text == "cheek"]
        for name in names:
            x0, y0 = name.at
            x1, y1 = x0 + PacketMetrics().width(name.text, name.height, bold=True), y0 + name.height
            lines = [r for r in page.records if hasattr(r, "a")]
            for line in lines:
                middle = ((line.a[0] + line.b[0]) / 2, (line.a[1] + line.b[1]) / 2)
                for x, y in (line.a, middle, line.b):
                    assert not (x0 < x < x1 and y0 < y < y1), line
