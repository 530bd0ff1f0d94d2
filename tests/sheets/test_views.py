"""General views on paper: on one page where that keeps them legible, with the list where it has room."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Rules
from docgen.drawing.lettering import box
from docgen.drawing.records import Arc, Line, Sheet, Text
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.sheets import balloons, parts_list, views
from docgen.sheets.views_draft import Drafts
from docgen.sheets.views_page import composed, cornered, laid
from docgen.sheets.whole import Whole
from tests.sheets.test_joinery import context
from tests.support.audit import audit


def made(name: str, layout: str) -> tuple[Sheet, ...]:
    return views.make(context(name, layout), {})


def texts(sheet: Sheet) -> list[Text]:
    return [r for r in sheet.records if isinstance(r, Text)]


@pytest.mark.parametrize(
    ("name", "layout", "scales"),
    [
        ("settle", "letter", ["1 : 12"]),
        ("bookcase", "a4", ["1 : 10"]),
        ("bookcase", "letter", ["1 : 20"]),  # a step smaller: 1800 is 90 mm
        ("side-table", "a4", ["1 : 10"]),  # 560 is 56 mm
        ("splayed-stool", "a4", ["1 : 5"]),  # the leans stand within
        ("seed-chest", "letter", ["1 : 5"]),  # what is told in words needs no width
        ("bookcase", "a3", ["1 : 10"]),
    ],
)
def test_all_views_share_a_page_where_they_stay_legible(
    name: str, layout: str, scales: list[str], tmp_path: Path
) -> None:
    of, pages = context(name, layout), made(name, layout)
    assert [s.scale for s in pages] == scales
    path = tmp_path / "x.pdf"
    path.write_bytes(write(pages, layout=of.layout, piece=of.piece, fingerprint="f"))
    assert [str(f) for f in audit(path)] == []


def test_the_names_stand_in_the_corner_that_the_views_leave() -> None:
    of = context("sketching-desk", "letter-landscape")
    drafts = Drafts(Whole(of.piece, of.solids), of).take(1 / 24, 2.5)
    stand = laid([d.view(of) for d in drafts], third=True)
    assert cornered(of, stand) is None  # too many for so small a corner
    stand = laid([d.view(of) for d in Drafts(Whole(of.piece, of.solids), of).take(1 / 4, 2.5)], third=True)
    names = cornered(of, stand)
    at = {view.name: bounds for view, bounds, _ in stand}
    assert names and all(
        t.at[0] > at["top"][2] and at["right"][3] < t.at[1] < at["top"][3] for t in names if isinstance(t, Text)
    )


@pytest.mark.parametrize("name", ["side-table", "map-case", "dovetailed-box", "wall-shelf"])
def test_the_list_is_a_table_where_it_has_room(name: str) -> None:
    (page,) = made(name, "letter" if name == "dovetailed-box" else "a4")
    assert "finished: length" in {t.text for t in texts(page)}


@pytest.mark.parametrize(
    ("name", "layout", "below"), [("bookcase", "letter", True), ("sketching-desk", "letter", False)]
)
def test_a_top_view_on_a_page_of_its_own_has_the_piece_beside_it(name: str, layout: str, below: bool) -> None:
    """A second page that is half empty shows the piece from a corner, beside the view or below what is told of the parts."""
    of = context(name, layout)
    (top,) = Drafts(Whole(of.piece, of.solids), of).take(1 / 10, 3.5)[2:]
    page = composed([top], of, (1, 10), of.layout)
    at = {t.text: t.at for t in page.records if isinstance(t, Text)}
    under = at.pop("seen from a corner, without scale")
    assert (under[1] < min(y for _, y in at.values())) is below
    lines = [p for r in page.records if isinstance(r, Line) for p in (r.a, r.b)]
    assert all(-1e-6 <= x <= of.layout.area.width + 1e-6 and -of.layout.area.height <= y <= 0.5 for x, y in lines)


def engine() -> Engine:
    ring = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]
    lines = list(zip(ring, ring[1:] + ring[:1], strict=True))
    return Engine(
        lines, outline=(0, 0, 100, 60), scale=1.0, at=(0, 0), rules=Rules(height=3.5), metrics=PacketMetrics()
    )


def test_a_leader_may_point_at_the_near_side_of_a_part() -> None:
    """Of five clear points the middle is the clearest, the others the outermost on each side; one by an edge is none."""
    points = [(50.0, 30.0), (10.0, 30.0), (90.0, 30.0), (50.0, 8.0), (50.0, 52.0), (99.0, 30.0), (40.0, 28.0)]
    assert balloons.feet(points, engine())[0] == (50.0, 30.0)
    assert set(balloons.feet(points, engine())) == {points[0], points[1], points[2], points[3], points[4]}


def test_the_shortest_leader_is_taken() -> None:
    feet = [(50.0, 30.0), (92.0, 30.0)]
    records, missed = balloons.place([(1, feet)], engine(), 3.5)
    (leader,) = [r for r in records if isinstance(r, Line)]
    assert not missed and leader.a == (92.0, 30.0) and math.dist(leader.a, leader.b) < 20


def test_no_balloon_stands_among_dimension_lines() -> None:
    """Between a view and its dimension lines a number would be read as one of their figures."""
    free, lined = engine(), engine()
    for y in (-24.0, -31.0):
        lined.occupied.add_line((0.0, y), (100.0, y), "dimension")
    spot = [(30.0, 8.0)]
    below, aside = (
        next(r.centre for r in balloons.place([(1, spot)], of, 3.5)[0] if isinstance(r, Arc)) for of in (free, lined)
    )
    assert below[1] < 0.0
    assert not (-5.0 < aside[0] < 105.0 and -31.0 < aside[1] < 0.0)


@pytest.mark.parametrize(
    ("name", "view", "least"),
    [("bookcase", "right", 10), ("wall-shelf", "right", 3), ("dovetailed-box", "right", 0), ("settle", "right", 0)],
)
def test_a_blank_side_shows_its_trenches_as_hidden_lines(name: str, view: str, least: int) -> None:
    """Two long edges for each of five housings of the bookcase; none where the view shows ends of other parts."""
    of = context(name, "a4")
    whole = Whole(of.piece, of.solids)
    whole.drawn(view, 0.5)
    found = whole.within(view, 30.0)
    assert len(found) >= least and bool(found) == bool(least)


def test_the_line_that_explains_missing_numbers_stands_where_some_are_missing() -> None:
    (table,), (stool,) = made("side-table", "a4"), made("splayed-stool", "a4")
    assert parts_list.SHARED in {t.text for t in texts(table)}
    assert parts_list.SHARED not in {t.text for t in texts(stool)}  # 1 seat, 2 legs


def test_that_line_is_no_wider_than_the_table_above_it() -> None:
    """On a large paper the table stands beside the views, and is narrow."""
    of = context("map-case", "a3")
    listed = parts_list.noted(of, ([], 0.0), 90.0, 50.0)[0]
    lines = [t for t in listed if isinstance(t, Text)]
    assert len(lines) > 1 and all(box(t, of.metrics).bounds()[2] <= 90.0 for t in lines)
