"""The splayed stool and the tool tote: shapes, leans and curves against figures worked out by hand."""

from dataclasses import replace
from math import asin, atan, cos, degrees, hypot, pi, radians, sqrt, tan

import pytest

from docgen.checks.run import findings
from docgen.drawing.choose import figures
from docgen.piece.kinds import kinds
from docgen.piece.operations.cut_out import RoundOut
from docgen.piece.records import Feature, SizeKind, Stage
from docgen.piece.solids import Solids
from docgen.schedules.make import schedules
from docgen.schedules.templates import templates
from tests.examples.test_pieces import example

SPANDREL = 0.125**2 * (1 - pi / 4)  # between an arris and the 1/8 in that it is eased to, in²


def tilt(a: float, b: float) -> tuple[float, float]:
    x, y = tan(radians(a)), tan(radians(b))
    return degrees(atan(hypot(x, y))), degrees(atan(y / x))


def test_stool_seat_is_a_disc_with_four_sockets() -> None:
    stool = example("splayed-stool")
    lean = radians(tilt(14, 11)[0])
    rims = 2 * 36 * (1 - pi / 4) * 2 * pi * (165 - 6 * 0.2234)  # Pappus; the spandrel's centroid lies 0.2234 r in
    sockets = 4 * pi * 12.5**2 * 36 / cos(lean)
    assert stool.volume("seat") == pytest.approx(pi * 165**2 * 36 - rims - sockets, rel=1e-3)


def test_stool_sockets_are_set_by_lean_and_sight_line() -> None:
    stool = example("splayed-stool")
    lean, sight = tilt(11, 14)
    rows = schedules(stool.piece, stool.solids, kinds(stool.piece, stool.solids)).chart
    assert [r.name for r in rows] == ["A", "B", "C", "D"]
    for row in rows:
        assert f"leans ≈{lean:.2f}° from square (≈{90 - lean:.2f}° from the face)" in row.hole.note
        assert f"swung ≈{sight:.2f}° to the" in row.hole.note


def test_stool_legs_are_one_kind_in_the_sockets_axes() -> None:
    stool = example("splayed-stool")
    made = kinds(stool.piece, stool.solids)
    assert [(k.count, len(k.mirrored)) for k in made] == [(1, 0), (4, 0)]
    seat = stool.piece.part("seat")
    for leg, name in (
        ("front left leg", "A"),
        ("front right leg", "B"),
        ("back left leg", "C"),
        ("back right leg", "D"),
    ):
        (hole,) = [h for f in seat.features for h in f.made.holes if h.name == name]
        into = seat.frame.direction(hole.direction)
        axis = stool.piece.part(leg).frame.direction((1.0, 0.0, 0.0))
        assert axis == pytest.approx(into, abs=1e-9)
        mouth = seat.frame.point(tuple(float(c) for c in hole.points[0]))  # type: ignore[arg-type]
        there = stool.piece.part(leg).frame.inverse().point(mouth)
        assert there[1:] == pytest.approx((19, 19), abs=1e-6)


def test_stool_stands_level_on_four_feet() -> None:
    stool = example("splayed-stool")
    for part in stool.piece.parts[1:]:
        low, high = stool.solids.solid(part.path).moved(part.frame).bounds
        assert (low[2], high[2]) == pytest.approx((0, 450), abs=1e-4)


def test_stool_leg_is_turned_and_cut_by_hand_where_it_stands() -> None:
    stool = example("splayed-stool")
    leg = stool.piece.part("front left leg")
    assert sorted(f.word for f in leg.features) == ["kerf", "scribed cut", "scribed cut", "turned"]
    told = [(s.label, float(s.value)) for f in leg.features for s in f.made.sizes if s.kind is SizeKind.DIAMETER]
    assert [t for t in told if t[0] != "crown"] == [("A", 26), ("B", 38), ("C", 30), ("D", 30), ("E", 25), ("F", 25)]
    # Over the bead: its radius 7.5 stands 7.5 − √(7.5² − 6²) over a chord of 12. (Geometry of the circle.)
    assert [value for label, value in told if label == "crown"] == [pytest.approx(30 + 2 * (7.5 - 4.5))]
    marks = [m.label for f in leg.features if f.word == "turned" for m in f.made.marks]
    assert marks == ["A ⌀26", "B ⌀38", "C ⌀30, bead begins", "D ⌀30", "E ⌀25", "F ⌀25"]


