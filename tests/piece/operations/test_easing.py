"""Eased arrises of openings and curved edges: the wood that goes, by Pappus; every hand, every face."""

import math
from dataclasses import replace

import pytest

from docgen.geometry.topology import SHARP, topology
from docgen.piece.faults import Fault
from docgen.piece.operations.arched_edge import ArchedEdge
from docgen.piece.operations.curved_edge import SMOOTH, CurvedEdge
from docgen.piece.operations.cut_out import HandHole, OvalOut, RoundOut, Window
from docgen.piece.records import Face, SizeKind
from docgen.trade import arcs
from tests.piece.operations.trial import board, made, proven, taken, worked

TOP = Face(2, 1)
R = 3.0
SPANDREL = R * R * (1 - math.pi / 4)
OFF = R * (10 - 3 * math.pi) / (3 * (4 - math.pi))
"""The spandrel's centroid from its corner: moments of square and quarter disc, worked by hand."""


def gone(operation: object, part: object = None) -> float:
    part = part or board()
    return taken(operation, part) - taken(replace(operation, ease=None), part)  # type: ignore[arg-type,type-var]


@pytest.mark.parametrize("face", [Face(2, 0), TOP])
def test_round_opening(face: Face) -> None:
    ring = RoundOut(face, (200, 60), 80, R)
    assert gone(ring) == pytest.approx(2 * SPANDREL * math.tau * (40 + OFF), rel=0.02)
    proven(ring, board())


@pytest.mark.parametrize("face", [Face(2, 0), TOP, Face(1, 0), Face(1, 1), Face(0, 1)])
@pytest.mark.parametrize("turned", [False, True])
def test_hand_hole(face: Face, turned: bool) -> None:
    part = board(400, 200, 160)
    at = {0: (100, 80), 1: (200, 80), 2: (200, 100)}[face.axis]
    hole = HandHole(face, at, (30, 100) if turned else (100, 30), R)
    assert gone(hole, part) == pytest.approx(2 * SPANDREL * (140 + math.tau * (15 + OFF)), rel=0.02)
    proven(hole, part)


def test_window_with_rounded_corners() -> None:
    window = Window(TOP, (150, 60), (100, 60), 10, R)
    assert gone(window) == pytest.approx(2 * SPANDREL * (2 * (80 + 40) + math.tau * (10 + OFF)), rel=0.02)
    proven(window, board())


def test_set_up_and_cautions() -> None:
    answer = made(HandHole(TOP, (200, 60), (100, 30), R), board())
    setting = answer.settings[-1]
    assert (setting.machine, setting.values) == ("router", (("round-over bit, radius", R, "length"),))
    assert setting.what == "hand hole, arrises eased on both faces"
    assert [c.key for c in answer.cautions][-1] == "round over"
    (size,) = [s for s in answer.sizes if s.label == "eased"]
    assert (size.kind, size.value, size.parameters) == (SizeKind.RADIUS, R, ("ease",))


@pytest.mark.parametrize("operation", [RoundOut(TOP, (200, 60), 80, 10.5), Window(TOP, (150, 60), (100, 60), 0.5, 2)])
def test_no_room(operation: RoundOut | Window) -> None:
    with pytest.raises(Fault) as fault:
        operation.made(board())
    assert fault.value.code == "radius-range"


SIDES = [(Face(2, 1), Face(1, 0)), (Face(2, 1), Face(1, 1)), (Face(2, 0), Face(0, 1)), (Face(2, 0), Face(0, 0)),
         (Face(1, 0), Face(0, 1)), (Face(1, 1), Face(2, 0)), (Face(0, 1), Face(2, 1))]  # fmt: skip


@pytest.mark.parametrize(("face", "edge"), SIDES)
@pytest.mark.parametrize("crown", [False, True])
def test_arch_on_every_side(face: Face, edge: Face, crown: bool) -> None:
    part = board(400, 120, 60)
    chord = float(part.size[3 - face.axis - edge.axis])
    arch = ArchedEdge(face, edge, 6, crown=crown, ease=R)
    radius = arcs.radius(chord, 6)
    long = arcs.length(radius, arcs.angle(radius, chord))
    assert gone(arch, part) == pytest.approx(2 * SPANDREL * long, rel=0.04)
    proven(arch, part, derived=[""])


def test_arch_within_an_edge() -> None:
    arch = ArchedEdge(TOP, Face(1, 0), 15, 50, 250, ease=R)
    radius = arcs.radius(200, 15)
    assert gone(arch) == pytest.approx(2 * SPANDREL * arcs.length(radius, arcs.angle(radius, 200)), rel=0.03)
    proven(arch, board(), derived=[""])


@pytest.mark.parametrize(
    "operation",
    [
        CurvedEdge(TOP, Face(1, 1), ((10, 90), (100, 108), (200, 80), (390, 70)), SMOOTH, R),
        ArchedEdge(TOP, Face(1, 1), 50, shape="ellipse", ease=R),
        OvalOut(TOP, (200, 60), (120, 60), R),
    ],
)
def test_curves_that_are_no_arcs_are_eased_by_hand(operation: CurvedEdge | ArchedEdge | OvalOut) -> None:
    with pytest.raises(Fault) as fault:
        operation.made(board())
    assert fault.value.code == "ease-curve"


@pytest.mark.parametrize(
    "operation",
    [HandHole(TOP, (200, 60), (100, 30), R), Window(TOP, (150, 60), (100, 60), 10, R), RoundOut(TOP, (200, 60), 80, R)],
)
def test_no_seam_shows_between_straight_and_round(operation: HandHole | Window | RoundOut) -> None:
    shape = topology(worked(operation, board()))
    assert int((shape.edge_kind == SHARP).sum()) == 12  # the board's own edges


def test_an_arc_from_corner_to_corner_has_no_seam() -> None:
    arch = ArchedEdge(TOP, Face(1, 0), 15, crown=True, ease=R)
    plain = topology(worked(replace(arch, ease=None), board()))
    shape = topology(worked(arch, board()))
    points = shape.points[shape.edges[shape.edge_kind == SHARP]]
    inner = [p for p in points if 1 < p[0][0] < 399 and p[0][1] < 100 and abs(p[0][0] - p[1][0]) > 1e-3]
    assert inner == []
    assert plain is not shape
