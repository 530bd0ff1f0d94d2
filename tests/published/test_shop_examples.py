"""More worked examples with printed answers: movement, board measure, cutters, bolts, beams, tipping, figures of geometry.

Each has its source beside it. "Answer from memory" marks a textbook whose page was not at hand; inputs were read.
"""

import math
from fractions import Fraction

import pytest

from docgen.checks.bolt_load import worst
from docgen.checks.sag import EYE
from docgen.geometry.outlines import area
from docgen.geometry.shapes import Outline
from docgen.trade import arcs, beams, boards, cutters, density, drills, fasteners, movement, stability
from docgen.trade.names import INCH


def test_movement_of_a_board_of_alder() -> None:
    """A woodworking magazine's chart of movement (2021): red alder, flat-sawn, 8 in, 6 %: 8 × .0026 × 6 = .1248, about 1/8 in."""
    assert movement.change(8, 0.0026, 6, 12) == pytest.approx(0.1248, abs=1e-9)
    assert round(movement.species("red alder").tangential, 4) == 0.0026
    assert movement.change(8, movement.species("red alder").tangential, 6, 12) == pytest.approx(1 / 8, abs=0.003)


BOARD_FEET = [
    # thickness, width in inches, length in inches, printed
    (1, 8, 96, 5.33),  # a lumber calculator's page: 4/4, 8 in, 8 ft
    (Fraction(5, 4), 10, 96, 8.33),  # a board foot calculator's page: 8 ft × 10 in × 1.25 in
    (1, 9, 96, 6),  # a woodworking tips page
    (Fraction(3, 2), 9, 96, 9),  # the same
    (Fraction(3, 4), 9, 96, 6),  # the same: "a 3/4 in thick board is considered to be a full inch thick"
]


@pytest.mark.parametrize(("thick", "wide", "long", "printed"), BOARD_FEET)
def test_board_feet(thick: Fraction | int, wide: int, long: int, printed: float) -> None:
    assert boards.board_feet(thick * INCH, wide * INCH, long * INCH) == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(("rpm", "feet_a_minute"), [(24000, 18850), (10000, 7854)])
def test_rim_speed_of_a_large_bit(rpm: int, feet_a_minute: int) -> None:
    """A router bit speed page: 3 in at 24 000 rpm is 18 850 feet a minute, at 10 000 rpm 7 854."""
    assert cutters.rim_speed(3 * INCH, rpm) * 60 / 0.3048 == pytest.approx(feet_a_minute, abs=1)


def test_bolts_under_a_load_beside_them() -> None:
    """A bolt group example to EN 1993-1-8: 180 kN at 250 mm on 2 × 4 bolts, 90 and 75 mm apart.

    Printed: 22.5 kN as its share; 69.9 and 28.0 kN along the two axes by the moment, 75.3 together.
    """
    bolts = [(x, 0.0, y) for x in (-45.0, 45.0) for y in (-112.5, -37.5, 37.5, 112.5)]
    load = worst(bolts, 180.0, 0, "sideways", 250.0)
    assert load is not None
    assert load.lever == 250
    assert load.even == pytest.approx(22.5)
    assert load.turning == pytest.approx(math.hypot(69.9, 28.0), abs=0.1)


def test_six_bolts_of_a_bracket() -> None:
    """A bolt group example to AS 4100: 2 × 3 bolts, 80 mm gauge and 70 mm pitch: r 80.6 mm, sum of r² 29 200; 120 kN at 200 mm."""
    bolts = [(x, 0.0, y) for x in (-40.0, 40.0) for y in (-70.0, 0.0, 70.0)]
    load = worst(bolts, 120.0, 0, "sideways", 200.0)
    assert load is not None
    assert load.even == 20
    assert load.turning == pytest.approx(120 * 200 * 80.6 / 29200, abs=0.05)


def test_bolts_of_a_textbook() -> None:
    """A textbook of machine design: 16 kN at 425 mm on four bolts 150 × 120 mm apart: r 96.0 mm, 4 and 17.7 kN; from memory."""
    bolts = [(x, 0.0, y) for x in (-75.0, 75.0) for y in (-60.0, 60.0)]
    load = worst(bolts, 16.0, 0, "sideways", 425.0)
    assert load is not None
    assert (load.even, round(load.turning, 1)) == (4, 17.7)


