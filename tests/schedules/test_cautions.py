"""Which cautions a piece asks for, and in what words."""

import re

from docgen.piece.model import Drawer, Piece
from docgen.piece.records import Caution, Made, Setting
from docgen.piece.solids import Solids
from docgen.schedules.cautions import cautions
from docgen.schedules.rows import CautionRow
from tests.examples.test_pieces import example
from tests.support.pieces import feature, part, piece
from tests.support.steps import example as listed
from tests.support.steps import steps

SIDE = ((0, 20), (0, 300), (0, 700))


def rows(of: object) -> dict[str, CautionRow]:
    return {row.key: row for row in cautions(of, Solids(of))}  # type: ignore[arg-type]


def test_thin_strips_are_ripped_off_a_wide_board_and_that_is_said_where_they_are_sawn() -> None:
    told = rows(example("door-cabinet").piece)
    assert any("bead" in why for why in told["thin strips"].why)
    assert any("away from the fence" in line for line in told["thin strips"].lines)
    step = next(s for s in steps("door-cabinet") if s.startswith("Cut the wood of"))
    assert "in a board 100 mm wide or more" in step
    assert "thin strips" not in rows(example("wall-shelf").piece)

    def strip(wide: float) -> Piece:
        return piece(part("strip", ((0, 20), (0, wide), (0, 700))))

    assert "thin strips" in rows(strip(25.4)) and "thin strips" not in rows(strip(25.5))


def test_a_piece_on_the_wall_is_told_of_the_wall_and_not_of_the_floor() -> None:
    for name in ("wall-shelf", "map-case"):
        told = rows(example(name).piece)
        assert "hung on the wall" in told and "tipping" not in told and "drawers" not in told


def test_only_pieces_with_drawers_are_told_of_drawers() -> None:
    assert "drawers" in rows(example("sketching-desk").piece)
    for name in ("splayed-stool", "tool-tote", "settle"):
        told = rows(example(name).piece)
        assert "drawers" not in told
        assert not any("drawer" in line for line in told["tipping"].lines)
    drawn = piece(part("side", SIDE), drawers=(Drawer("one", ("side",), ((0, 1), (0, 1), (0, 1)), 0, 300, 2),))
    assert "drawers" in rows(drawn) and "drawers" not in rows(piece(part("side", SIDE)))


def test_a_cut_that_needs_the_guard_off_has_its_own_caution() -> None:
    told = rows(example("map-case").piece)
    assert any("slots for keys" in why for why in told["cut without the guard"].why)
    assert any("guard and knife back" in line for line in told["cut without the guard"].lines)
    assert any("card over the glass" in line for line in told["glass"].lines)
    assert "cut without the guard" not in rows(example("sketching-desk").piece)


def test_a_taper_is_no_mitre_and_the_mitres_leave_light_and_stop_to_the_set_up() -> None:
    told = rows(example("side-table").piece)
    assert any("taper" in why for why in told["table saw"].why)
    assert not any("taper" in why for row in told.values() if row.key == "mitre on saw" for why in row.why)
    lines = " ".join(rows(example("map-case").piece)["mitre on saw"].lines)
    assert "light may show at the inside only" not in lines and "gives no end stop" in lines
    assert any("hinges get every screw" in line for line in rows(example("map-case").piece)["heavy panel"].lines)


def test_a_large_profile_asks_for_the_table_on_the_safety_page() -> None:
    told = rows(example("sketching-desk").piece)
    guided = told["bearing-guided bit"]
    assert any("outside corner after glue-up" in why for why in guided.why)
    assert any("Take large profiles in a table" in line for line in guided.lines)
    assert any("outside corner" in why for why in told["router table"].why)
    assert not any("outside corner" in why for why in told["router"].why)


def test_a_box_as_wide_as_it_is_high_is_not_told_of_tipping() -> None:
    assert "tipping" not in rows(piece(part("block", ((0, 400), (0, 300), (0, 300)))))
    assert "tipping" in rows(piece(part("block", ((0, 400), (0, 300), (0, 301)))))


def test_work_is_named_as_its_set_up_names_it() -> None:
    made = Made(
        settings=(Setting("router", "tenon, shoulders", ()), Setting("router", "cheeks", ())),
        cautions=(Caution("router"), Caution("chisel")),
    )
    told = rows(piece(part("rail", SIDE, features=(feature("tongue", made),))))
    assert told["router"].why == ("tenon, cheeks in rail",)
    assert told["chisel"].why == ("tenon in rail",)


def test_no_word_of_the_file_stands_where_the_shop_has_its_own() -> None:
    for name in ("sketching-desk", "map-case", "settle", "splayed-stool"):
        said = "; ".join(why for row in rows(example(name).piece).values() for why in row.why)
        for word in ("end cut", "key slots", "scribed cut", "glued corner", "tongue in apron", "cut out"):
            assert word not in said, (name, word)


def test_milling_and_sawing_to_size_are_asked_for_by_the_steps_that_do_them() -> None:
    does = ("Mill it all", "Last pass of milling", "rough size.", "to width and square", "Do not crosscut")
    for name in ("bookcase", "sketching-desk", "splayed-stool"):
        lists = listed(name)[1]
        why = next(row.why[0] for row in lists.cautions if row.key == "milling and sawing")
        found = {int(word) for word in re.findall(r"\d+", why)}
        expected = {row.number for row in lists.work if row.phase == "Stock" and any(w in row.what for w in does)}
        later = {row.number for row in lists.work if row.what.startswith("Measure") and "; then cut" in row.what}
        assert expected and found == expected | later, name
    assert "milling and sawing" not in rows(piece(part("side", SIDE)))  # no step, no caution


def test_parts_too_short_for_the_machines_stay_together_until_they_are_milled() -> None:
    """The desk's cheeks are 5 3/4 in long; the bookcase has nothing under 300 mm."""
    why = next(row.why for row in listed("sketching-desk")[1].cautions if row.key == "milling and sawing")
    assert any("too short by themselves" in w and "cheek" in w and "divider" in w for w in why)
    assert any("Leave divider, 2× cheek together in lengths of 12 in or more" in s for s in steps("sketching-desk"))
    assert len(next(row.why for row in listed("bookcase")[1].cautions if row.key == "milling and sawing")) == 1
    assert not any("together in lengths" in s for s in steps("bookcase"))
    kept = next(s for s in steps("dovetailed-box") if "together in lengths" in s).split(" Leave ")
    assert "ledge" in kept[1] and "ledge" not in kept[2]  # what is ripped off a wide board is told there
