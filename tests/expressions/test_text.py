"""Formulas as they are written: what they mean, and where they are wrong."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.expressions import Expr, ExprFault, parse
from docgen.places import Span
from docgen.units import Kind, Number, Quantity, Units

INCH = Units("inch", Fraction(1, 32))
NAMES = {
    "board": Quantity(Fraction(20), Kind.LENGTH),
    "width": Quantity(Fraction(42), Kind.NUMBER),
    "left side.right": Quantity(Fraction(254), Kind.LENGTH),
    "seat_height": Quantity(Fraction(17), Kind.NUMBER),
}


def made(text: str) -> Expr:
    return parse(text, Span("f.yaml", 7, 11, len(text)), INCH)


def value(text: str) -> tuple[Number, str]:
    found = made(text).evaluate(NAMES.__getitem__)
    return found.value, found.kind.value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1 1/2", (Fraction(3, 2), "number")),
        ("1 1⁄2 in", (Fraction(381, 10), "length")),
        ("3/8 in", (Fraction(9525, 1000), "length")),
        ("5 ft 3 in", (Fraction(16002, 10), "length")),
        ("5' 3\"", (Fraction(16002, 10), "length")),
        ("12 mm", (Fraction(12), "length")),
        ("1 cm + 1 m", (Fraction(1010), "length")),
        ("14 deg", (Fraction(14), "angle")),
        ("14°", (Fraction(14), "angle")),
        ("30 kg", (Fraction(30), "mass")),
        ("1 lb", (Fraction(45359237, 100000000), "mass")),
        ("-3 1/2", (Fraction(-7, 2), "number")),
        ("−3 1/2", (Fraction(-7, 2), "number")),
        ("--3", (Fraction(3), "number")),
        ("1 - 2 - 3", (Fraction(-4), "number")),
        ("24/4/3", (Fraction(2), "number")),
        ("2 + 3 × 4", (Fraction(14), "number")),
        ("(2 + 3) * 4 ÷ 5", (Fraction(4), "number")),
        ("1/25.0", (Fraction(1, 25), "number")),
        (".5", (Fraction(1, 2), "number")),
        ("3 / 8", (Fraction(3, 8), "number")),
        ("width - 2 * board", (Fraction(42) * Fraction(254, 10) - 40, "length")),
        ("width/2", (Fraction(21), "number")),
        ("left side.right + 1", (Fraction(2794, 10), "length")),
        ("left  side.right", (Fraction(254), "length")),
        ("seat_height", (Fraction(17), "number")),
        ("board * board / board", (Fraction(20), "length")),
        ("1 in / board", (Fraction(127, 100), "number")),
        ("min(width, board)", (Fraction(20), "length")),
        ("max(1, 2, 3)", (Fraction(3), "number")),
        ("abs(1 - 4)", (Fraction(3), "number")),
        ("14 + 1 deg", (Fraction(15), "angle")),
        ("sqrt(3 in * 3 in + 4 in * 4 in)", (127.0, "length")),
        ("sin(30) * width", (21.0, "number")),
        ("cos(60 deg)", (0.5, "number")),
        ("tan(45)", (1.0, "number")),
    ],
)
def test_meaning(text: str, expected: tuple[Number, str]) -> None:
    assert value(text) == expected


def test_angle_functions_give_degrees() -> None:
    for text, degrees in (("asin(0.5)", 30), ("acos(0)", 90), ("atan(1)", 45)):
        found, kind = value(text)
        assert kind == "angle"
        assert found == pytest.approx(degrees, abs=1e-12)


def test_values_are_exact_until_a_function_makes_a_float() -> None:
    assert isinstance(value("width / 7 * 3 + 1/3")[0], Fraction)
    assert isinstance(value("width / 7 * cos(20)")[0], float)


@pytest.mark.parametrize(
    ("text", "code", "at"),
    [
        ("", "missing-value", ""),
        ("42 $", "bad-character", "$"),
        ("1/0", "division-by-zero", "1/0"),
        ("1 1/0", "division-by-zero", "1 1/0"),
        ("8 + 6 / (3 - 3)", "division-by-zero", "6 / (3 - 3)"),
        ("1 3/2", "bad-number", "1 3/2"),
        ("width/3/4", "two-readings", "3/4"),
        ("2 board", "unknown-unit", "board"),
        ("2 inches", "unknown-unit", "inches"),
        ("12,5", "bad-formula", ","),
        ("(1 + 2", "bad-formula", "("),
        ("1 + 2)", "bad-formula", ")"),
        ("1 +", "bad-formula", "+"),
        ("1 2", "bad-formula", "2"),
        ("1 in board", "bad-formula", "board"),
        ("sin(1, 2)", "bad-formula", "sin(1, 2)"),
        ("round(3.2)", "unknown-function", "round"),
        ("1 + wdth * 2", "unknown-name", "wdth"),
        ("3 + (1 deg + 1 mm)", "wrong-kind", "1 deg + 1 mm"),
        ("3 / 8 in", "wrong-kind", "3 / 8 in"),
        ("board * 3 deg", "wrong-kind", "board * 3 deg"),
        ("sin(board)", "wrong-kind", "sin(board)"),
        ("sqrt(board)", "wrong-kind", "sqrt(board)"),
        ("asin(board)", "wrong-kind", "asin(board)"),
        ("1 kg + 1", "wrong-kind", "1 kg + 1"),
        ("1 + sqrt(-2)", "no-result", "sqrt(-2)"),
        ("tan(90 deg)", "no-result", "tan(90 deg)"),
        ("acos(3/2)", "no-result", "acos(3/2)"),
        ("1" * 31, "number-too-large", "1" * 31),
        ("(" * 41 + "1" + ")" * 41, "too-deep", "("),
        ("1+" * 200 + "1", "too-long", "1+" * 200 + "1"),
        ("!", "bad-character", "!"),
    ],
)
def test_faults_point_at_their_characters(text: str, code: str, at: str) -> None:
    with pytest.raises(ExprFault) as caught:
        made(text).evaluate(NAMES.__getitem__)
    fault = caught.value
    assert fault.code == code
    assert fault.span is not None
    start = fault.span.column - 11
    assert text[start : start + fault.span.length] == at
    assert fault.message and not fault.message.endswith(".")


def test_hints_say_what_may_have_been_meant() -> None:
    for text, hint in (
        ("12,5", "point"),
        ("2 board", "2 × board"),
        ("1 2", "a sign is missing"),
        ("3 / 8 in", "without spaces"),
    ):
        with pytest.raises(ExprFault) as caught:
            made(text).evaluate(NAMES.__getitem__)
        assert hint in caught.value.hint


def test_places_inside_a_quoted_value_allow_for_the_quote() -> None:
    with pytest.raises(ExprFault) as caught:
        parse("1 + x y", Span("f", 3, 5, 9), INCH).evaluate({}.__getitem__)
    assert caught.value.span == Span("f", 3, 10, 3)


def test_places_inside_a_value_of_several_lines_are_the_whole_value() -> None:
    with pytest.raises(ExprFault) as caught:
        parse("1 + nothing", Span("f", 3, 5, 1), INCH).evaluate({}.__getitem__)
    assert caught.value.span == Span("f", 3, 5, 1)


def test_names_come_once_in_the_order_of_the_text() -> None:
    expr = made("width - left side.right + width * board")
    assert expr.names() == ("width", "left side.right", "board")
    assert [leaf.span.column - 11 for leaf in expr.leaves() if leaf.span] == [0, 8, 26, 34]


def test_squaring_again_and_again_ends() -> None:
    big = Quantity(Fraction(10**300, 7), Kind.NUMBER)
    with pytest.raises(ExprFault) as caught:
        made("a * a * a * a").evaluate(lambda _: big)
    assert caught.value.code == "number-too-large"


WORDS = st.sampled_from(
    [
        "1",
        "1/2",
        "3 1/4",
        "2.5",
        "width",
        "board",
        "left side.right",
        "14 deg",
        "(",
        ")",
        "+",
        "-",
        "*",
        "/",
        ",",
        "sin",
        "min",
        " ",
        "in",
        "mm",
        "$",
        "0",
    ]
)


@given(st.lists(WORDS, max_size=12).map(" ".join) | st.text(max_size=30))
@settings(deadline=None, max_examples=300)
def test_any_text_is_a_value_or_a_fault(text: str) -> None:
    try:
        made(text).evaluate(NAMES.__getitem__)
    except ExprFault as fault:
        assert fault.code
        assert fault.span is not None
        assert fault.span.column >= 10


@given(st.fractions(0, 999, max_denominator=128), st.fractions(0, 999, max_denominator=128).filter(bool))
@settings(deadline=None, max_examples=60)
def test_arithmetic_is_that_of_fractions(a: Fraction, b: Fraction) -> None:
    x, y = f"({a.numerator}/{a.denominator})", f"({b.numerator}/{b.denominator})"
    assert value(f"{x} + {y}")[0] == a + b
    assert value(f"{x} - {y}")[0] == a - b
    assert value(f"{x} × {y}")[0] == a * b
    assert value(f"{x} ÷ {y}")[0] == a / b
