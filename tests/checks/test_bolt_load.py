"""A box on two legs, each bolted to it from inside: what a push at its top does to the bolts."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import bolt_load
from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Fastener, Joint, Piece
from docgen.piece.records import Origin
from docgen.places import Span
from docgen.trade.beams import GRAVITY
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found
from tests.support.pieces import part, piece

HIGH = 1000


def bolts(side: str, leg: str, across: float, heights: tuple[float, ...], what: str = "machine screw") -> Fastener:
    points = tuple((Fraction(across), Fraction(150), Fraction(up)) for up in heights)
    return Fastener("A", what, "M6 × 1", Fraction(40), len(points), points=points, parts=(side, leg))


def table(
    *fasteners: Fastener, push: Fraction | None = Fraction(10), joints: tuple[Joint, ...] = (), stands: str = "floor"
) -> Piece:
    said = () if push is None else (("side push", Quantity(push, Kind.MASS), "stated"),)
    box = Joint("mitre", "the box", ("left", "top", "right"), ())
    return piece(
        part("left", ((0, 20), (0, 300), (500, HIGH)), number=1),
        part("top", ((0, 600), (0, 300), (980, HIGH)), "across", number=2),
        part("right", ((580, 600), (0, 300), (500, HIGH)), number=3),
        part("left leg", ((-30, 0), (100, 200), (0, 900)), number=4),
        part("right leg", ((600, 630), (100, 200), (0, 900)), number=5),
        joints=(box, *joints), fasteners=fasteners, conditions=said, stands=stands,
    )  # fmt: skip


def tied() -> tuple[Joint, ...]:
    return (Joint("loose tenon", "the legs' stretcher", ("left leg", "right leg"), ()),)


def pairs(low: float = 700, high: float = 800) -> tuple[Fastener, Fastener]:
    return bolts("left", "left leg", 0, (low, high)), bolts("right", "right leg", 600, (low, high))


def only(of: Piece) -> Finding:
    (f,) = found(bolt_load, of)
    return f


def figure(f: Finding, name: str) -> float:
    return next(v for n, v, _ in f.figures if n == name)


def test_the_worst_way_is_told_with_its_figures() -> None:
    f = only(table(*pairs(), joints=tied()))
    push = 10 * GRAVITY
    # front to back the bolts have only their 100 mm of height to hold on to: M · 50 / (4 · 50²)
    assert (f.grade, f.code) == (Grade.NOTE, "bolt-load")
    assert "front to back" in f.message
    assert figure(f, "lever") == pytest.approx(HIGH - 750)
    assert figure(f, "share of the push") == pytest.approx(push / 4)
    assert figure(f, "from the turning") == pytest.approx(push * 250 / 200)
    assert figure(f, "on the worst bolt") == pytest.approx(push / 4 + push * 250 / 200)


def test_sideways_the_width_of_the_piece_helps() -> None:
    points = [(float(x), 150.0, float(z)) for x in (0, 600) for z in (700, 800)]
    load = bolt_load.worst(points, 100.0, 0, "sideways", 1000.0)
    assert load is not None
    r2 = 300**2 + 50**2
    assert load.turning == pytest.approx(100 * 250 * r2**0.5 / (4 * r2))


def test_forces_of_the_group_balance_the_push() -> None:
    """The moments of all bolts' turning shares add up to the push over its lever."""
    points = [(0.0, 10.0, 0.0), (0.0, 90.0, 20.0), (0.0, 40.0, 80.0)]
    load = bolt_load.worst(points, 50.0, 1, "front to back", 400.0)
    assert load is not None
    middle = (140 / 3, 100 / 3)
    arms = [((p[1] - middle[0]) ** 2 + (p[2] - middle[1]) ** 2) ** 0.5 for p in points]
    forces = [load.turning * r / max(arms) for r in arms]
    assert sum(f * r for f, r in zip(forces, arms, strict=True)) == pytest.approx(50 * (400 - 100 / 3))


def test_silent_without_a_push_or_on_a_wall() -> None:
    assert codes(bolt_load, table(*pairs(), joints=tied(), push=None)) == []
    assert codes(bolt_load, table(*pairs(), joints=tied(), push=Fraction(0))) == []
    assert codes(bolt_load, table(*pairs(), joints=tied(), stands="wall")) == []


def test_a_push_must_come_in_above_the_bolts() -> None:
    assert codes(bolt_load, table(*pairs(990, 1008), joints=tied())) == ["bolt-load"]  # 1 mm of lever
    assert codes(bolt_load, table(*pairs(992, 1008), joints=tied())) == []


def test_bolts_in_one_point_have_no_lever_and_pivots_are_no_bolts() -> None:
    one = bolts("left", "left leg", 0, (700,))
    assert codes(bolt_load, table(one, joints=tied())) == []
    pins = [bolts(f.parts[0], f.parts[1], 0, (700, 800), "pivot bolt") for f in pairs()]
    assert codes(bolt_load, table(*pins, joints=tied())) == []


def test_parts_that_are_also_glued_are_not_held_by_the_bolts() -> None:
    glued = Joint("loose tenon", "leg to side", ("left leg", "left"), (), origin=Origin(Span("table.yaml", 9, 3)))
    assert codes(bolt_load, table(*pairs(), joints=(*tied(), glued))) == []


def test_each_leg_that_stands_alone_shares_with_the_other_in_a_way_nobody_knows() -> None:
    """Without the stretcher the box hangs on two feet: one foot's bolts taken away, the other still holds it."""
    assert codes(bolt_load, table(*pairs())) == []


@pytest.mark.parametrize("word", ["bolted", "cross dowel", "insert"])
def test_all_that_is_drawn_up_with_machine_screws_comes_apart(word: str) -> None:
    """The joints that made the bolts do not tie their parts for good, whatever nut the bolts find."""
    made = tuple(
        Joint(word, "side to leg", (side, leg), (), (("grip", 20, "length"),))
        for side, leg in (("left", "left leg"), ("right", "right leg"))
    )
    assert codes(bolt_load, table(*pairs(), joints=(*tied(), *made))) == ["bolt-load"]


def test_bolts_into_inserts_carry_as_those_into_nuts_do() -> None:
    """The joint that a bolt makes comes from the bolt's own statement, whatever figures it tells."""
    held = []
    for side, leg, across in (("left", "left leg", 0), ("right", "right leg", 600)):
        made = Origin(Span("table.yaml", 10 + across, 3))
        held.append(
            (
                replace(bolts(side, leg, across, (700, 800)), origin=made),
                Joint("insert", "", (side, leg), (), origin=made),
            )
        )
    fasteners, joints = zip(*held, strict=True)
    assert codes(bolt_load, table(*fasteners, joints=(*tied(), *joints))) == ["bolt-load"]
    glued = replace(joints[0], origin=Origin(Span("table.yaml", 99, 3)))
    assert codes(bolt_load, table(*fasteners, joints=(*tied(), *joints, glued))) == []
