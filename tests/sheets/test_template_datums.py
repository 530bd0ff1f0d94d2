"""What is called a datum on a template is what its figures are measured from; and drawings that share pages fill them."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from docgen.drawing.records import Line, Path, Pen, Text
from docgen.drawing.tiles import can_share, shared_pages, sharing
from docgen.drawing.tiling.grid import Tile, Tiling
from docgen.drawing.tiling.ink import outline_ink
from docgen.drawing.tiling.keymap import key_map
from docgen.drawing.tiling.truesize import TrueSize
from docgen.geometry.shapes import Outline
from docgen.layout.model import Rect
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.sheets import sticks, templates
from docgen.sheets.true_drawings import drawings, shown
from tests.sheets.test_joinery import context

DESK = "sketching-desk"


def rows(drawing: TrueSize) -> list[str]:
    return [row.text for label in drawing.labels for row in label.rows]


def test_a_centre_is_not_measured_from_an_end_that_was_cut_aslant() -> None:
    """The thick line is the sawn end; the end of the blank, from which places count, is not on the template."""
    c = context(DESK, "letter")
    aslant = [d.drawing for d in drawings(c) if "corner radius" in d.drawing.title and "leg" in d.drawing.title]
    assert len(aslant) == 4
    for drawing in aslant:
        told = rows(drawing)
        assert any("as cut" in t for t in drawing.lines) and "datum: bottom end as cut" in told
        assert not any(word in t for t in told for word in ("its centre", "from the", "measured on the blank"))
        assert "centre of the arc" in told and any(t.startswith("R ") for t in told)
        assert not any(isinstance(i, Line) and i.pen is Pen.CENTRE for i in drawing.inks)  # two thick lines hold it
    square = next(d.drawing for d in drawings(c) if "left cheek" in d.drawing.title)
    assert "datum: bottom end" in rows(square) and any("from the bottom end" in t for t in rows(square))


def test_a_centre_is_measured_from_the_thick_lines_where_these_are_the_far_ones() -> None:
    """The settle's corners with holes lie by the top end and the back edge: no other end of the part is on the template."""
    told = [
        " ".join(d.drawing.lines) for d in drawings(context("settle", "letter")) if "with its holes" in d.drawing.title
    ]
    assert len(told) == 2
    for words in told:
        assert "thick line: top end and back edge" in words
        assert "its centre 2 in from the top end, 2 in from the back edge" in words


def test_the_sides_of_a_part_that_is_left_rough_are_lines_drawn_on_it_on_template_and_stick() -> None:
    """The stool's seat is bored while its finished box stands in the middle of a larger blank; the desk's parts are cut to size."""
    c = context("splayed-stool", "a4")
    seat = next(d.drawing for d in drawings(c) if d.drawing.title.startswith("T1"))
    assert "thick line: line of the front edge and line of the left end." in seat.lines[0]
    assert "Thick lines: the lines of the finished box drawn on the blank, not its edges." in seat.lines
    assert {"datum: line of the front edge", "datum: line of the left end"} <= set(rows(seat))
    words = " ".join(i.text for s in sticks.make(c, {}) for i in s.records if isinstance(i, Text))
    assert "line of the finished box drawn on the blank, not its" in words and "datum: line of the left end" in words
    desk = context(DESK, "letter")
    assert not any(
        "finished box" in t or "line of the" in t for d in drawings(desk) for t in (*d.drawing.lines, *rows(d.drawing))
    )


def test_a_template_that_ends_within_the_wood_is_broken_off_there_aslant_too() -> None:
    c = context(DESK, "letter")
    for d in (d.drawing for d in drawings(c) if "corner radius" in d.drawing.title and "leg" in d.drawing.title):
        assert sum(isinstance(i, Path) and i.pen is Pen.BREAK for i in d.inks) == 2
        solid = [i for i in d.inks if isinstance(i, Line) and i.pen is Pen.VISIBLE]
        datum = [i for i in d.inks if isinstance(i, Line) and i.pen is Pen.DATUM]
        assert len(datum) == 2 and all(
            any(
                math.dist(s.a, t.a) + math.dist(s.b, t.b) < 3 or math.dist(s.a, t.b) + math.dist(s.b, t.a) < 3
                for t in datum
            )
            for s in solid
        )


def test_a_base_line_stands_only_where_no_thick_line_lies_across_the_part() -> None:
    c = context(DESK, "letter")
    for _, row, crop in shown(c):
        across = [row.side(a, b) for a, b in row.seen.datum if row.side(a, b) in (row.end, row.far)]
        assert not (across and any(axis == 0 for axis, _ in crop.bases) and not crop.cuts)


def block(title: str, high: float) -> TrueSize:
    return TrueSize(title, ("Lay it.",), outline_ink(Outline.rectangle(0, 0, 120, high)))


def test_drawings_stand_on_the_first_page_with_room_and_large_ones_share_too() -> None:
    layout, metrics = read_layout("a4"), PacketMetrics()
    every = [block("T1", 120), block("T2", 120), block("G1", 50), block("G2", 50), block("T3", 180)]
    assert all(can_share(d, layout, metrics) for d in every)
    assert [d.title for d in sharing(every, layout, metrics)] == ["T1", "T2", "G1", "G2"]  # T3 has a page of its own
    pages = shared_pages(every[:4], layout, metrics, "Templates")
    assert [p.names for p in pages] == [("T1", "G1"), ("T2", "G2")]


@pytest.mark.parametrize("name", [DESK, "splayed-stool"])
def test_every_drawing_is_printed_once_in_the_order_of_its_pages(name: str) -> None:
    c = context(name, "letter")
    sheets = [s for s in templates.make(c, {}) if not s.framed]
    titles = [d.drawing.title for d in drawings(c)]
    found = [
        t
        for s in sheets
        for t in titles
        if any(
            (isinstance(r, Text) and r.bold and r.text == t.split("  ")[0])
            or (isinstance(r, Text) and r.text.startswith(f"{t.split()[0]} "))
            for r in s.records
        )
    ]
    assert {*found} == {*titles}
    first = [
        min(titles.index(t) for t in titles if t.split()[0] in s.title.split(", page")[0].replace(",", "").split())
        for s in sheets
    ]
    assert first == sorted(first)


def test_maps_take_no_page_of_their_own() -> None:
    """Each page carries a map; on the first page they stand where it has room."""
    for name in ("splayed-stool", DESK, "tool-tote"):
        for paper in ("letter", "a4", "a4-landscape"):
            of = replace(context(name, "a4"), layout=read_layout(paper))
            framed = [s for s in templates.make(of, {}) if s.framed]
            for page in framed[1:]:
                words = [r.text for r in page.records if isinstance(r, Text)]
                assert "Where the pages lie" not in words or "true-size drawing" in words


def test_a_disc_is_closed_on_its_map() -> None:
    tile = Tile(0, 0, (0, 0, 100, 100), (0, 0, 100, 100))
    tiling = Tiling(field=None, overlap=10, columns=1, rows=1, tiles=(tile,))  # type: ignore[arg-type]
    disc = outline_ink(Outline.circle((50.0, 50.0), 40.0))
    lines = [r for r in key_map(tiling, disc, Rect(0, 0, 50, 50), here=None, small=2.0) if isinstance(r, Path)]
    (circle,) = [r for r in lines if r.pen is Pen.VISIBLE]
    assert math.dist(circle.points[0], circle.points[-1]) < 1e-6
