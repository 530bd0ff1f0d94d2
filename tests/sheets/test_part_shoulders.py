"""A figure has a line or a cross to measure to: a shoulder that is not cut, the middle of a mortise."""

from docgen.drawing.records import Line
from docgen.geometry.lines import Drawn
from docgen.piece.records import Stage
from docgen.sheets.part_centres import crosses
from docgen.sheets.part_shoulders import lines, shoulder_lines
from docgen.sheets.part_view import Subject, wanted_in
from tests.sheets.test_rank import bench


def subject(name: str, path: str) -> Subject:
    b = bench(name)
    return Subject(b.piece.part(path), b.solids, b.piece.units, True)


def test_a_tongue_as_thick_as_its_part_has_its_shoulder_line_drawn_at_both_ends() -> None:
    rail = subject("wall-shelf", "rail")
    for station in rail.stations(False):
        drawn, bounds = rail.drawn(station, False, Stage.PART), rail.bounds(station, False)
        found = shoulder_lines(rail.part, station, drawn, wanted_in(rail, station), bounds)
        assert [(axis, at) for axis, at, *_ in found] == [(0, 0.0), (0, 760.0)]
        (one, _) = lines(found, 0.5)
        assert isinstance(one, Line) and one.a[0] == one.b[0] == 0.0
        assert not shoulder_lines(rail.part, station, drawn, (), bounds)  # nothing is measured from it


def test_a_shoulder_that_is_cut_needs_no_line() -> None:
    apron = subject("side-table", "front apron")
    for station in apron.stations(False):
        drawn, bounds = apron.drawn(station, False, Stage.PART), apron.bounds(station, False)
        assert shoulder_lines(apron.part, station, drawn, wanted_in(apron, station), bounds) == []


def test_a_mortise_has_a_cross_in_its_middle_and_an_edge_has_none() -> None:
    leg = subject("side-table", "front left leg")
    station = next(s for s in leg.stations(False) if s.face == leg.first)
    made = crosses(wanted_in(leg, station), leg.drawn(station, False, Stage.PART), (), 1.0)
    middles = {((r.a[0] + r.b[0]) / 2, (r.a[1] + r.b[1]) / 2) for r in made if isinstance(r, Line)}
    assert middles == {(492.0, -14.0)}
    assert len(crosses(wanted_in(leg, station), Drawn((), ()), (), 1.0)) > len(made)
