import math
from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import tipping
from docgen.checks.finding import Finding, Grade
from docgen.checks.tipping import CAREFUL
from docgen.piece.model import Drawer, Group, Material, Piece
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def only(of: Piece) -> Finding:
    (f,) = found(tipping, of)
    return f


def figure(f: Finding, name: str) -> float:
    return next(v for n, v, _ in f.figures if n == name)


def slab(deep: float, up: float = 1000.0) -> Piece:
    return piece(part("slab", ((0, 900), (0, deep), (0, up))))


def test_a_slab_tips_at_the_angle_of_its_diagonal() -> None:
    f = only(slab(200))
    assert (f.grade, f.code) == (Grade.NOTE, "stability")
    assert figure(f, "tips at") == pytest.approx(math.degrees(math.atan(100 / 500)))
    assert figure(f, "weight") == pytest.approx(0.9 * 0.2 * 1.0 * 560)
    assert figure(f, "push at the top") == pytest.approx(100.8 * 9.80665 * 100 / 1000)


def test_ten_degrees_are_the_edge_of_care() -> None:
    edge = 1000 * math.tan(math.radians(10))  # 176.3 deep
    assert only(slab(edge + 0.1)).code == "stability"
    assert only(slab(edge - 0.1)).code == "tips-easily"


def test_thirty_degrees_are_firm_enough_not_to_be_told() -> None:
    edge = 1000 * math.tan(math.radians(30))  # 577.4 deep
    assert only(slab(edge - 0.1)).code == "stability"
    assert codes(tipping, slab(edge + 0.1)) == []


def legged(out: float) -> Piece:
    """A foot 300 deep and a top that stands `out` forward of it."""
    return piece(
        part("foot", ((0, 500), (0, 300), (0, 20)), "across"),
        part("top", ((0, 500), (-out, 300 - out), (700, 720)), "across", number=2),
    )


def test_a_piece_that_falls_by_itself() -> None:
    # equal weights: the centre lies at 150 − out/2
    assert only(legged(299)).code == "tips-easily"
    f = only(legged(301))
    assert (f.grade, f.code) == (Grade.STOP, "tips-over")
    assert "falls" in f.message


def test_a_drawer_that_is_out_counts() -> None:
    def chest(length: float) -> Piece:
        return piece(
            part("case", ((0, 500), (0, 300), (0, 400)), "across"),
            part("d.box", ((0, 500), (0, 300), (400, 600)), "across", number=2),
            drawers=(Drawer("d", ("d.box",), ((0, 500), (0, 300), (400, 600)), 0, length, 0),),
        )

    assert only(chest(300)).message.count("d out") == 1
    shut = figure(only(chest(0)), "inside the feet by")
    assert figure(only(chest(300)), "inside the feet by") == pytest.approx(shut - 300 / 3)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_all_drawers_out_is_a_state_of_two_and_more(number: int) -> None:
    case = part("case", ((0, 500), (0, 300), (0, 400)), "across")
    boxes = [((0, 500), (0, 300), (400 + 60 * k, 460 + 60 * k)) for k in range(number)]
    of = piece(
        case,
        *(part(f"d{k}.box", box, "across", number=2 + k) for k, box in enumerate(boxes)),
        drawers=tuple(Drawer(f"d{k}", (f"d{k}.box",), box, 0, 300, 0) for k, box in enumerate(boxes)),
    )
    f = only(of)
    assert ("all drawers out" in f.message) == (number > 1)
    assert ("d0 out" in f.message) == (number == 1)
    case_kg, box_kg = 400, 60  # by height
    out = (case_kg * 150 - number * box_kg * 150) / (case_kg + number * box_kg)
    assert figure(f, "inside the feet by") == pytest.approx(out)


def test_a_tilted_group_counts_in_both_its_ends() -> None:
    of = piece(
        part("foot", ((0, 500), (0, 300), (0, 500)), "across"),
        part("board", ((0, 500), (0, 300), (500, 520)), "across", number=2),
        groups=(Group("easel", ("board",), (0.0, 300.0, 500.0), 0, (-60, 0)),),
    )
    f = only(of)
    assert "easel at 60°" in f.message and "the back" in f.message


