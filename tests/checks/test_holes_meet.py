from dataclasses import replace

import pytest

from docgen.checks import holes_meet
from docgen.checks.finding import Grade
from docgen.piece.model import Piece
from docgen.piece.records import Face, HoleRow, Made, Purpose
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece


def row(name: str, face: Face, point: tuple[float, float, float], way: tuple[float, float, float], *, diameter: float = 6.0,
        depth: float | None = 20.0) -> HoleRow:  # fmt: skip
    return HoleRow(name, Purpose.TAPPED, face, (point,), way, diameter, f"{diameter} mm", depth)


def leg(*rows: HoleRow) -> Piece:
    """A leg 40 × 40, 700 long, with rows of holes."""
    features = tuple(feature(f"hole {r.name}", Made(holes=(r,)), title=f"holes {r.name}") for r in rows)
    return piece(part("leg", ((0, 40), (0, 40), (0, 700)), features=features))


@pytest.mark.parametrize(
    ("apart", "grade", "code"),
    [
        (7.6, None, ""),
        (7.4, Grade.CARE, "holes-close"),
        (6.1, Grade.CARE, "holes-close"),
        (5.9, Grade.STOP, "holes-meet"),
    ],
)
def test_two_holes_that_cross(apart: float, grade: Grade | None, code: str) -> None:
    """One from the broad face at 350, one from the edge `apart` further along: their lines cross square."""
    one = row("A", Face(2, 0), (350.0, 20.0, 0.0), (0.0, 0.0, 1.0), depth=30.0)
    other = row("B", Face(1, 0), (350.0 + apart, 0.0, 20.0), (0.0, 1.0, 0.0), depth=30.0)
    findings = found(holes_meet, leg(one, other))
    assert [(f.grade, f.code) for f in findings] == ([(grade, code)] if grade else [])
    for f in findings:
        assert f.figures[0][1] == pytest.approx(apart - 6, abs=1e-9)


@pytest.mark.parametrize(("deep", "expected"), [(12.4, []), (12.6, ["holes-close"]), (14.1, ["holes-meet"])])
def test_a_hole_that_ends_before_another(deep: float, expected: list[str]) -> None:
    """The end of the first is told by its middle line: 20 − deep − 6 of wood up to the second."""
    one = row("A", Face(2, 0), (350.0, 20.0, 0.0), (0.0, 0.0, 1.0), depth=deep)
    other = row("B", Face(1, 0), (350.0, 0.0, 20.0), (0.0, 1.0, 0.0), depth=30.0)
    assert codes(holes_meet, leg(one, other)) == expected


def test_a_bore_and_the_hole_in_its_bottom_are_one() -> None:
    bore = row("A", Face(2, 0), (350.0, 20.0, 0.0), (0.0, 0.0, 1.0), diameter=12.0, depth=8.0)
    inside = row("B", Face(2, 0), (350.0, 20.0, 0.0), (0.0, 0.0, 1.0), diameter=4.0, depth=30.0)
    assert codes(holes_meet, leg(bore, inside)) == []


def test_parallel_holes_count_by_their_spacing() -> None:
    for spacing, expected in ((7.6, []), (7.4, ["holes-close"])):
        points = ((300.0, 20.0, 0.0), (300.0 + spacing, 20.0, 0.0))
        many = HoleRow("A", Purpose.PILOT, Face(2, 0), points, (0.0, 0.0, 1.0), 6.0, "6 mm", 10.0)
        assert codes(holes_meet, leg(many)) == expected


def test_slanting_holes() -> None:
    """Two lines at 45° through one point meet; moved aside by more than both radii and the wall, they do not."""
    k = 2**-0.5
    one = row("A", Face(2, 0), (300.0, 20.0, 0.0), (k, 0.0, k), depth=40.0)
    for aside, expected in ((0.0, ["holes-meet"]), (7.4, ["holes-close"]), (7.6, [])):
        other = row("B", Face(2, 0), (340.0, 20.0 + aside, 0.0), (-k, 0.0, k), depth=40.0)
        assert codes(holes_meet, leg(one, other)) == expected


def test_a_bolt_meets_its_barrel_nut_on_purpose() -> None:
    bolt = row("A", Face(2, 0), (350.0, 20.0, 0.0), (0.0, 0.0, 1.0), depth=30.0)
    nut = row("B", Face(1, 0), (350.0, 0.0, 20.0), (0.0, 1.0, 0.0), diameter=10.0, depth=30.0)
    assert codes(holes_meet, leg(bolt, nut)) == ["holes-meet"]
    assert codes(holes_meet, leg(bolt, replace(nut, meets="A"))) == []
    assert codes(holes_meet, leg(bolt, replace(nut, meets="C"))) == ["holes-meet"]
