"""Each capacity of the shop, met exactly and just exceeded."""

from fractions import Fraction

import pytest

from docgen.checks import shop
from docgen.checks.finding import Finding, Grade
from docgen.piece.model import Piece
from docgen.piece.records import Face, Feature, HoleRow, Made, Purpose, Setting
from tests.support.checking import codes, found
from tests.support.pieces import PLY, feature, part, piece

LONG, WIDE, THICK = 700, 300, 40
NEAR = Fraction(1, 100)


def board(features: tuple[Feature, ...] = (), **stated: object) -> Piece:
    said = tuple((name.replace("_", " "), value) for name, value in stated.items())
    return piece(part("side", ((0, THICK), (0, WIDE), (0, LONG)), features=features), shop=said)


def only(of: Piece) -> Finding:
    (f,) = found(shop, of)
    return f


def test_a_file_that_states_no_shop_is_not_judged() -> None:
    assert codes(shop, board((drilled(), cut(TILT=45)))) == []


@pytest.mark.parametrize(
    ("name", "size", "code"),
    [
        ("saw_depth", THICK, "beyond-saw"),
        ("fence_reach", WIDE, "beyond-machine"),
        ("sled", LONG, "beyond-machine"),
        ("jointer", WIDE, "beyond-machine"),
        ("planer", WIDE, "beyond-machine"),
        ("sander", WIDE, "beyond-machine"),
    ],
)
def test_boards_against_machines(name: str, size: int, code: str) -> None:
    assert codes(shop, board((), **{name: Fraction(size)})) == []
    f = only(board((), **{name: size - NEAR}))
    assert (f.grade, f.code, f.figures[0][1]) == (Grade.CARE, code, size)
    assert f.advice


def test_sheets_do_not_go_through_the_planer() -> None:
    sheet = part("back", ((0, 500), (0, 12), (0, 700)), material=PLY)
    for name, expected in (("planer", []), ("jointer", []), ("fence reach", ["beyond-machine"])):
        assert codes(shop, piece(sheet, shop=((name, Fraction(200)),))) == expected


def test_what_is_bought_is_not_cut() -> None:
    of = piece(part("slide", ((0, 40), (0, 300), (0, 700)), hardware=True), shop=(("sled", Fraction(100)),))
    assert codes(shop, of) == []


def cut(**values: float) -> Feature:
    names = {"TILT": shop.TILT, "GAUGE": shop.GAUGE}
    said = tuple((names[name], value, "angle") for name, value in values.items())
    return feature("bevel", Made(settings=(Setting("table saw", "bevel", said),)))


def test_a_tilted_blade_cuts_less_deep() -> None:
    leaning = (cut(TILT=45),)
    assert codes(shop, board(leaning, saw_depth=Fraction(80), saw_depth_at_45=Fraction(THICK))) == []
    assert codes(shop, board(leaning, saw_depth=Fraction(80), saw_depth_at_45=THICK - NEAR)) == ["beyond-saw"]
    assert codes(shop, board(leaning, saw_depth_at_45=THICK - NEAR)) == ["beyond-saw"]


def test_tilts_between_the_stated_ones() -> None:
    both = {"saw depth": 80, "saw depth at 45": 50}
    assert [shop.saw_depth(both, t) for t in (0, 15, 45)] == [80, 70, 50]
    assert shop.saw_depth({"saw depth": 80}, 60) == pytest.approx(40)
    assert shop.saw_depth({"saw depth at 45": 50}, 30) is None
    assert shop.saw_depth({}, 30) is None


def test_the_gauge() -> None:
    assert codes(shop, board((cut(GAUGE=50),), gauge=50)) == []
    f = only(board((cut(GAUGE=50.1),), gauge=50))
    assert f.code == "beyond-gauge" and f.figures[0] == ("needed", 50.1, "deg")
    assert codes(shop, board((cut(GAUGE=50.1),), sled=Fraction(LONG))) == []


def drilled(*, at: tuple[int, int] = (200, 150), depth: Fraction | None = None) -> Feature:
    hole = HoleRow("A", Purpose.PLAIN, Face(2, 0), ((*at, 0),), (0.0, 0.0, 1.0), Fraction(6), "6 mm", depth)
    return feature("hole", Made(holes=(hole,)))


def test_reach_and_stroke_of_the_drill_press() -> None:
    # 120 from one edge, 180 from the other, 200 from the end
    holes = (drilled(at=(200, 120)),)
    assert codes(shop, board(holes, drill_reach=Fraction(120))) == []
    assert codes(shop, board(holes, drill_reach=120 - NEAR)) == ["beyond-drill-press"]
    assert codes(shop, board(holes, drill_stroke=Fraction(THICK))) == []
    assert codes(shop, board(holes, drill_stroke=THICK - NEAR)) == ["beyond-drill-press"]
    assert codes(shop, board((drilled(depth=Fraction(30)),), drill_stroke=Fraction(30))) == []
