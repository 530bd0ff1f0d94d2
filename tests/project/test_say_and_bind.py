from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from docgen.expressions import Expr
from docgen.places import Span
from docgen.project.bind import bind
from docgen.project.fields import Word
from docgen.project.say import said
from docgen.project.statements import Bound, Lazy
from docgen.reading.problems import Problem, Problems
from docgen.units import Kind, Quantity, Units
from tests.project.words import CASE, CUT, HOLES, HOUSING

INCH = Units("inch", Fraction(1, 32))
SPAN = Span("f.yaml", 30, 5, 4)
WHY = (Span("f.yaml", 29, 3, 3),)


def say(word: Word, **values: Any) -> Lazy:
    return said(word, values, INCH, SPAN, WHY)


def look(name: str) -> Quantity:
    return {
        "shelf.top": Quantity(Fraction(254), Kind.LENGTH),
        "lean": Quantity(Fraction(14), Kind.ANGLE),
        "far": Quantity(Fraction(200_000), Kind.LENGTH),
    }[name]


def bound(lazy: Lazy, **known: Any) -> Bound:
    return bind(lazy, look, units=INCH, **known)


def problems(lazy: Lazy, **known: Any) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        bound(lazy, **known)
    return caught.value.items


def test_what_python_says_is_read_as_the_file_would_be() -> None:
    lazy = say(
        HOUSING,
        shelf="shelf",
        into=["left side", "right side"],
        depth=Expr.name("shelf.top") / 4,
        stop={"front": "3/4", "back": Quantity(Fraction(5), Kind.LENGTH)},
        round_end=True,
    )
    found = bound(lazy)
    assert found["depth"] == Fraction(127, 2)
    assert found["stop"] == {"front": Fraction(1905, 100), "back": 5}
    assert found["round end"] is True
    assert (found.span, found.because) == (SPAN, WHY)
    assert lazy["depth"].span == SPAN


def test_nested_statements_can_be_said_again() -> None:
    box = {axis: ["0", "1"] for axis in ("across", "deep", "up")}
    first = said(CASE, {"of": "ply", "box": box, "run": {"parts": "a"}}, INCH, SPAN, name="bin")
    again = say(CASE, of="ply", box=dict(zip(("across", "deep", "up"), first["box"], strict=True)), run=first["run"])
    assert bound(first)["run"].values == bound(again)["run"].values == {"kerf": Fraction(254, 80), "parts": ("a",)}
    assert bound(first)["box"] == bound(again)["box"] == ((0, Fraction(254, 10)),) * 3
    assert first.name == "bin"


def test_every_kind_of_field_has_its_value() -> None:
    found = bound(
        say(
            HOLES,
            part="shelf",
            face="top",
            at=[{"across": 1, "up": "shelf.top"}, {"across": "2 mm"}],
            count=3,
            lean="lean",
        )
    )
    assert found["at"] == ({"across": Fraction(254, 10), "up": 254}, {"across": 2})
    assert (found["count"], type(found["count"])) == (3, int)
    assert (found["lean"], found["face"], found["purpose"]) == (14, "top", "plain")
    found = bound(say(CUT, part="shelf", reach=[0, 1], feed="3/2", weight="2 lb", inside=None))
    assert found["reach"] == (0, Fraction(254, 10))
    assert found["reaches"] == ((0, Fraction(254, 10)), (Fraction(508, 10), Fraction(762, 10)))
    assert found["feed"] == Fraction(3, 2)
    assert float(found["weight"]) == pytest.approx(0.90718474)
    assert found["inside"] is None


def test_a_number_without_unit_is_refused_in_python() -> None:
    for wrong in (2.5, Fraction(1, 2), object()):
        with pytest.raises(TypeError):
            say(HOUSING, shelf="a", into="b", depth=wrong)


def test_what_is_said_wrong_is_told_where_the_assembly_stands() -> None:
    with pytest.raises(Problems) as caught:
        say(HOUSING, shelf="a", into=[], depth="1 +", dept=3)
    assert {p.code for p in caught.value.items} == {"too-few", "bad-formula", "unknown-key"}
    assert all(p.where.line == SPAN.line for p in caught.value.items)


def test_all_faults_of_a_statement_are_told_together() -> None:
    lazy = say(HOLES, part="self", face="top", at={"across": "nothing"}, count="lean", lean="50", purpose="plain")
    assert {p.code for p in problems(lazy, parts=["shelf"])} == {
        "unknown-part",
        "unknown-name",
        "wrong-kind",
        "out-of-bounds",
    }


def test_hints_of_bound_names() -> None:
    (problem,) = problems(say(HOUSING, shelf="shlf", into="shelf", depth="1"), parts=["shelf"])
    assert problem.hint == "did you mean 'shelf'?"
    (problem,) = problems(say(HOUSING, shelf="a", into="a", depth="shelf.tpo"), names=["shelf.top"])
    assert problem.hint == "did you mean 'shelf.top'?"
    box = {axis: ["0", "1"] for axis in ("across", "deep", "up")}
    (problem,) = problems(say(CASE, of="plys", box=box), materials=["ply"])
    assert (problem.code, problem.hint) == ("unknown-material", "did you mean 'ply'?")


def test_bounds_and_order_are_looked_at_when_values_are_known() -> None:
    (problem,) = problems(say(HOUSING, shelf="a", into="a", depth="shelf.top - shelf.top"))
    assert (problem.code, problem.message) == ("out-of-bounds", "0 in is too small, it must be more than 0 in")
    (problem,) = problems(say(HOUSING, shelf="a", into="a", depth="far"))
    assert problem.code == "out-of-bounds"
    (problem,) = problems(say(CUT, part="a", reach=["shelf.top", "3"]))
    assert problem.code == "reach-order"
