from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.piece.model import Kind, Material, Run
from docgen.piece.records import Allowance, Authority, Face, Made
from docgen.piece.solids import Solids
from docgen.schedules.blanks import blanks, round_up
from docgen.schedules.cutting import cutting, rough_of
from docgen.schedules.stock import stock
from docgen.schedules.terms import (
    bought_thickness,
    grained,
    hands,
    kind_title,
    kind_titles,
    numbered,
    short_title,
    stated,
    weight,
)
from docgen.units import Kind as QuantityKind
from docgen.units import Quantity
from tests.support.pieces import CHERRY, INCH, MM, PLY, feature, part, piece

SIDE = ((0, 20), (0, 300), (0, 700))
OTHER = ((480, 500), (0, 300), (0, 700))
TOP = ((0, 500), (0, 300), (700, 720))


def tongue(side: int, amount: int) -> Made:
    return Made(allowances=(Allowance(Face(0, side), amount, "tongue"),))


def two_sides(**more: object):  # type: ignore[no-untyped-def]
    of = piece(
        part("left side", SIDE), part("right side", OTHER, number=2), part("top", TOP, "across", number=3), **more
    )
    kinds = (Kind(("left side",), ("right side",)), Kind(("top",)))
    return of, Solids(of), kinds


@pytest.mark.parametrize(
    ("names", "title"),
    [
        (["top"], "top"),
        (["left side", "right side"], "side (left, right)"),
        (["tray left", "tray right"], "tray left and right"),
        (["shelf 1", "shelf 2"], "shelf"),
        (["drawer, left side", "drawer, right side"], "drawer side (left, right)"),
        (["front left leg", "front right leg", "back left leg"], "leg"),
        (["top", "bottom"], "top, bottom"),
    ],
)
def test_equal_parts_get_one_name(names: list[str], title: str) -> None:
    assert kind_title(names) == title


def test_hands_are_not_told_twice() -> None:
    assert kind_title(["left front leg", "right front leg"], handed=True) == "front leg"


def test_words_that_change_places_are_not_shared() -> None:
    assert kind_title(["left door right stile", "right door left stile"], handed=True) == "door stile"


def test_kinds_that_share_their_words_say_which_they_are() -> None:
    names = ("left bead", "right bead", "top bead", "bottom bead", "lid")
    of = piece(*(part(name, SIDE, number=n) for n, name in enumerate(names, 1)))
    kinds = (Kind(("left bead",), ("right bead",)), Kind(("top bead",), ("bottom bead",)), Kind(("lid",)))
    assert kind_titles(of, kinds) == ("bead (left, right)", "bead (top, bottom)", "lid")


def test_the_short_name_of_parts_is_a_thing_or_nothing() -> None:
    assert short_title(["front left leg", "back right leg"]) == "leg"
    assert short_title(["slat 1", "slat 2"]) == "slat"
    assert short_title(["case top", "case bottom"]) == ""


def test_hands_are_told_apart() -> None:
    assert hands(Kind(("left side",), ("right side",))) == "1 left, 1 right"
    assert hands(Kind(("a", "b"), ("c",))) == "2 one hand, 1 the other"
    assert hands(Kind(("left side", "right side"))) == ""
    assert hands(Kind(("left rail",), ("left post",))) == "1 one hand, 1 the other"
    stiles = Kind(("left door.right stile",), ("right door.left stile",))
    assert hands(stiles) == "1 for the left door, 1 for the right door"
    assert hands(Kind(("door.a", "door.b"), ("door.c",))) == "2 one hand, 1 the other"


def test_a_row_for_each_kind() -> None:
    of, solids, kinds = two_sides()
    side, top = cutting(of, solids, kinds)
    assert (side.title, side.count, side.hands, side.number) == ("side", 2, "1 left, 1 right", 1)
    assert side.finished == (700, 300, 20)
    assert side.rough == (725, 306, Fraction(254, 10))
    assert side.board_feet == pytest.approx(2 * 725 * 306 * 25.4 / (144 * 25.4**3))
    assert side.weight_kg == pytest.approx(0.7 * 0.3 * 0.02 * 560)
    assert side.grain == "along the length"
    assert top.title == "top" and top.hands == ""


