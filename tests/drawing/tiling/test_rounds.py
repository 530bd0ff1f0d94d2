"""What a template tells of its arcs and of the points of its curve."""

import math

from docgen.drawing.records import Line
from docgen.drawing.tiling.crop import Crop
from docgen.drawing.tiling.rounds import SMALL
from docgen.drawing.tiling.template import TemplateArt
from docgen.geometry.curves import arc_through
from docgen.geometry.shapes import Edge, Outline
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.records import Face, Template
from docgen.schedules.template_rows import TemplateRow
from docgen.units import Units

WIDE, HIGH = 300.0, 120.0


def art(template: Template, window: tuple[float, float, float, float] = (-200.0, -200.0, 500.0, 330.0)) -> TemplateArt:
    sides = ("left end", "right end", "front edge", "back edge")
    row = TemplateRow("curved edge", template, "top face", *sides, ("rail",), (1,), 1, size=(WIDE, HIGH))
    return TemplateArt(row, Crop(window), units=Units(), layout=read_layout("a4"), metrics=PacketMetrics())


def told(made: TemplateArt) -> dict[tuple[str, ...], tuple[float, float]]:
    return {tuple(row.text for row in label.rows): label.at for label in made.labels()}


def hollow(rise: float) -> Outline:
    """A board whose back edge is hollowed by an arc from 100 to 200, `rise` deep."""
    run = arc_through((200.0, HIGH), (150.0, HIGH - rise), (100.0, HIGH))
    corners = ((0.0, HIGH), (0.0, 0.0), (WIDE, 0.0), (WIDE, HIGH), (200.0, HIGH))
    return Outline((*run, *(Edge(p) for p in corners)))


def test_an_arc_is_told_with_its_centre_and_where_it_begins() -> None:
    # Chord 100, rise 20: radius (50² + 20²) / 40 = 72.5; the centre stands 52.5 over the edge.
    made = art(Template("curved edge", Face(2, 1), hollow(20.0)))
    said = told(made)
    assert said["R 72.5",] == (150.0, 100.0)
    assert said["centre of the arc",] == (150.0, 172.5)
    assert made.told() == ("R 72.5: its centre 150 mm from the left end, 172.5 mm from the front edge.",)


def test_the_centre_of_a_close_arc_is_told_with_its_radius() -> None:
    # Chord 50, rise 25: half a circle, its centre on the edge.
    run = arc_through((175.0, HIGH), (150.0, HIGH - 25.0), (125.0, HIGH))
    corners = ((0.0, HIGH), (0.0, 0.0), (WIDE, 0.0), (WIDE, HIGH), (175.0, HIGH))
    made = art(Template("curved edge", Face(2, 1), Outline((*run, *(Edge(p) for p in corners)))))
    said = told(made)
    assert ("R 25", "its centre", "150 mm from the left end", "120 mm from the front edge") in said
    assert made.told() == () and not any(rows[0].startswith("centre") for rows in said)


def test_both_ends_of_an_arc_are_labelled_and_crossed() -> None:
    made = art(Template("curved edge", Face(2, 1), hollow(20.0)))
    ends = [label.at for label in made.labels() if label.rows[0].text == "arc begins"]
    assert sorted((round(x, 6), round(y, 6)) for x, y in ends) == [(100.0, HIGH), (200.0, HIGH)]
    middles = [((r.a[0] + r.b[0]) / 2, (r.a[1] + r.b[1]) / 2) for r in made.ink() if isinstance(r, Line)]
    for p in (*ends, (150.0, 172.5)):
        assert any(math.dist(p, m) < 1e-6 for m in middles)


def test_a_centre_off_the_drawing_is_told_beside_the_radius() -> None:
    # Rise 1: radius 1250.5, the centre 1249.5 over the edge.
    said = told(art(Template("curved edge", Face(2, 1), hollow(1.0))))
    (rows,) = (rows for rows in said if rows[0].startswith("R "))
    assert rows == ("R 1250.5", "its centre", "150 mm from the left end", "1369.5 mm from the front edge")


def test_of_a_small_arc_the_radius_is_enough() -> None:
    r = SMALL - 1
    edges = (Edge((WIDE, HIGH - r)), Edge((WIDE - r, HIGH), (WIDE - r, HIGH - r)), Edge((0.0, HIGH)), Edge((0.0, 0.0)))
    said = told(art(Template("end", Face(2, 1), Outline((*edges, Edge((WIDE, 0.0)))))))
    assert ("R 5",) in said and not any("arc begins" in rows or rows[0].startswith("centre") for rows in said)


def test_a_disc_has_its_diameter() -> None:
    disc = Outline((Edge((150.0, 0.0), (100.0, 0.0)), Edge((50.0, 0.0), (100.0, 0.0))))
    said = told(art(Template("disc", Face(2, 1), disc)))
    assert ("⌀100",) in said and not any(rows[0].startswith("R ") for rows in said)


def test_points_of_a_curve_are_told_where_they_lie_on_the_outline() -> None:
    points = ((0.0, HIGH, "point 1"), (150.0, HIGH, "point 2"), (250.0, HIGH - 3, "point 3"))
    board = Outline.rectangle(0.0, 0.0, WIDE, HIGH)
    said = told(art(Template("curved edge", Face(2, 1), board, points=points, radii=False)))
    assert said["point 1", "at the left end", "120 mm from the front edge"] == (0.0, HIGH)
    assert ("point 2", "150 mm from the left end", "120 mm from the front edge") in said
    assert not any(rows[0] == "point 3" for rows in said)  # another cut took the wood there
