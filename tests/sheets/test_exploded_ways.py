"""The lines of an exploded view along which parts go together: one kind of line, from where they meet to where they meet."""

from __future__ import annotations

import math

import numpy as np
import pytest

from docgen.drawing.records import Line, Pen
from docgen.schedules.partings import partings
from docgen.sheets import exploded
from tests.sheets.test_joinery import context, pages


@pytest.mark.parametrize("name", ["splayed-stool", "dovetailed-box", "bookcase", "side-table"])
def test_ways_are_chain_lines_long_enough_to_show_it(name: str) -> None:
    (sheet,) = pages("exploded", name)
    ways = [r for r in sheet.records if isinstance(r, Line) and r.pen is Pen.CENTRE]
    assert ways and min(math.dist(w.a, w.b) for w in ways) >= exploded.BIT


def test_a_splayed_leg_leaves_along_its_own_axis_and_its_way_runs_there() -> None:
    of = context("splayed-stool")
    made = exploded._scattered(of)
    legs = [p for p in of.piece.parts if p.path.endswith("leg")]
    links = {link.part: link for link in made.links}
    assert len(legs) == 4
    for leg in legs:
        axis = np.array(leg.frame.direction((1.0, 0.0, 0.0)))
        gone = np.array(made.moves[leg.path]) - np.array(made.moves["seat"])
        assert np.linalg.norm(np.cross(gone, axis)) < 0.05 < np.linalg.norm(gone)
        middle = np.array(leg.frame.point((0.0, float(leg.size[1]) / 2, float(leg.size[2]) / 2)))
        off = np.array(links[leg.path].spot) - middle
        assert np.linalg.norm(np.cross(off, axis)) < 0.05  # where it meets the seat lies on the axis


def test_a_raked_leg_meets_its_case_at_its_bolts() -> None:
    """The upright boxes about a raked leg and the case share a place that lies beside the leg."""
    of = context("sketching-desk")
    found = [p for p in partings(of.piece) if {p.part, p.other} == {"case.left", "stand.left front"}]
    assert found
    for link in found:
        leg = of.piece.part("stand.left front")
        _, wide, _ = leg.frame.inverse().point(link.spot)
        assert 0.0 < wide < float(leg.size[1])


def test_wedges_have_a_line_to_the_socket_that_they_are_driven_into() -> None:
    of = context("splayed-stool")
    made = exploded._scattered(of)
    things = [t for joint in of.piece.joints for t in joint.loose]
    assert len(made.drawn_out) == len(things) == 4
    for thing, (at, home) in zip(things, made.drawn_out, strict=True):
        way = np.array(thing.frame.direction(thing.leaves))
        assert np.linalg.norm(np.cross(np.array(at) - np.array(home), way)) < 1e-6


def test_a_short_stretch_that_comes_from_nowhere_is_left_out() -> None:
    """Between two shelves a bit of the way behind them would tell nothing; near an end of its way it does."""
    route = ((0.0, 0.0), (100.0, 0.0), (100.0, 80.0))
    ends = [(40.0, 60.0), (2.0, 22.0), (30.0, 75.0), (99.0, 100.0)]
    ways = [exploded.Way((a, 0.0), (b, 0.0), route) for a, b in ends]
    told = [(line.a[0], line.b[0]) for line in exploded._way_lines(ways, 1.0, (0.0, 0.0)) if isinstance(line, Line)]
    assert told == [(2.0, 22.0), (30.0, 75.0)]
