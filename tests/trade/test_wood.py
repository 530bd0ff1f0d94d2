from fractions import Fraction

import pytest

from docgen.tables import rows
from docgen.trade import boards, density, glueup, moisture, movement, wrapped
from docgen.trade.names import INCH, UnknownName


def test_wood_swells_with_moisture_and_shrinks_without() -> None:
    cherry = movement.species("black cherry")
    assert (cherry.radial, cherry.tangential) == (0.00126, 0.00248)
    assert movement.change(100, cherry.tangential, 8, 10) == pytest.approx(0.496)
    assert movement.change(100, cherry.tangential, 10, 8) == pytest.approx(-0.496)


def test_species_by_name_and_its_nearest() -> None:
    assert movement.species("Black Cherry").species == "black cherry"
    with pytest.raises(UnknownName, match="black cherry"):
        movement.species("blak chery")
    with pytest.raises(UnknownName, match="sugar maple"):
        density.wood("sugar mapel")


def test_greatest_height_takes_the_whole_gap() -> None:
    height = movement.greatest_height(2.0, 0.00248, 4.0)
    assert movement.change(height, 0.00248, 8, 12) == pytest.approx(2.0)
    with pytest.raises(ValueError):
        movement.greatest_height(2.0, 0.00248, 0)


def test_every_wood_has_radial_under_tangential() -> None:
    for r in rows("wood_movement"):
        assert 0 < float(r["radial"]) < float(r["tangential"]) < 0.006, r["name"]


def test_equilibrium_rises_with_humidity() -> None:
    values = [moisture.equilibrium(20, h) for h in range(0, 101, 5)]
    assert values[0] == 0
    assert values == sorted(values)
    with pytest.raises(ValueError):
        moisture.equilibrium(20, 101)
    assert moisture.swing(20, 60, 30) == (moisture.equilibrium(20, 30), moisture.equilibrium(20, 60))


def test_density_follows_from_specific_gravity() -> None:
    for r in rows("wood_density"):
        if r["density"] and r["gravity"]:
            assert float(r["density"]) == pytest.approx(float(r["gravity"]) * 1120, abs=0.6)
    assert density.wood("teak").density is None
    assert density.sheet("plywood, birch") == 680
    with pytest.raises(UnknownName, match="plywood, birch"):
        density.sheet("plywood birch")


def test_quarters() -> None:
    five = boards.quarters("5/4")
    assert (five.rough, five.surfaced) == (Fraction(5, 4) * INCH, Fraction(17, 16) * INCH)
    assert boards.flattening("5/4", INCH) == INCH / 16  # common practice: 1 in finished from 5/4
    with pytest.raises(UnknownName):
        boards.quarters("9/4")


def test_board_feet_and_rough_sizes() -> None:
    assert boards.board_feet(INCH / 2, 12 * INCH, 12 * INCH) == 1.0  # thin stock counts as an inch
    assert boards.rough_size(10 * INCH, 5 * INCH, "inch") == (11 * INCH, Fraction(21, 4) * INCH)
    assert boards.rough_size(100, 50, "mm") == (125, 56)


def test_wrapped_blank() -> None:
    spans = wrapped.positions([400, 860, 400], kerf=3, miss=1, trim=10)
    gap = 3 * 2**0.5 + 1
    assert spans[0] == (10, 410)
    assert spans[1] == pytest.approx((410 + gap, 1270 + gap))
    assert wrapped.blank_length([400, 860, 400], kerf=3, miss=1, trim=10) == pytest.approx(spans[2][1] + 10)
    assert wrapped.blank_length([], kerf=3, miss=1, trim=10) == 0
    assert wrapped.blank_length([400], kerf=3, miss=1, trim=10) == 420


def test_losses_at_wrapped_mitres() -> None:
    assert wrapped.lost_outside(3) == pytest.approx(4.2426, abs=1e-4)
    assert wrapped.grain_break(0, 10) == pytest.approx(5.858, abs=1e-3)
    assert wrapped.keep_out(20, 3, tenon=8, margin=2) == pytest.approx(20 + 2.1213 + 4 + 2, abs=1e-4)


def test_clamps_by_the_45_degree_rule() -> None:
    assert glueup.greatest_spacing(100) == 200
    assert glueup.clamps(600, 100) == 3
    assert glueup.clamps(600.5, 100) == 4
    assert glueup.clamps(10, 100) == 1
    assert glueup.clock(faces=2, tenons=3, clamps=4, seconds=(10, 20, 5)) == 100
    with pytest.raises(ValueError):
        glueup.clamps(100, 0)


def test_sheets_of_known_stiffness() -> None:
    """Every row says how it was come by; no board is stiffer across its face grain than along it, and all creep but glass."""
    found = [density.panel(r["name"]) for r in rows("panel_stiffness")]
    assert all(p.along >= p.across > 0 and p.source for p in found)
    assert {p.name for p in found if p.creep == 1} == {"float glass"}
    assert density.panel("mdf").along == density.panel("MDF").along < density.panel("plywood, birch").across
    assert {p.name for p in found} <= {r["name"] for r in rows("panel_materials")}
    with pytest.raises(UnknownName, match="plywood, birch"):
        density.panel("plywood, brich")


EUROPE = ("European oak", "European beech", "European ash", "European larch", "Scots pine", "Norway spruce", "sycamore")


@pytest.mark.parametrize("name", [*EUROPE, "European lime"])
def test_the_woods_of_europe_are_known_with_a_source_beside_each_value(name: str) -> None:
    moves, is_ = movement.species(name), density.wood(name)
    assert is_.density is not None and 400 < is_.density < 800
    assert 7000 < is_.modulus < 15000
    assert moves.source and is_.source and "Wood Handbook" not in moves.source + is_.source
    # total shrinkage from where it begins to ovendry is about 30 times what 1 % does, radial and tangential alike
    assert 0.6 < moves.shrink_tangential / (100 * moves.tangential * 30) < 1.4


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("oak", ("white oak", "northern red oak", "European oak")),
        ("larch", ("European larch",)),
        ("English oak", ("white oak",)),
    ],
)
def test_a_maker_s_word_hints_at_each_wood_of_that_name(said: str, meant: tuple[str, ...]) -> None:
    with pytest.raises(UnknownName) as told:
        density.wood(said)
    assert set(meant) <= set(told.value.hints)