def test_hung_pieces_and_unknown_weights_are_passed_over() -> None:
    assert codes(tipping, piece(part("shelf", ((0, 900), (0, 200), (1.5, 500))))) == []
    assert codes(tipping, piece(part("shelf", ((0, 900), (0, 200), (-1.5, 500))))) == []
    odd = Material("odd", Fraction(20), species="moon wood")
    assert codes(tipping, piece(part("slab", ((0, 900), (0, 200), (0, 500)), material=odd))) == []


def test_a_piece_that_hangs_on_the_wall_is_not_judged_as_standing() -> None:
    thin = part("slab", ((0, 900), (0, 100), (0, 1000)))
    assert codes(tipping, piece(thin)) == codes(tipping, piece(thin, stands="floor")) == ["tips-easily"]
    assert codes(tipping, piece(thin, stands="wall")) == []


def said(**loads: float) -> tuple[tuple[str, Quantity, str], ...]:
    return tuple(
        (name.replace("_", " "), Quantity(Fraction(kg).limit_denominator(10**6), Kind.MASS), "stated")
        for name, kg in loads.items()
    )


PUSH = 0.9 * 0.2 * 1.0 * 560 * 100 / 1000  # kg: a level pull of so much at its top tips a slab 200 deep and 1000 high


@pytest.mark.parametrize(("more", "expected"), [(-0.01, []), (0.01, ["push-tips"])])
def test_the_stated_push_at_the_top(more: float, expected: list[str]) -> None:
    of = replace(slab(200), conditions=said(side_push=PUSH + more))
    assert [f.code for f in found(tipping, of) if f.code != "stability"] == expected
    (f, *_) = [f for f in found(tipping, of) if f.code == "push-tips"] or [None]
    assert f is None or ("wall" in f.advice and figure(f, "tips by") == pytest.approx(PUSH * 9.80665, rel=1e-6))


def chest(load: float = 0.0) -> Piece:
    """A case with one drawer on it that comes 300 out."""
    return piece(
        part("case", ((0, 500), (0, 300), (0, 400)), "across"),
        part("d.box", ((0, 500), (0, 300), (400, 600)), "across", number=2),
        drawers=(Drawer("d", ("d.box",), ((0, 500), (0, 300), (400, 600)), 0, 300, 0),),
        conditions=said(drawer_load=load) if load else (),
    )


def test_a_full_drawer_that_is_out_pulls_the_centre_forward() -> None:
    case, box = (0.5 * 0.3 * h * 560 for h in (0.4, 0.2))
    f = only(chest(20.0))
    assert "d out with 20.0 kg in it" in f.message
    out = (case * 150 + (box + 20) * -150) / (case + box + 20)
    assert figure(f, "inside the feet by") == pytest.approx(out)


def test_the_load_at_which_a_full_drawer_tips_the_piece() -> None:
    case, box = (0.5 * 0.3 * h * 560 for h in (0.4, 0.2))
    limit = case - box  # kg: the moments about the front edge are equal
    assert only(chest(limit - 0.05)).code == "tips-easily"
    f = only(chest(limit + 0.05))
    assert (f.grade, f.code) == (Grade.STOP, "tips-over")
    # What the piece weighs by itself is told beside the weight with the load in it, and no angle below 0.
    assert f"with its load, {case + box:.1f} kg by itself" in f.message
    assert figure(f, "past its balance by") > 0 and not any(n == "tips at" for n, _, _ in f.figures)
    # On paper stands what falls or nearly does: the angles of firm states are for who works on the file.
    firm = {n for n, v, unit in f.figures if unit == "deg" and n.startswith("tips") and v >= CAREFUL}
    assert firm and firm < set(f.aside) and "past its balance by" in f.aside
    # It falls without a push.
    assert not any("push" in name for name, _, _ in f.figures)


def test_what_lies_on_the_top_raises_the_centre() -> None:
    bare = piece(
        part("foot", ((0, 500), (0, 300), (0, 20)), "across"),
        part("post", ((200, 300), (100, 200), (20, 700)), number=2),
        part("top", ((0, 500), (0, 300), (700, 720)), "across", number=3),
    )
    loaded = replace(bare, conditions=said(top_load=30.0))
    f = only(loaded)
    assert "loaded" in f.message
    assert figure(f, "tips at rest at") > figure(f, "tips at")
    assert figure(f, "weight") == pytest.approx(figure(only(bare), "weight") + 30)


