"""Machinery's Handbook, 31st edition, and other published figures of threads, arcs and angles."""

import math
from fractions import Fraction

import pytest

from docgen.trade import arcs, drills, fasteners, threads
from docgen.trade.names import INCH
from tests.support.by_hand import segment_area

PERCENT = [
    # page 2155, Table 2: basic diameter in, threads an inch, drill, printed per cent
    (0.060, 80, "1.30 mm", 54), (0.060, 80, "1.20 mm", 79), (0.073, 72, "#53", 75), (0.086, 56, "#49", 56),
    (0.086, 56, "#50", 69), (0.086, 64, "#50", 79), (0.099, 48, "#47", 76), (0.099, 56, "#44", 56),
    (0.099, 56, "#45", 73), (0.112, 36, "#44", 72), (0.112, 40, "2.40 mm", 54), (0.112, 40, "#42", 57),
    (0.112, 40, "2.35 mm", 60), (0.112, 40, "2.30 mm", 66),
]  # fmt: skip


@pytest.mark.parametrize(("major", "tpi", "drill", "published"), PERCENT)
def test_percent_of_thread(major: float, tpi: int, drill: str, published: int) -> None:
    got = threads.percent_of_thread(major * 25.4, float(drills.find(drill).diameter), 25.4 / tpi)
    assert got == pytest.approx(published, abs=1)


def test_drill_for_three_quarters_of_thread() -> None:
    """A tap drill calculator page: 1/4-20 at 75 % gives 0.2013 in, nearest drill No. 7."""
    t = threads.find("1/4-20 UNC")
    assert threads.percent_of_thread(t.major, 0.2013 * 25.4, t.pitch) == pytest.approx(75, abs=0.1)
    assert drills.nearest(0.2013 * 25.4, kinds=("number",)).name == "#7" == t.tap_drill.name


def test_the_other_basis_in_print_reads_a_fifth_higher() -> None:
    """1/2-13 with 27/64 is 78 % on this basis and 94 % on 1.08253 (a page on thread engagement)."""
    t = threads.find("1/2-13 UNC")
    assert round(t.percent) == 78
    assert round(t.percent * threads.FULL_THREAD / 1.08253) == 94


@pytest.mark.parametrize(("designation", "mm"), [("M6 × 1", 5), ("M10 × 1.5", Fraction(17, 2)), ("M7 × 1", 6)])
def test_tap_drill_is_major_minus_pitch(designation: str, mm: Fraction) -> None:
    """Four pages on tapping: M7 × 1 6.0, M10 × 1.5 8.5; 3/8-16 5/16."""
    t = threads.find(designation)
    assert t.major - t.pitch == mm == t.tap_drill.diameter


def test_inch_tap_drill_is_major_minus_pitch() -> None:
    t = threads.find("3/8-16 UNC")
    assert t.major - t.pitch == drills.find("5/16").diameter == t.tap_drill.diameter


def test_chord_and_radius() -> None:
    """Page 79: r 60, h 8 gives c 59.86 (the handbook cuts the root off); c 16, h 6 gives r 8 1/3, exactly."""
    assert arcs.chord(60, 8) == pytest.approx(59.86, abs=0.01)
    assert arcs.radius(Fraction(16), Fraction(6)) == Fraction(25, 3)


def test_circular_segment() -> None:
    """The worked example of a geometry program: chord 21, rise 6; and arc 1 over 45 degrees."""
    r = float(arcs.radius(21, 6))
    a = 360 - arcs.angle(r, 21) if r < 6 else arcs.angle(r, 21)
    assert (r, a) == pytest.approx((12.1875, 118.97953), abs=1e-4)
    assert arcs.length(r, a) == pytest.approx(25.308373, abs=1e-4)
    assert r - 6 == pytest.approx(6.1875)
    assert segment_area(r, a) == pytest.approx(89.254148, abs=1e-4)
    r = 1 / math.radians(45)
    assert r == pytest.approx(1.2732395, abs=1e-6)
    chord = 2 * r * math.sin(math.radians(22.5))
    assert chord == pytest.approx(0.97449536, abs=1e-6)
    assert arcs.rise(r, chord) == pytest.approx(0.096919589, abs=1e-6)
    assert arcs.angle(r, chord) == pytest.approx(45)
    assert arcs.length(r, 45) == pytest.approx(1)


def test_sector_of_a_circle() -> None:
    """Pages 75 to 81: radius 35, 60 degrees: arc 36.645 (36.652 computed)."""
    assert arcs.length(35, 60) == pytest.approx(36.645, abs=0.01)


@pytest.mark.parametrize(("gauge", "inches"), [(8, "0.164"), (4, "0.112"), (10, "0.190"), (14, "0.242")])
def test_screw_gauges(gauge: int, inches: str) -> None:
    """D = 0.060 + 0.013 N (sheet of a screw supplier); basic diameters of page 1777."""
    assert fasteners.wood_screw(gauge).shank == Fraction(inches) * INCH
