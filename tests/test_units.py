from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.expressions import as_length, parse
from docgen.places import Span
from docgen.units import (
    Kind,
    Number,
    Quantity,
    Units,
    format_angle,
    format_length,
    format_number,
    format_quantity,
    near_length,
    plain_length,
    set_length,
    told_near,
)

INCH = Fraction(254, 10)
ANY_FINEST = st.sampled_from([Fraction(1, 2**n) for n in range(8)])


def read(text: str, units: Units) -> Number:
    return as_length(parse(text, Span("f", 1, 1, len(text)), units).evaluate({}.__getitem__), units)


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (Fraction(0), "0"),
        (Fraction(12), "12"),
        (Fraction(11) + Fraction(7, 8), "11 7⁄8"),
        (Fraction(7, 8), "7⁄8"),
        (Fraction(-7, 2), "−3 1⁄2"),
        (Fraction(11871, 1000), "11.871 ≈ 11 7⁄8 − 0.004"),
        (Fraction(-11871, 1000), "−11.871 ≈ −11 7⁄8 + 0.004"),
        (Fraction(11990, 1000), "11.990 ≈ 11 63⁄64 + 0.006"),
        (Fraction(383, 1000), "0.383 ≈ 3⁄8 + 0.008"),
        (Fraction(-383, 1000), "−0.383 ≈ −3⁄8 − 0.008"),
        (Fraction(675, 1000), "0.675 ≈ 43⁄64"),  # 11⁄16 would leave out 0.012
        (Fraction(11996, 1000), "11.996 ≈ 12 − 0.004"),
        (Fraction(9999, 1000), "9.999 ≈ 10"),  # a thousandth cannot be marked
        (Fraction(119999, 10000), "≈12"),  # three decimals would say 12.000
        (Fraction(1, 100), "0.01"),  # a fit finer than the finest division
        (Fraction(1, 150), "≈0.0067"),
        (Fraction(21, 64), "21⁄64"),  # 5⁄16 left 1/64 fat: the un-fat fraction would be a trap
        (Fraction(-17, 64), "−17⁄64"),
        (Fraction(1, 64), "1⁄64"),
    ],
)
def test_inches(inches: Fraction, printed: str) -> None:
    assert format_length(inches * INCH, Units("inch", Fraction(1, 32))) == printed


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (Fraction(33, 64), "33⁄64 in"),
        (Fraction(3, 4) - Fraction(4, 1000), "0.746 ≈ 3⁄4 − 0.004 in"),  # the step of fingers with their play
        (Fraction(35, 128), "0.273 ≈ 9⁄32 − 0.008 in"),  # half of 1/64 of fat stays on each cheek
        (Fraction(3, 8) + Fraction(1, 1000), "0.376 ≈ 3⁄8 in"),
        (Fraction(11871, 1000), "11.871 ≈ 11 7⁄8 − 0.004 in"),
        (Fraction(2362, 10000), "0.236 ≈ 15⁄64 in"),
        (Fraction(1, 100), "0.01 in"),
        (Fraction(-3, 4), "−3⁄4 in"),
    ],
)
def test_a_fit_is_told_where_a_machine_is_set(inches: Fraction, printed: str) -> None:
    assert set_length(inches * INCH, Units("inch", Fraction(1, 32))) == printed


@pytest.mark.parametrize("inches", [0.383, 2.889, 17.175, 4.209, 0.236, 0.659, 11.875, 0.01, 1 / 3])
def test_one_length_is_told_by_one_figure_wherever_it_stands(inches: float) -> None:
    units, mm = Units("inch", Fraction(1, 32)), inches * 25.4
    on_paper = format_length(mm, units)
    assert set_length(mm, units) == f"{on_paper} in"
    assert plain_length(mm, units) == on_paper.replace("⁄", "/").replace("−", "-")


def test_in_a_size_of_several_figures_the_decimal_alone_tells_what_the_line_leaves_out() -> None:
    units = Units("inch", Fraction(1, 32))
    assert format_length(0.276 * 25.4, units) == "0.276 ≈ 9⁄32 − 0.005"
    assert format_length(0.276 * 25.4, units, rest=False) == "0.276"
    assert plain_length(0.276 * 25.4, units, rest=False) == "0.276"


@pytest.mark.parametrize(
    ("inches", "printed"),
    [(2.889, "≈2 7⁄8"), (-2.889, "≈−2 7⁄8"), (2.875, "2 7⁄8"), (21 / 64, "21⁄64"), (0.01, "0.01")],
)
def test_an_overview_tells_the_nearest_division_alone(inches: float, printed: str) -> None:
    assert near_length(inches * 25.4, Units("inch", Fraction(1, 32))) == printed
    assert near_length(302.43, Units()) == "≈302.4"


def test_the_sign_of_rounding_is_explained_by_the_figures_own_rule() -> None:
    assert "over 1⁄256 in" in told_near(Units("inch", Fraction(1, 32)))
    assert told_near(Units("mm", Fraction(1, 2))) == "rounded to 0.5 mm"