def test_finished_sizes_hold_the_tongues() -> None:
    of = piece(
        part("shelf", TOP, "across", features=(feature("tongue", tongue(0, 6)), feature("tongue", tongue(1, 7))))
    )
    (row,) = cutting(of, Solids(of), (Kind(("shelf",)),))
    assert row.finished == (513, 300, 20)
    assert row.rough[0] == 538


def test_sheets_are_measured_by_area_and_cut_without_trim() -> None:
    of = piece(part("back", ((0, 500), (0, 12), (0, 700)), material=PLY, authority=Authority.MEASURE))
    (row,) = cutting(of, Solids(of), (Kind(("back",)),))
    assert row.rough == row.finished == (700, 500, 12)
    assert row.area_m2 == pytest.approx(0.35) and row.board_feet is None
    assert row.grain == "face grain along the length"
    assert row.authority is Authority.MEASURE


def test_bought_parts_are_not_in_the_cutting_list() -> None:
    of = piece(part("slide", SIDE, hardware=True))
    assert cutting(of, Solids(of), (Kind(("slide",)),)) == ()


def test_parts_wider_than_the_stock_are_glued_up() -> None:
    def note(width: int) -> str:
        narrow = Material(
            "cherry", Fraction(20), species="black cherry", bought="4/4", stock=(Fraction(2400), Fraction(width))
        )
        of = piece(part("side", SIDE, material=narrow))
        return cutting(of, Solids(of), (Kind(("side",)),))[0].note

    assert note(306) == ""
    assert note(305) == "glued up of 2 boards or more, stock is 305 mm wide"
    assert note(100).startswith("glued up of 4 boards")


def test_parts_of_a_blank_are_measured_with_it() -> None:
    run = Run("case", ("left side", "top", "right side"), ("right", "bottom", "left"), radius=Fraction(25))
    of, solids, kinds = two_sides(runs=(run,))
    side, top = cutting(of, solids, kinds)
    assert side.blank == top.blank == "case"
    assert side.board_feet is None and side.grain == "runs around: see blank case"
    (blank,) = blanks(of)
    gap = 3 * 2**0.5 + 1.5
    assert [p.path for p in blank.pieces] == ["left side", "top", "right side"]
    assert blank.pieces[0].start == 25
    assert blank.pieces[1].start - blank.pieces[0].end == pytest.approx(gap)
    assert 0 <= blank.length - (700 + 500 + 700 + 2 * gap + 50) < 1 and blank.length % 1 == 0
    assert (blank.width, blank.thickness, blank.unmatched) == (306, Fraction(254, 10), "")
    assert "within 22.2 mm" in blank.note  # 20 + 3·√2/2 = 22.12, rounded up
    (row,) = stock(of, (side, top), (blank,))
    assert row.net == pytest.approx(float(blank.length) * 306 * 25.4 * 1e-9)
    assert (row.rows, row.unit, row.waste_percent) == (2, "m³", 25)
    (inch,) = stock(replace(of, units=INCH), (side, top), (blank,))
    assert (inch.net, inch.unit) == (pytest.approx(blank.board_feet), "board feet")
    assert row.with_waste == pytest.approx(1.25 * row.net)
    assert inch.with_waste == pytest.approx(1.25 * inch.net)


def test_a_closed_run_names_the_corner_that_cannot_meet() -> None:
    run = Run("case", ("left side", "top", "right side"), ("right", "bottom", "left"), closed=True)
    of, _, _ = two_sides(runs=(run,))
    assert blanks(of)[0].unmatched == "right side and left side"


def test_equal_parts_of_a_blank_go_by_the_number_of_their_kind() -> None:
    run = Run("case", ("left side", "top", "right side"), ("right", "bottom", "left"))
    of, _, _ = two_sides(runs=(run,))
    same = Kind(("left side", "right side"))
    (blank,) = blanks(of, (same,))
    assert [p.number for p in blank.pieces] == [of.part(p).number for p in ("left side", "top", "left side")]


def test_the_kerf_is_the_stated_one() -> None:
    run = Run("case", ("left side", "top"), ("right", "bottom"))
    of, _, _ = two_sides(runs=(run,), shop=(("kerf", Fraction(2)),))
    assert blanks(of)[0].kerf == 2


