import math
from dataclasses import replace

import numpy as np
import pytest

from docgen.drawing.tiling.gauge import gauge_drawing
from docgen.layout.model import Heights
from docgen.piece.kinds import kinds
from docgen.schedules.gauges import gauges
from docgen.schedules.template_rows import Gauge, Turn
from docgen.units import Units
from tests.support.examples import example

ANGLED = ("dovetailed-box", "side-table", "splayed-stool", "step-stool", "tool-tote", "sketching-desk")
CLOSE = 0.02  # degrees


def found(name: str) -> tuple[Gauge, ...]:
    of = example(name)
    return gauges(of.piece, kinds(of.piece, of.solids))


def test_angles_of_one_hole_say_what_each_is_for() -> None:
    """A leg that leans in two views: the drill press is set to the lean along the sight line, to no other of the three."""
    told = {round(g.angle, 2): g.uses[0].rsplit(", ", 1)[1] for g in found("splayed-stool")}
    assert told == {11.0: "as seen from the front", 14.0: "as seen from the side", 17.54: "table tilt"}


def test_the_cone_of_a_countersink_is_no_angle_to_set() -> None:
    for name in ("bookcase", "tool-tote", "map-case"):
        assert not [g for g in found(name) if abs(g.angle - 8) < 0.1], name


def slants(name: str, called: str) -> list[tuple[float, float]]:
    """Return for each slanted plane of a part's solid how it stands to the part's end and to its broad face, degrees."""
    of = example(name)
    part = next(p for p in of.piece.parts if p.called == called)
    vertices, triangles = of.solids.solid(part.path).mesh()
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    sizes = np.linalg.norm(normals, axis=1)
    units = np.unique(np.round(np.abs(normals[sizes > 1.0] / sizes[sizes > 1.0, None]), 5), axis=0)
    return [
        (math.degrees(math.acos(n[0])), math.degrees(math.acos(n[2])))
        for n in units
        if np.max(n) < 0.99999 and np.max(n) > 0.5
    ]


@pytest.mark.parametrize("name", ANGLED)
def test_what_is_from_square_and_what_from_the_edge_agrees_with_the_wood(name: str) -> None:
    """A cut across stands to the end as it is from square; a taper's stands to the edge as it is from the edge."""
    for gauge in found(name):
        assert {use for turn in gauge.turns for use in turn.uses} == set(gauge.uses)
        for turn in gauge.turns:
            square = gauge.angle if turn.square else 90 - gauge.angle
            for use in turn.uses:
                called, what = use.split(": ", 1)
                if "socket" in what:  # a bore has no plane: the leaning holes have tests of their own
                    continue
                to_end, to_face = zip(*slants(name, called), strict=True)
                if turn.other == "edge":
                    assert any(abs(angle - square) < CLOSE for angle in to_end), use
                elif turn.other == "end":
                    assert any(abs(angle - (90 - square)) < CLOSE for angle in to_end), use
                else:
                    assert turn.other == "face"
                    assert any(abs(angle - (90 - square)) < CLOSE for angle in to_face), use


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("sketching-desk", "60° from square, 30° from the edge for left rear leg: end against left front leg."),
        ("sketching-desk", "14° from square, 76° from the edge for left front leg: level top; "),
        ("side-table", "≈87.82° from square, ≈2.18° from the edge for front left leg: taper."),
        ("tool-tote", "≈87.82° from square"),
        ("tool-tote", "≈78.06° from square, ≈11.94° from the edge for left end: taper."),
        ("tool-tote", "≈11.94° from square, ≈78.06° from the face for bottom: bevel."),
        ("dovetailed-box", "≈7.13° from square, ≈82.87° from the end or face for left side: tails into front; "),
    ],
)
def test_a_gauge_says_for_each_use_what_its_angles_are_from(name: str, told: str) -> None:
    """By hand: the desk's leg is cut 60° off square; a taper of 16 in 420 lies atan(16 / 420) = 2.18° to its edge."""
    units = example(name).piece.units
    lines = [line for g in found(name) for line in gauge_drawing(g, units, Heights()).lines]
    assert any(line.startswith(told) for line in lines) is (told != "≈87.82° from square")


def test_a_gauge_always_says_what_its_corners_are_from() -> None:
    def corners(*turns: Turn) -> list[tuple[str, ...]]:
        gauge = Gauge(30.0, tuple(use for turn in turns for use in turn.uses), turns)
        labels = gauge_drawing(gauge, Units("mm"), Heights()).labels
        return [tuple(row.text for row in label.rows) for label in labels[:2]]

    steep, mild = Turn(False, "edge", ("leg: end",)), Turn(True, "face", ("rail: end",))
    assert corners(steep) == [("30°", "from the edge"), ("60°", "from square")]
    assert corners(mild) == [("30°", "from square"), ("60°", "from the face")]
    assert corners(mild, replace(mild, other="edge")) == [("30°", "from square"), ("60°", "from the face or edge")]
    assert corners(steep, mild) == [("30°", "from square or the edge"), ("60°", "from square or the face")]


@pytest.mark.parametrize("name", ["step-stool", "dovetailed-box", "sketching-desk", "tool-tote", "splayed-stool"])
def test_no_gauge_of_the_examples_leaves_open_what_its_angles_are_from(name: str) -> None:
    for gauge in found(name):
        labels = gauge_drawing(gauge, example(name).piece.units, Heights()).labels[:2]
        assert all("from" in label.rows[1].text for label in labels)
