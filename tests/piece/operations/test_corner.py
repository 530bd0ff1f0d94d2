import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.corner import CornerRadius
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.records import BOTH, Face
from tests.piece.operations.trial import CHORDS, board, made, proven, worked

TOP = Face(2, 1)


def spandrel(radius: float, degrees: float = 90) -> float:
    """Between a corner of `degrees` and the arc that touches both sides."""
    half = math.radians(degrees) / 2
    return radius * radius * (1 / math.tan(half) - (math.pi / 2 - half))


@pytest.mark.parametrize("first", [Face(0, 0), Face(0, 1)])
@pytest.mark.parametrize("second", [Face(1, 0), Face(1, 1)])
def test_every_corner_of_a_face(first: Face, second: Face) -> None:
    corner = CornerRadius(TOP, first, second, 25)
    lost = 400 * 120 * 20 - worked(corner, board()).volume
    assert lost == pytest.approx(20 * spandrel(25), rel=2 * CHORDS)
    proven(corner, board())


@pytest.mark.parametrize("face", [Face(1, 0), Face(1, 1)])
def test_corner_seen_from_an_edge(face: Face) -> None:
    corner = CornerRadius(face, Face(2, 1), Face(0, 1), 15)
    assert 400 * 120 * 20 - worked(corner, board()).volume == pytest.approx(120 * spandrel(15), rel=2 * CHORDS)


@pytest.mark.parametrize("side", [0, 1])
@pytest.mark.parametrize(("edge", "inside"), [(0, 104), (1, 76)])
def test_corner_at_a_raking_end(side: int, edge: int, inside: float) -> None:
    foot = EndCut(Face(0, side), 300 if side else 60, (14, 0))
    corner = CornerRadius(TOP, Face(0, side), Face(1, edge), 12, foot)
    inside = inside if side else 180 - inside
    both = worked(foot, board()).volume

    class Both:
        word = "both"

        def made(self, part):  # type: ignore[no-untyped-def]
            from dataclasses import replace

            return replace(foot.made(part), cuts=(*foot.made(part).cuts, *corner.made(part).cuts))

    assert both - worked(Both(), board()).volume == pytest.approx(20 * spandrel(12, inside), rel=2 * CHORDS)
    proven(corner, board())


def test_equal_radii_share_a_template() -> None:
    one = made(CornerRadius(TOP, Face(0, 0), Face(1, 0), 25), board()).templates[0]
    two = made(CornerRadius(TOP, Face(0, 1), Face(1, 1), 25), board()).templates[0]
    other = made(CornerRadius(TOP, Face(0, 1), Face(1, 1), 24), board()).templates[0]
    assert one.shared == two.shared != other.shared


def test_tangent_points_are_marked() -> None:
    (mark,) = made(CornerRadius(TOP, Face(0, 1), Face(1, 1), 25), board()).marks
    assert (mark.position, mark.wood) == (375, BOTH)


def test_too_large_a_radius() -> None:
    with pytest.raises(Fault) as fault:
        CornerRadius(TOP, Face(0, 1), Face(1, 1), 121).made(board())
    assert fault.value.code == "radius-range"
