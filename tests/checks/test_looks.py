"""Which checks had something to look at, and what the file would have to say for the others."""

from dataclasses import replace

from docgen.checks import looks, run
from docgen.checks.looks import Looks
from docgen.piece.model import Group
from docgen.units import Kind, Quantity
from tests.support.pieces import part, piece

SHELF = part("shelf", ((0, 860), (0, 280), (0, 20)), "across")
SIDE = part("side", ((0, 20), (0, 300), (0, 700)))
LOAD = ("shelf load", Quantity(30, Kind.MASS), "")


def test_sag_looks_at_a_level_board_with_a_load_and_says_what_it_lacks() -> None:
    title = "sag of shelves under the stated loads"
    assert title in dict(run.missing(piece(SHELF)))["no load"]
    assert title not in run.looked(piece(SHELF))
    loaded = piece(SHELF, conditions=(LOAD,))
    assert title in run.looked(loaded) and "no load" not in dict(run.missing(loaded))
    upright = piece(SIDE)
    assert title not in run.looked(upright) and "no load" not in dict(run.missing(upright))


def test_what_is_not_in_the_piece_was_not_looked_at() -> None:
    bare = run.looked(piece(SIDE))
    for words in ("slides", "panes", "screws", "swing", "drawers, doors", "holes"):
        assert not any(title.startswith(words) for title in bare), words
    turning = piece(SIDE, groups=(Group("lid", ("side",), (0.0, 0.0, 0.0), 0, (0, 90)),))
    assert "the swing of groups that tilt or turn" in run.looked(turning)
    assert not looks.doors(turning) and looks.tilting(turning)


def test_a_piece_on_the_wall_is_not_said_to_be_looked_at_for_tipping() -> None:
    def tipping(stands: str) -> bool:
        return any(title.startswith("tipping") for title in run.looked(replace(piece(SIDE), stands=stands)))

    assert tipping("floor") and not tipping("wall")


def test_a_check_that_lacks_a_subject_misses_nothing() -> None:
    never, always = (lambda _: False), (lambda _: True)
    assert Looks(never, never, "a load").missing(piece(SIDE)) == ""
    assert Looks(always, never, "a load").missing(piece(SIDE)) == "a load"
    assert Looks(always, always, "a load").missing(piece(SIDE)) == ""
    assert Looks(always).looked(piece(SIDE)) and not Looks(always, never, "a load").looked(piece(SIDE))


def test_all_that_found_something_had_looked() -> None:
    named = set(run.names())
    assert set(run.looked(piece(SHELF, SIDE))) <= named