def test_tote_ends() -> None:
    tote = example("tool-tote")
    radius = (6**2 + 4 * 1.75**2) / (8 * 1.75)  # chord 6, rise 1 3/4
    end = tote.piece.part("left end")
    (told,) = [s for f in figures(end) for s in f.sizes if s.kind is SizeKind.RADIUS and s.label != "eased"]
    assert float(told.value) == pytest.approx(radius * 25.4)
    # The rounded trapezium: below the chord at 11 1/4 the taper, above it the arc between the slopes.
    slope = 2.75 / 13
    chord_up = 11.25

    def half(up: float) -> float:
        middle = 13 - radius
        arc = sqrt(radius**2 - (up - middle) ** 2) if up > middle else radius
        return min(5.25 - slope * up, arc if up > chord_up else 9)

    steps = 20000
    area = sum(2 * half(13 * (k + 0.5) / steps) for k in range(steps)) * 13 / steps
    dado = 0.25 * sum(2 * half(0.5 + 0.75 * (k + 0.5) / steps) for k in range(steps)) * 0.75 / steps
    meets = max(13 * k / steps for k in range(steps) if 5.25 - slope * 13 * k / steps < half(13 * k / steps) + 1e-9)
    eased = 2 * SPANDREL * 2 * radius * asin((5.25 - slope * meets) / radius)
    left = area * 0.75 - pi * 0.625**2 * 0.75 - dado - eased
    assert tote.volume("left end") / 25.4**3 == pytest.approx(left, rel=2e-4)


def test_tote_sides_and_hand_hole() -> None:
    tote = example("tool-tote")
    slant = 6 / cos(atan(2.75 / 13))
    plain = 24.5 * slant * 0.5
    hand = (2.75 * 1.25 + pi * 0.625**2) * 0.5
    # No. 6: clearance 9/64, a head of 2 · 0.138 in a countersink of 82°.
    r, wide = 9 / 128, 0.138
    deep = (wide - r) / tan(radians(41))
    screws = 6 * (pi * r**2 * (0.5 - deep) + pi * deep / 3 * (wide**2 + wide * r + r**2))
    eased = 2 * SPANDREL * (2 * 2.75 + 2 * pi * (0.625 + 0.125 * 0.2234))
    assert tote.volume("back") / 25.4**3 == pytest.approx(plain - hand - screws - eased, rel=1e-4)
    lowest = slant - 1
    _, high = tote.solids.solid("front").bounds
    assert high[1] / 25.4 == pytest.approx(slant - 1 / 8)
    solid = tote.solids.solid("front")
    middle = 12.25 * 25.4
    assert solid.contains((middle, (lowest - 0.001) * 25.4, 6)) and not solid.contains(
        (middle, (lowest + 0.001) * 25.4, 6)
    )


def test_tote_templates_show_the_whole_ends_and_the_hand_hole() -> None:
    tote = example("tool-tote")
    rows = templates(tote.piece, kinds(tote.piece, tote.solids), tote.solids)
    by_part = {r.parts[0]: r for r in rows}
    assert by_part["left end"].parts == ("left end", "right end")
    assert len(by_part["left end"].seen.holes) == 1
    assert len(by_part["back"].seen.openings) == 1
    assert not by_part["front"].seen.radii


@pytest.mark.parametrize("name", ["splayed-stool", "tool-tote"])
def test_no_finding_but_how_it_stands(name: str) -> None:
    piece = example(name)
    same = kinds(piece.piece, piece.solids)
    lists = schedules(piece.piece, piece.solids, same)
    assert {f.code for f in findings(piece.piece, piece.solids, same, lists)} <= {"stability"}


def test_tote_hand_hole_keeps_its_exact_radius() -> None:
    tote = example("tool-tote")
    rows = templates(tote.piece, kinds(tote.piece, tote.solids), tote.solids)
    (opening,) = next(r for r in rows if r.parts[0] == "back").seen.openings
    radii = {hypot(e.end[0] - e.centre[0], e.end[1] - e.centre[1]) for e in opening.edges if e.centre is not None}
    assert [round(r / 25.4, 9) for r in radii] == [0.625]


def test_a_smooth_curve_silences_the_radii_of_its_whole_sheet() -> None:
    """Whichever feature comes first: its many arcs follow a curve that has no radius."""
    tote = example("tool-tote")
    front = tote.piece.part("front")
    (curve,) = [f for f in front.features if f.word == "curved edge"]
    hole = RoundOut(curve.made.templates[0].face, (300, 50), 40)
    made = Feature("cut out 1", "cut out", "cut-out", Stage.PART, hole.made(front))
    for features in ((made, curve), (curve, made)):
        part = replace(front, features=features)
        piece = replace(tote.piece, parts=(part,))
        solids = Solids(piece)
        (row,) = templates(piece, kinds(piece, solids), solids)
        assert not row.seen.radii and len(row.seen.openings) == 1
