from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.expressions import parse
from docgen.places import Span
from docgen.project.model import PartDef
from docgen.project.order import ordered
from docgen.project.resolve import Coordinates, face_name, face_of, resolve
from docgen.reading.problems import Problem, Problems
from docgen.units import Kind, Quantity, Units

MM = Units("mm", Fraction(1, 10))
SIZES = {"t": Quantity(Fraction(18), Kind.LENGTH)}


def part(path: str, line: int, *box: tuple[str, str]) -> PartDef:
    """Return a part whose six formulas stand on lines of their own, from `line`."""
    texts = [text for pair in box for text in pair]
    exprs = [parse(text, Span("f", line + i, 5, len(text)), MM).take(Kind.LENGTH, MM) for i, text in enumerate(texts)]
    spans = ((exprs[0], exprs[1]), (exprs[2], exprs[3]), (exprs[4], exprs[5]))
    return PartDef(path, "ply", "up", spans, span=Span("f", line, 1, len(path)))


def problems(*parts: PartDef) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        resolve(parts, SIZES, MM)
    return caught.value.items


SIDE = part("side", 10, ("0", "t"), ("0", "300"), ("0", "shelf.top"))
SHELF = part("shelf", 20, ("side.right", "600"), ("0", "300"), ("500", "shelf.bottom + t"))


def test_faces_of_two_parts_may_need_each_other_as_long_as_no_single_one_does() -> None:
    at: Coordinates = resolve([SIDE, SHELF], SIZES, MM)
    assert at["side", 2, 1] == 518
    assert at["shelf", 0, 0] == 18
    assert list(at) == [(p, axis, side) for p in ("side", "shelf") for axis in range(3) for side in range(2)]


def test_a_circle_is_told_step_by_step_with_its_lines() -> None:
    (problem,) = problems(
        part("a", 10, ("0", "b.left"), ("0", "1"), ("0", "1")),
        part("b", 20, ("c.left - t", "90"), ("0", "1"), ("0", "1")),
        part("c", 30, ("a.right", "99"), ("0", "1"), ("0", "1")),
        part("after", 40, ("c.left", "200"), ("0", "1"), ("0", "1")),
    )
    assert problem.code == "circular-places"
    assert problem.message == (
        "a circle: 'a.right' needs 'b.left' (line 11), 'b.left' needs 'c.left' (line 20), 'c.left' needs 'a.right' (line 30)"
    )
    assert problem.where == Span("f", 11, 5, 6)


def test_every_circle_is_told() -> None:
    found = problems(
        part("a", 10, ("0", "a.right + 1"), ("0", "1"), ("0", "1")),
        part("b", 20, ("0", "1"), ("b.back", "b.front"), ("0", "1")),
    )
    assert [(p.code, p.where.line) for p in found] == [("circular-places", 11), ("circular-places", 22)]


def test_boxes_need_a_length_and_names_must_be_known() -> None:
    found = problems(
        part("a", 10, ("0", "1"), ("side.front + 2", "2"), ("0", "nothing")),
        part("side", 20, ("0", "a.rigth"), ("0", "1"), ("0", "shlf.top")),
        part("shelf", 30, ("0", "1 deg"), ("0", "1"), ("0", "1")),
    )
    assert [(p.code, p.where.line) for p in found] == [
        ("reach-order", 12),
        ("unknown-name", 15),
        ("unknown-face", 21),
        ("unknown-part", 25),
        ("wrong-kind", 31),
    ]
    assert found[0].message.startswith("'a', front to back: from 2 to 2 mm")
    assert found[3].hint == "did you mean 'shelf.top'?"


def test_names_of_faces() -> None:
    assert face_of("left side.right") == ("left side", 0, 1)
    assert face_of("case.left.top") == ("case.left", 2, 1)
    assert face_of("width") is face_of("left side.middle") is face_of(".top.x") is None
    assert face_name(("case.left", 2, 1)) == "case.left.top"


@given(st.dictionaries(st.integers(0, 9), st.lists(st.integers(0, 12), max_size=3).map(tuple), max_size=10))
@settings(deadline=None, max_examples=150)
def test_each_key_is_in_the_order_or_in_one_circle(needs: dict[int, tuple[int, ...]]) -> None:
    order, circles = ordered(needs)
    in_circles = [key for circle in circles for key in circle]
    assert sorted(order + in_circles) == sorted(needs)
    for key in order:
        assert all(order.index(n) < order.index(key) for n in needs[key] if n in order)
    for circle in circles:
        assert all(b in needs[a] for a, b in zip(circle, circle[1:] + circle[:1], strict=True))
    assert ordered(needs) == (order, circles)