def test_a_stated_condition_is_found_by_name() -> None:
    load = ("shelf load", Quantity(Fraction(20), QuantityKind.MASS), "stated")
    assert stated(piece(conditions=(load,)), "shelf load") == 20
    assert stated(piece(conditions=(load,)), "top load") is None


def test_one_kind_in_and_out_of_a_blank_makes_two_rows() -> None:
    run = Run("case", ("left side", "top"), ("right", "bottom"))
    of, solids, kinds = two_sides(runs=(run,))
    rows = cutting(of, solids, kinds)
    assert [(r.title, r.blank, r.hands) for r in rows] == [
        ("left side", "case", ""),
        ("right side", "", ""),
        ("top", "case", ""),
    ]


def test_inch_files_trim_in_inches() -> None:
    of = piece(part("side", SIDE), units=INCH)
    (row,) = cutting(of, Solids(of), (Kind(("side",)),))
    assert row.rough[0] == Fraction(229, 8) * Fraction(254, 10)  # 700 mm and an inch are 28.56 in: eighths are told
    assert row.rough[1] == Fraction(97, 8) * Fraction(254, 10)  # 300 mm and a quarter: 12.06 in


def test_weight_is_unknown_where_the_density_is() -> None:
    odd = Material("odd", Fraction(20), species="moon wood")
    stated_wood = Material("odd", Fraction(20), species="moon wood", density=500.0)
    of = piece(part("a", SIDE, material=odd), part("b", SIDE, material=stated_wood))
    assert weight(of.parts[0], Solids(of)) is None
    assert weight(of.parts[1], Solids(of)) == pytest.approx(2.1)
    rows = cutting(of, Solids(of), (Kind(("a",)), Kind(("b",))))
    assert stock(of, rows, ())[0].weight_kg is None


def test_names_that_are_counted_through_are_told_in_one() -> None:
    assert numbered(["slat 1", "crest", "slat 2", "slat 3"]) == ["slat 1 to 3", "crest"]
    assert numbered(["shelf 1", "shelf 2"]) == ["shelf 1", "shelf 2"]
    assert numbered(["shelf 1", "shelf 2", "shelf 4"]) == ["shelf 1", "shelf 2", "shelf 4"]


def test_zones_are_rounded_up() -> None:
    assert round_up(22.12, Fraction(1, 10)) == Fraction(222, 10)
    assert round_up(Fraction(22), Fraction(1, 10)) == 22
    assert MM.system == "mm" and CHERRY.solid_wood


@pytest.mark.parametrize(
    ("bought", "thick"),
    [("40", 40), ("50 mm", 50), ("1 1/2 in", 38.1), ("5/4", 31.75), ("2 in", 50.8), ("what there is", 42), ("1/0", 42), ("", 42)],
)  # fmt: skip
def test_the_thickness_to_buy_is_read_as_a_dealer_writes_it(bought: str, thick: float) -> None:
    boards = Material("boards", Fraction(36), species="white ash", bought=bought)
    assert float(bought_thickness(boards, MM)) == pytest.approx(thick)


def test_wood_of_which_no_thickness_to_buy_is_stated_keeps_what_milling_takes_off() -> None:
    # 20 mm finished came out as 20 mm rough, and a fifth too little was bought
    boards = Material("boards", Fraction(20), species="white ash")
    assert rough_of(boards, (800, 180, 20), MM) == (825, 186, 26)
    assert bought_thickness(Material("boards", Fraction(1905, 100), species="black cherry"), INCH) == Fraction(254, 10)
    assert bought_thickness(Material("ply", Fraction(6), sheet="plywood, birch"), MM) == 6


def test_a_bare_number_is_in_the_unit_of_the_file() -> None:
    boards = Material("boards", Fraction(36), species="white ash", bought="2")
    assert float(bought_thickness(boards, INCH)) == pytest.approx(50.8)


def test_wood_and_plywood_have_a_grain_glass_has_none() -> None:
    assert grained(CHERRY) and grained(PLY)
    assert not grained(Material("pane", 4, sheet="float glass")) and not grained(Material("plate", 2, sheet="brass"))


def test_the_shared_words_stand_in_the_order_of_all_names() -> None:
    assert kind_title(["bottom drawer bottom", "drawer 1 bottom", "drawer 2 bottom"]) == "drawer bottom"
    assert kind_title(["drawer 1 bottom", "bottom drawer bottom"]) == "drawer bottom"