def test_a_plywood_shelf() -> None:
    """A shelf page: 36 in span, 12 in deep, 3/4 in thick, 100 lbf spread: 0.124 in (L/290).

    The page does not print its stiffness; 8 GPa is the one round figure that gives its sag.
    """
    span, deep, thick, load = 36 * 25.4, 12 * 25.4, 0.75 * 25.4, 100 * 4.4482216
    sag = beams.sag_uniform(load, span, 8000, beams.second_moment(deep, thick))
    assert sag / 25.4 == pytest.approx(0.124, abs=0.0005)
    assert span / sag == pytest.approx(290, abs=1)


def test_a_timber_section() -> None:
    """A page on timber beams: 100 × 200 mm has I = 66 666 668 mm⁴ (in single precision), and 3 m of it at 600 kg/m³ weigh 36 kg."""
    assert beams.second_moment(100, 200) == pytest.approx(66666668, rel=1e-7)
    assert pytest.approx(36) == 0.1 * 0.2 * 3 * 600


def test_where_the_eye_sees_a_shelf_sag() -> None:
    """A woodworking magazine on shelves (2007): not under 1/32 in a foot; design to 0.02 in a foot, which is 1/600."""
    assert pytest.approx(0.02) == 12 / EYE
    assert 12 / EYE < 1 / 32


@pytest.mark.parametrize(
    ("half", "height", "printed"),
    [
        (
            1.0,
            1.0 + 0.18,
            40,
        ),  # a physics textbook: a cube of 2.0 m, its centre 18 cm above the middle; answer from memory
        (0.6, 0.6 + 0.30, 34),  # another: a cube of 1.2 m, its centre 0.30 m above the middle; answer from memory
    ],
)
def test_crates_that_tip(half: float, height: float, printed: int) -> None:
    feet = [(-half, -half), (half, -half), (half, half), (-half, half)]
    assert stability.tipping_over((0.0, 0.0, height), feet).angle == pytest.approx(printed, abs=0.5)


def polygon(sides: int, radius: float) -> Outline:
    turn = 2 * math.pi / sides
    return Outline.polygon([(radius * math.cos(k * turn), radius * math.sin(k * turn)) for k in range(sides)])


def test_plane_figures() -> None:
    """Machinery's Handbook, 31st edition, pages 75 to 81: hexagons, a twelve-sided figure, a square, an ellipse."""
    assert area(polygon(6, 40)) == pytest.approx(4156.8, abs=0.2)
    assert 40 * math.cos(math.radians(30)) == pytest.approx(34.64, abs=0.005)
    assert 2 * 50 * math.tan(math.radians(30)) == pytest.approx(57.75, abs=0.02)
    assert area(polygon(12, 8)) == pytest.approx(191.98, abs=0.05)
    assert arcs.chord(8, 8 * (1 - math.cos(math.radians(15)))) == pytest.approx(4.141, abs=0.0005)
    assert 15 * math.sqrt(2) == pytest.approx(21.21, abs=0.005)
    ring = Outline.polygon(
        [(200 * math.cos(a), 150 * math.sin(a)) for a in (2 * math.pi * k / 2000 for k in range(2000))]
    )
    assert area(ring) / 4 == pytest.approx(23562, abs=1)


def test_the_thickest_sheet_of_the_birch_plywood_table() -> None:
    """Birch plywood data sheet: 24 mm, 680 kg/m³: 48.6 kg a sheet of 1220 × 2440 mm."""
    assert 1.220 * 2.440 * 0.024 * density.sheet("plywood, birch") == pytest.approx(48.6, abs=0.15)


def test_the_shank_drill_of_a_number_8() -> None:
    """A furniture making text: the shank drill in 64ths is the gauge and 3: No. 8 takes 11/64."""
    assert fasteners.wood_screw(8).clearance == drills.find("11/64")
    british = Fraction(66 + 14 * 7, 1000)  # 0.066 + 0.014 · (N − 1)
    assert british * INCH == fasteners.wood_screw(8).shank


def test_glass_by_the_square_metre() -> None:
    """EN 572-1: 2.5 kg a square metre and millimetre."""
    assert density.sheet("float glass") == 2500
