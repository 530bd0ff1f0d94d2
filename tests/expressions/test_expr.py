"""Expressions made in Python."""

from __future__ import annotations

from fractions import Fraction

import pytest

from docgen import expressions as ex
from docgen.expressions import Expr, ExprFault, KindFault, as_angle, as_length, as_mass, as_plain, parse
from docgen.places import Span
from docgen.units import Kind, Quantity, Units

INCH = Units("inch", Fraction(1, 32))
SPAN = Span("f.yaml", 3, 5, 4)


def mm(value: int) -> Quantity:
    return Quantity(Fraction(value), Kind.LENGTH)


def look(name: str) -> Quantity:
    return {"shelf.left": mm(100), "lean": Quantity(Fraction(14), Kind.ANGLE)}[name]


def test_signs_make_the_sums_that_they_say() -> None:
    left = Expr.name("shelf.left", SPAN)
    for expr, expected in (
        (left + mm(5), 105),
        (left - mm(5), 95),
        (2 * left, 200),
        (left * Fraction(1, 2), 50),
        (left / 4, 25),
        (-left, -100),
        (left + left - left, 100),
        (ex.min(left, mm(7)), 7),
        (ex.max(left, mm(7)), 100),
        (ex.abs(-left), 100),
        (0 + left, 100),
    ):
        assert expr.evaluate(look) == mm(expected)
        assert expr.span == SPAN


def test_functions_are_there_in_python_too() -> None:
    lean = Expr.name("lean")
    assert (90 - lean).evaluate(look) == Quantity(Fraction(76), Kind.ANGLE)
    assert ex.asin(ex.sin(lean)).evaluate(look).value == pytest.approx(14)
    assert ex.acos(ex.cos(lean)).evaluate(look).value == pytest.approx(14)
    assert ex.atan(ex.tan(lean)).evaluate(look).value == pytest.approx(14)
    assert ex.sqrt(Expr.name("shelf.left") * mm(4)).evaluate(look) == Quantity(20.0, Kind.LENGTH)
    assert (1 / Expr.of(4)).evaluate(look) == Quantity(Fraction(1, 4), Kind.NUMBER)


def test_a_plain_number_from_python_is_no_length() -> None:
    with pytest.raises(ExprFault) as caught:
        (Expr.name("shelf.left", SPAN) + 5).evaluate(look)
    assert caught.value.code == "no-unit"


def test_what_was_parsed_keeps_its_unit_in_python() -> None:
    gap = parse("1", SPAN, INCH).take(Kind.LENGTH, INCH)
    assert (Expr.name("shelf.left") - gap).evaluate(look) == Quantity(Fraction(746, 10), Kind.LENGTH)


def test_a_lookup_may_tell_its_own_fault() -> None:
    def refuse(name: str) -> Quantity:
        raise ExprFault("not-yet", name)

    with pytest.raises(ExprFault) as caught:
        Expr.name("shelf.top", SPAN).evaluate(refuse)
    assert caught.value.code == "not-yet"


def test_kinds_are_taken_or_refused() -> None:
    number, length, angle, mass = (
        Quantity(Fraction(2), kind) for kind in (Kind.NUMBER, Kind.LENGTH, Kind.ANGLE, Kind.MASS)
    )
    assert as_length(number, INCH) == Fraction(508, 10)
    assert as_length(length, INCH) == as_angle(angle) == as_angle(number) == as_plain(number) == as_mass(mass) == 2
    for refused in (
        lambda: as_length(angle, INCH),
        lambda: as_angle(length),
        lambda: as_plain(length),
        lambda: as_mass(number),
        lambda: as_length(number, None),
    ):
        with pytest.raises(KindFault):
            refused()


def test_true_and_texts_are_no_numbers() -> None:
    for wrong in (True, "3"):
        with pytest.raises(TypeError):
            Expr.of(wrong)  # type: ignore[arg-type]