def test_half_a_division_of_fat_is_told_in_millimetres() -> None:
    assert set_length(Fraction(575, 100), Units()) == "5.75 mm"
    assert set_length(Fraction(572, 100), Units()) == "≈5.7 mm"


@pytest.mark.parametrize(
    ("mm", "printed"),
    [
        (Fraction(302), "302"),
        (Fraction(3024, 10), "302.4"),
        (302.4, "302.4"),
        (Fraction(30243, 100), "≈302.4"),
        (Fraction(99999, 1000), "≈100"),
        (Fraction(-12), "−12"),
        (-1e-12, "0"),
        (Fraction(4, 100), "0.04"),
        (Fraction(1, 30), "≈0.033"),
    ],
)
def test_millimetres(mm: Number, printed: str) -> None:
    assert format_length(mm, Units()) == printed


@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (12, "12°"),
        (Fraction(89, 5), "17.8°"),
        (17.25, "17.25°"),
        (17.7799, "≈17.78°"),
        (-0.5, "−0.5°"),
        (90 - 1e-9, "90°"),
        (Fraction(1, 3), "≈0.33°"),
    ],
)
def test_angles(degrees: Number, printed: str) -> None:
    assert format_angle(degrees) == printed


def test_numbers_and_quantities_say_their_unit() -> None:
    inch = Units("inch", Fraction(1, 32))
    assert format_number(Fraction(1, 3)) == "≈0.333"
    assert [format_number(v) for v in (-1e-12, 1e-12, -0.0, -0.5, -2)] == [
        "0",
        "0",
        "0",
        "\N{MINUS SIGN}0.5",
        "\N{MINUS SIGN}2",
    ]
    assert format_quantity(Quantity(INCH * Fraction(3, 8), Kind.LENGTH), inch) == "3/8 in"
    assert format_quantity(Quantity(Fraction(14), Kind.ANGLE), inch) == "14°"
    assert format_quantity(Quantity(Fraction(30), Kind.MASS), inch) == "30 kg"
    assert format_quantity(Quantity(Fraction(4), Kind.AREA), inch) == "4 mm²"
    assert format_quantity(Quantity(Fraction(5), Kind.NUMBER), inch) == "5"


def test_no_length_is_refused() -> None:
    with pytest.raises(ValueError, match="no length"):
        format_length(float("nan"), Units())


def test_every_64th_up_to_200_inches_reads_back_as_it_was() -> None:
    units = Units("inch", Fraction(1, 64))
    for ticks in range(200 * 64 + 1):
        mm = INCH * Fraction(ticks, 64)
        assert read(plain_length(mm, units), units) == mm
        if ticks % 97 == 0:  # the printed form too, with its stacked fraction and its minus
            assert read(format_length(-mm, units), units) == -mm


@given(st.integers(-200_000, 200_000), st.sampled_from([1, 2, 5, 10, 20, 50, 100]))
@settings(deadline=None, max_examples=60)
def test_millimetres_on_the_grid_read_back(ticks: int, parts: int) -> None:
    units = Units("mm", Fraction(1, parts))
    mm = Fraction(ticks, parts)
    assert read(plain_length(mm, units), units) == mm


@given(st.fractions(-5000, 5000, max_denominator=10**6), ANY_FINEST)
@settings(deadline=None, max_examples=120)
def test_what_is_printed_is_exact_or_says_that_it_is_not(mm: Fraction, finest: Fraction) -> None:
    units = Units("inch", finest)
    said, *nearest = plain_length(mm, units).split("≈")
    assert (
        (read(said.strip(), units) == mm)
        if not nearest
        else (abs(read(nearest[0].strip(), units) - mm) <= INCH * finest / 2)
    )


@given(st.fractions(-5000, 5000, max_denominator=10**6), ANY_FINEST)
@settings(deadline=None, max_examples=120)
def test_what_a_tape_reads_and_what_it_leaves_out_make_up_what_a_calliper_reads(mm: Fraction, finest: Fraction) -> None:
    units = Units("inch", finest)
    decimal, *tape = format_length(mm, units).replace("\u2044", "/").replace("\u2212", "-").split("≈")
    if not tape:
        assert read(decimal, units) == mm
        return
    if abs(mm) > INCH * finest / 2:
        assert abs(read(tape[0].strip(), units) - mm) <= INCH / 256
    if decimal.strip():
        assert abs(read(decimal.strip(), units) - mm) <= INCH / 2000


@given(st.floats(-1000, 1000), ANY_FINEST)
@settings(deadline=None, max_examples=60)
def test_a_float_prints_as_its_fraction_does_but_for_a_hair(mm: float, finest: Fraction) -> None:
    units = Units("inch", finest)
    if "≈" not in format_length(Fraction(mm), units):
        assert "≈" not in format_length(mm, units)
