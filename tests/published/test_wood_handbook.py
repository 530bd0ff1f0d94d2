"""Worked examples and tables of the Wood Handbook, FPL-GTR-190 (2010), and of publications that use it."""

import csv
from pathlib import Path

import pytest

from docgen.trade import beams, boards, density, moisture, movement
from docgen.trade.names import INCH

EMC = list(csv.DictReader((Path(__file__).parent / "emc.csv").read_text(encoding="utf-8").splitlines()))


def test_movement_of_a_flatsawn_board() -> None:
    """Wood Handbook, chapter 13, example to Equation 13-2: 232 mm white fir from 8 to 11 %."""
    fir = movement.species("white fir")
    assert fir.radial == 0.00112
    moved = movement.change(232, fir.tangential, 8, 11)
    assert moved == pytest.approx(1.7, abs=0.05)
    assert 232 + moved == pytest.approx(233.7, abs=0.05)
    assert movement.change(9.15, fir.tangential, 8, 11) == pytest.approx(0.067, abs=0.0005)
    assert 9.15 + movement.change(9.15, fir.tangential, 8, 11) == pytest.approx(9.217, abs=0.0005)


def test_movement_of_a_floor_board() -> None:
    """National Wood Flooring Association, publication A200: mesquite, 5 in wide, from 6 to 9 %: 0.019 in."""
    assert movement.change(5, 0.00129, 6, 9) == pytest.approx(0.019, abs=0.0005)


@pytest.mark.parametrize(
    ("name", "radial", "tangential", "cr", "ct"),
    [
        ("black walnut", 5.5, 7.8, 0.00190, 0.00274),
        ("black cherry", 3.7, 7.1, 0.00126, 0.00248),
        ("sugar maple", 4.8, 9.9, 0.00165, 0.00353),
        ("American beech", 5.5, 11.9, 0.00190, 0.00431),
        ("yellow birch", 7.3, 9.5, 0.00256, 0.00338),
        ("American basswood", 6.6, 9.3, 0.00230, 0.00330),
        ("American sycamore", 5.0, 8.4, 0.00172, 0.00296),
        ("sweetgum", 5.3, 10.2, 0.00183, 0.00365),
    ],
)
def test_coefficients_follow_from_shrinkage(name: str, radial: float, tangential: float, cr: float, ct: float) -> None:
    """Wood Handbook, Tables 4-3 and 13-5, by the footnote of the latter; to 5 decimals, tolerance 0.00001."""
    wood = movement.species(name)
    assert (wood.shrink_radial, wood.shrink_tangential, wood.radial, wood.tangential) == (radial, tangential, cr, ct)
    assert movement.coefficient_from_shrinkage(radial) == pytest.approx(cr, abs=1.01e-5)
    assert movement.coefficient_from_shrinkage(tangential) == pytest.approx(ct, abs=1.01e-5)


def test_cedar_shrinks_from_22_percent() -> None:
    cedar = movement.species("western redcedar")
    assert cedar.shrink_start == 22
    assert movement.coefficient_from_shrinkage(cedar.shrink_radial, 22) == pytest.approx(cedar.radial, abs=1.01e-5)


def test_the_whole_moisture_table() -> None:
    """Wood Handbook, Table 4-2 against Equation 4-5: 162 cells; greatest difference 0.062 (see the sheet's rounding)."""
    assert len(EMC) == 162
    worst = max(abs(moisture.equilibrium(float(r["temp_c"]), float(r["rh"])) - float(r["emc"])) for r in EMC)
    assert 0.04 < worst < 0.07


@pytest.mark.parametrize(
    ("celsius", "humidity", "published"),
    [
        (21.1, 5, 1.3), (21.1, 30, 6.2), (21.1, 50, 9.2), (21.1, 75, 14.4), (21.1, 85, 17.9),
        (21.1, 95, 23.9), (-1.1, 75, 14.9), (-1.1, 95, 24.3), (37.8, 50, 8.7), (37.8, 90, 19.5),
    ],
)  # fmt: skip
def test_moisture_look_ups(celsius: float, humidity: float, published: float) -> None:
    """FPL-GTR-282 (2021), pages 4-3 and 4-4; tolerance 0.07."""
    assert moisture.equilibrium(celsius, humidity) == pytest.approx(published, abs=0.07)


def test_beam_under_uniform_load() -> None:
    """Online beam page: 6 kN/m on 5 m, I = 318 cm4, steel of 210 GPa: 73 mm (Equation 9-2 of the handbook)."""
    assert beams.sag_uniform(6000 * 5, 5000, 210000, 318e4) == pytest.approx(73, abs=0.5)


def test_red_oak_shelf() -> None:
    """Red oak at 1.82 million psi, 36 in, 11 1/4 × 3/4 in, 20 lb a foot: I = 0.395508 in4, 0.05064 in (recomputed)."""
    inertia = beams.second_moment(11.25 * 25.4, 0.75 * 25.4)
    assert inertia / 25.4**4 == pytest.approx(0.395508, abs=1e-6)
    newtons = 60 * 4.4482216
    oak = density.wood("northern red oak")
    assert oak.modulus == pytest.approx(1.82 * 6894.757, abs=1)
    assert beams.sag_uniform(newtons, 36 * 25.4, oak.modulus, inertia) / 25.4 == pytest.approx(0.05064, abs=2e-5)


def test_board_measure() -> None:
    """Definition, read in glossaries: 2 × 6 × 96 in is 8 board feet; 1 in × 12 in × 10 ft is 10."""
    assert boards.board_feet(2 * INCH, 6 * INCH, 96 * INCH) == 8
    assert boards.board_feet(INCH, 12 * INCH, 120 * INCH) == 10


@pytest.mark.parametrize(
    ("mm", "kg_m3", "small", "large"),
    [(9, 710, 19.0, 29.7), (12, 695, 24.8, 38.8), (15, 690, 30.8, 48.1), (18, 685, 36.7, 57.3), (21, 680, 42.5, 66.4)],
)
def test_plywood_sheets_weigh(mm: int, kg_m3: int, small: float, large: float) -> None:
    """Birch plywood data sheet, 1220 × 2440 and 3050 × 1525 mm; tolerance 0.15 kg."""
    assert 1.220 * 2.440 * mm / 1000 * kg_m3 == pytest.approx(small, abs=0.15)
    assert 3.050 * 1.525 * mm / 1000 * kg_m3 == pytest.approx(large, abs=0.15)
    assert abs(kg_m3 - density.sheet("plywood, birch")) <= 30  # our one figure is the mean of all thicknesses
