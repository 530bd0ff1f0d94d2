import math

import pytest

from docgen.geometry.outlines import area, faults
from docgen.piece.faults import Fault
from docgen.piece.operations.arched_edge import ArchedEdge
from docgen.piece.operations.curved_edge import SMOOTH, CurvedEdge
from docgen.piece.records import Face, SizeKind
from docgen.trade import arcs
from docgen.trade.cutters import WOOD_LEFT
from tests.piece.operations.trial import board, made, proven, taken, worked
from tests.support.by_hand import segment_area

TOP = Face(2, 1)
SIDES = [(Face(2, 1), Face(1, 0)), (Face(2, 1), Face(1, 1)), (Face(2, 0), Face(0, 1)), (Face(2, 0), Face(0, 0)),
         (Face(1, 0), Face(0, 1)), (Face(1, 1), Face(2, 0))]  # fmt: skip


def segment(chord: float, rise: float) -> float:
    radius = arcs.radius(chord, rise)
    return segment_area(radius, arcs.angle(radius, chord))


@pytest.mark.parametrize(("face", "edge"), SIDES)
@pytest.mark.parametrize("crown", [False, True])
def test_arch_on_every_side(face: Face, edge: Face, crown: bool) -> None:
    part = board(400, 120, 60)
    arch = ArchedEdge(face, edge, 12, crown=crown)
    chord = float(part.size[3 - face.axis - edge.axis])
    thick = float(part.size[face.axis])
    goes = segment(chord, 12)
    goes = chord * 12 - goes if crown else goes
    assert taken(arch, part) == pytest.approx(goes * thick, rel=2e-3)
    proven(arch, part, derived=[""])
    assert worked(arch, part).pieces == 1


def test_arch_over_a_part_of_the_edge() -> None:
    arch = ArchedEdge(TOP, Face(1, 0), 15, 50, 250)
    assert taken(arch, board()) == pytest.approx(segment(200, 15) * 20, rel=2e-3)
    proven(arch, board(), derived=[""])
    radius = [s for s in made(arch, board()).sizes if s.kind is SizeKind.RADIUS]
    assert [s.value for s in radius] == [arcs.radius(200, 15)]
    assert [(m.position, m.wood) for m in made(arch, board()).marks] == [(50, -1), (150, 0), (250, 1)]


@pytest.mark.parametrize("crown", [False, True])
def test_half_an_ellipse(crown: bool) -> None:
    arch = ArchedEdge(TOP, Face(1, 1), 50, shape="ellipse", crown=crown)
    half = math.pi * 200 * 50 / 2
    assert taken(arch, board()) == pytest.approx((400 * 50 - half if crown else half) * 20, rel=1e-3)
    proven(arch, board())


def test_the_strings_pins_stand_in_the_foci() -> None:
    values = {
        n: v for n, v, _ in made(ArchedEdge(TOP, Face(1, 1), 60, 100, 300, "ellipse"), board()).settings[0].values
    }
    assert values["pins for a string, apart"] == 160  # half axes 100 and 60: √(100² − 60²) = 80
    assert values["string round both pins and the pencil"] == 360


@pytest.mark.parametrize(("face", "edge"), SIDES)
def test_arc_through_three_points_on_every_side(face: Face, edge: Face) -> None:
    part = board(400, 120, 60)
    along = 3 - face.axis - edge.axis
    long, wide = float(part.size[along]), float(part.size[edge.axis])

    def on(x: float, d: float) -> tuple[float, float]:
        deep = wide - d if edge.side else d
        return (x, deep) if along < edge.axis else (deep, x)

    curve = CurvedEdge(face, edge, (on(5, 4), on(long / 2, 10), on(long - 5, 4)))
    chord = long - 10
    goes = segment(chord, 6) + 4 * chord
    assert taken(curve, part) == pytest.approx(goes * float(part.size[face.axis]), rel=2e-3)
    proven(curve, part, derived=[""])


def test_an_arc_between_corners() -> None:
    curve = CurvedEdge(TOP, Face(1, 1), ((0, 100), (200, 120), (400, 100)))
    assert taken(curve, board()) == pytest.approx((400 * 20 - segment(400, 20)) * 20, rel=2e-3)
    values = {n: v for n, v, _ in made(curve, board()).settings[0].values}
    assert values == {"radius": 1010, "chord": 400, "rise over the chord": 20}  # (400² + 4·20²) / (8·20)


def test_smooth_curve_passes_its_points() -> None:
    points = ((10, 90), (100, 108), (200, 80), (300, 100), (390, 70))
    curve = CurvedEdge(TOP, Face(1, 1), points, SMOOTH)
    proven(curve, board())
    solid = worked(curve, board())
    for x, y in points[1:-1]:
        assert solid.contains((x, y - 0.02, 10)) and not solid.contains((x, y + 0.02, 10))
    (template,) = made(curve, board()).templates
    assert not template.radii and template.whole
    assert not faults(template.outline)
    assert area(template.outline) + area(template.waste[0]) == pytest.approx(400 * 120)
    assert any("batten" in n for n in template.notes)


