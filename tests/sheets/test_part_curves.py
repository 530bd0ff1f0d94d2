"""The points of a curve stand in a table as pairs, with their numbers in the view."""

import pytest

from docgen.drawing.dimensions.wanted import Callout, Linear
from docgen.drawing.records import Arc, Line, Pen
from docgen.geometry.lines import ArcOf, Drawn, Stroke
from docgen.piece.records import Stage
from docgen.sheets.part_centres import crosses, drawn_on
from docgen.sheets.part_curves import ticks
from docgen.sheets.part_view import wanted_in
from docgen.sheets.part_words import table_rows
from tests.sheets.test_part_blank import principal
from tests.sheets.test_part_shoulders import subject


def test_station_and_height_of_each_point_stand_in_one_row() -> None:
    front = subject("tool-tote", "front")
    ((caption, rows),) = table_rows(front)
    assert caption == "Points of the curved edge, as on its template:"
    assert rows[0] == ("point", "from left end", "from bottom edge")
    assert [row[:2] for row in rows[1:]] == [
        ("1", "0"), ("2", "6 1⁄4"), ("3", "12 1⁄4"), ("4", "18 1⁄4"), ("5", "24 1⁄2"),
    ]  # fmt: skip
    assert [row[2].split(" ")[0] for row in rows[1:]] == ["6.008", "5.758", "5.133", "5.758", "6.008"]


def test_what_the_table_tells_is_no_figure_of_the_view() -> None:
    front = subject("tool-tote", "front")
    station = principal(front)
    wanted = wanted_in(front, station)
    numbers = [w for w in wanted if isinstance(w, Callout) and w.near and w.key.startswith("pin")]
    assert [w.lines for w in numbers] == [(str(n),) for n in range(1, 6)]
    told = {s.parameters for w in numbers for s in w.sizes}
    assert told == {(f"points.{n}.{k}",) for n in range(5) for k in (0, 1)} - {("points.0.0",)}
    placed = [s for w in numbers for s in w.sizes]
    assert not any(s in placed for w in wanted if isinstance(w, Linear) and not w.overall for s in w.sizes)
    marks = ticks(front.pins, station, 0.25, front.gone)
    assert len(marks) == 10 and isinstance(marks[0], Line) and marks[0].a[1] == pytest.approx(numbers[0].at[1] / 4)


def test_an_arc_through_three_points_keeps_its_figures_in_the_view() -> None:
    end = subject("tool-tote", "left end")
    assert end.pins == () and table_rows(end) == []


def test_a_slanted_edge_and_an_arc_are_drawn_on_to_a_point_in_the_air() -> None:
    edge = Stroke((0.0, 0.0), (100.0, 20.0), 0)
    assert drawn_on((120.0, 24.0), Drawn((edge,), ()), 0.5) == [Line((50.0, 10.0), (60.0, 12.0), Pen.THIN)]
    assert drawn_on((120.0, 24.1), Drawn((edge,), ()), 0.5) == []  # beside it
    assert drawn_on((160.0, 32.0), Drawn((edge,), ()), 0.5) == []  # too far off
    assert drawn_on((120.0, 0.0), Drawn((Stroke((0.0, 0.0), (100.0, 0.0), 0),), ()), 0.5) == []  # level: by chance
    quarter = Stroke((10.0, 0.0), (0.0, 10.0), 0, arc=ArcOf((0.0, 0.0), 10.0, 0.0, 90.0))
    (arc,) = drawn_on((-5.0, 75.0**0.5), Drawn((quarter,), ()), 2.0)
    assert isinstance(arc, Arc) and (arc.radius, arc.start) == (20.0, 90.0) and arc.end == pytest.approx(120.0)
    (back,) = drawn_on((75.0**0.5, -5.0), Drawn((quarter,), ()), 2.0)
    assert isinstance(back, Arc) and back.start == pytest.approx(-30.0) and back.end == 0.0
    assert drawn_on((-10.0, 0.0), Drawn((quarter,), ()), 2.0) == []  # ninety degrees on


def test_the_ends_of_the_totes_arc_hang_on_lines() -> None:
    end = subject("tool-tote", "left end")
    station = principal(end)
    made = crosses(wanted_in(end, station), end.drawn(station, False, Stage.PART), (), 1.0)
    assert sum(isinstance(r, Arc) for r in made) == 2
    assert sum(isinstance(r, Line) and min(abs(r.a[0] - r.b[0]), abs(r.a[1] - r.b[1])) > 0.1 for r in made) == 2