def two_tops(load: float) -> Piece:
    """A foot under two boards, side by side, that make the top: one 100 deep, one 200."""
    return piece(
        part("foot", ((0, 500), (0, 300), (0, 700)), "across"),
        part("strip", ((0, 500), (0, 100), (700, 720)), "across", number=2),
        part("lid", ((0, 500), (100, 300), (700, 720)), "across", number=3),
        conditions=said(top_load=load),
    )


def test_what_stands_on_the_top_is_counted_once_however_many_boards_make_it() -> None:
    bare = 0.5 * 0.3 * 0.72 * 560
    f = only(two_tops(1000.0))
    assert figure(f, "weight") == pytest.approx(bare + 1000)
    # shared by area it lies in the middle of the whole top: 150 mm inside the feet, front and back alike
    assert figure(f, "inside the feet by") == pytest.approx(150)


def test_the_least_push_is_that_of_the_empty_piece_where_a_load_makes_it_heavy() -> None:
    f = only(two_tops(100.0))
    empty = 0.5 * 0.3 * 0.72 * 560 * 9.80665 * 150 / 720
    assert figure(f, "least push of all states") == pytest.approx(empty)
    assert figure(f, "push at the top") > 2 * empty
    assert f"{empty:.0f} N" in f.message and "is enough at rest" in f.message


def test_a_load_that_lies_nearer_the_edge_may_still_make_it_firmer() -> None:
    """The top stands 50 out to the front, and what lies on it: nearer to tipping over, yet twice as heavy to push."""
    of = piece(
        part("foot", ((0, 500), (0, 300), (0, 700)), "across"),
        part("top", ((0, 500), (-50, 250), (700, 720)), "across", number=2),
        conditions=said(top_load=60.0),
    )
    foot, top = (0.5 * 0.3 * h * 560 for h in (0.7, 0.02))
    f = only(of)
    assert "Least firm of all its states: loaded" in f.message
    assert figure(f, "least push of all states") == pytest.approx((foot * 150 + top * 100) * 9.80665 / 720)
    assert "is enough at rest" in f.message


def test_a_push_is_held_against_the_state_that_yields_first() -> None:
    # empty: 60.5 kg · 150 / 720 = 12.6 kg; loaded it takes 33 kg
    assert "push-tips" in codes(tipping, replace(two_tops(100.0), conditions=said(top_load=100.0, side_push=13.0)))
    assert "push-tips" not in codes(tipping, replace(two_tops(100.0), conditions=said(top_load=100.0, side_push=12.0)))


def test_a_strapped_piece_is_told_what_its_straps_hold_and_stops_no_work() -> None:
    falls = replace(legged(320), stands="strapped")
    assert only(legged(320)).grade is Grade.STOP
    f = only(falls)
    assert (f.grade, f.code) == (Grade.CARE, "strapped")
    weight, out, high = figure(f, "weight"), -figure(f, "inside the feet by"), 720
    assert figure(f, "pull on the straps") == pytest.approx(weight * 9.80665 * out / high)
    assert out > 0 and "straps hold" in f.message


def test_a_strapped_piece_that_stands_by_itself_is_a_note() -> None:
    f = only(replace(slab(200), stands="strapped"))
    assert (f.grade, f.code) == (Grade.NOTE, "strapped") and "stands without the straps" in f.message
    pushed = replace(slab(200), stands="strapped", conditions=said(side_push=PUSH + 1))
    f = only(pushed)
    assert f.grade is Grade.CARE and figure(f, "pull on the straps") == pytest.approx(9.80665, rel=1e-6)


def test_a_strapped_piece_that_hardly_stands_stays_a_care() -> None:
    edge = 1000 * math.tan(math.radians(10))
    assert only(replace(slab(edge + 0.1), stands="strapped")).grade is Grade.NOTE
    f = only(replace(slab(edge - 0.1), stands="strapped"))
    assert f.grade is Grade.CARE and "hardly stands" in f.message


def test_an_angle_just_under_the_limit_does_not_read_as_the_limit() -> None:
    edge = 1000 * math.tan(math.radians(9.97))
    f = only(slab(edge))
    assert f.code == "tips-easily" and "tips at 9.97°" in f.message
    assert "tips at 10.0°" in only(slab(1000 * math.tan(math.radians(10.01)))).message