def test_template_of_an_arc_holds_one_true_arc() -> None:
    (template,) = made(ArchedEdge(TOP, Face(1, 0), 15), board()).templates
    arcs_in = [e for e in template.outline.edges if e.centre is not None]
    assert len(arcs_in) == 1 and template.radii
    assert area(template.outline) == pytest.approx(400 * 120 - segment(400, 15))
    assert area(template.waste[0]) == pytest.approx(segment(400, 15))
    assert template.datum == (((0.0, 120.0), (400.0, 120.0)), ((0.0, 120.0), (0.0, 0.0)))


def test_trimming_tells_the_bit_that_still_fits() -> None:
    saw, trim = made(ArchedEdge(TOP, Face(1, 0), 20, 100, 180), board()).settings
    assert (saw.machine, trim.machine) == ("band saw", "router")
    assert ("flush cutter with a bearing", "any diameter", "text") in trim.values  # chord 80, rise 20: radius 50
    crown = made(ArchedEdge(TOP, Face(1, 0), 20, crown=True), board()).settings[1]
    assert ("flush cutter with a bearing", "any diameter", "text") in crown.values
    assert ("cutting edge, more than", 20, "length") in crown.values
    tight = made(ArchedEdge(TOP, Face(1, 0), 8, 100, 120), board()).settings[1]  # chord 20, rise 8: radius 10.25
    assert tight.values[0] == ("flush cutter with a bearing, diameter at most", 20.5, "length")


@pytest.mark.parametrize(
    ("operation", "says"),
    [
        (ArchedEdge(TOP, Face(1, 1), 12, crown=True), "only down the slope; for what then runs up it, turn part and"),
        (CurvedEdge(TOP, Face(1, 1), ((0, 100), (200, 90), (400, 60)), SMOOTH), "down the slope: the template on that"),
        (
            ArchedEdge(TOP, Face(0, 1), 12, crown=True),
            "only toward the end of the part; for what then runs away from it, turn",
        ),
        (ArchedEdge(Face(0, 1), Face(1, 1), 5), "on the left of the travel"),
    ],
)
def test_a_trimmed_curve_runs_with_the_grain_and_never_with_the_cutter(operation, says: str) -> None:  # type: ignore[no-untyped-def]
    # A crown falls both ways: one way round it, half is either a climbing cut or one against the grain.
    trim = made(operation, board()).settings[1]
    assert trim.feed.startswith(WOOD_LEFT) and says in trim.feed
    assert ("turn part and template over" in trim.feed) is ("only" in says)


def test_cautions() -> None:
    keys = [c.key for c in made(ArchedEdge(TOP, Face(1, 0), 15), board()).cautions]
    assert keys == ["band saw", "bearing-guided bit", "router"]


@pytest.mark.parametrize(
    ("operation", "code"),
    [
        (ArchedEdge(TOP, Face(1, 0), 120), "curve-depth"),
        (ArchedEdge(TOP, Face(1, 0), 201), "curve-rise"),
        (ArchedEdge(TOP, Face(1, 0), 10, 50, crown=True), "crown-reach"),
        (ArchedEdge(TOP, Face(1, 0), 10, 250, 200), "run-range"),
        (ArchedEdge(TOP, Face(1, 0), 10, 250, 450), "curve-outside"),
        (ArchedEdge(TOP, Face(2, 0), 10), "curve-edge"),
        (CurvedEdge(TOP, Face(1, 0), ((0, 5), (200, 10))), "curve-points"),
        (CurvedEdge(TOP, Face(1, 0), ((0, 5), (200, 10), (200, 15))), "curve-returns"),
        (CurvedEdge(TOP, Face(1, 0), ((10, 0), (20, 60), (40, 0))), "curve-returns"),
        (CurvedEdge(TOP, Face(1, 0), ((0, 5), (200, 130), (400, 5))), "curve-depth"),
        (CurvedEdge(TOP, Face(1, 0), ((0, 5), (100, -5), (400, 5))), "curve-outside"),
        (CurvedEdge(TOP, Face(1, 0), ((0, 2), (100, 30), (200, 2), (400, 30)), SMOOTH), "curve-outside"),
    ],
)
def test_impossible_curves(operation: ArchedEdge | CurvedEdge, code: str) -> None:
    with pytest.raises(Fault) as fault:
        operation.made(board())
    assert fault.value.code == code


def test_edges_meet_without_corners_on_the_solid() -> None:
    from docgen.geometry.topology import SHARP, topology

    curve = CurvedEdge(TOP, Face(1, 1), ((0, 90), (100, 108), (200, 80), (300, 100), (400, 70)), SMOOTH)
    shape = topology(worked(curve, board()))
    upright = [e for e, kind in zip(shape.edges, shape.edge_kind, strict=True) if kind == SHARP
               and abs(shape.points[e[0]][2] - shape.points[e[1]][2]) > 1]  # fmt: skip
    assert len(upright) == 4  # the corners of the board alone
