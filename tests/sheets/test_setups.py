"""The sheet of set-ups: where a helper finds the places of a cut, in its row or on another sheet."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.schedules.rows import SetupRow, SetupRun
from docgen.sheets import setups
from tests.sheets.lists import context, said
from tests.sheets.test_joinery import context as joinery_context
from tests.support.steps import example

RUN = SetupRun(("left side",), "dado for shelf", (), "")


def sheet(machine: str, what: str = "dado", note: str = "", run: SetupRun = RUN) -> str:
    of = context()
    row = SetupRow(machine, what, (), (("left side", "dado for shelf"),), note, 1, "", (run,))
    return said(setups.make(replace(of, lists=replace(of.lists, setups=(row,), jigs=())), {}))


@pytest.mark.parametrize(
    ("machine", "note", "told"),
    [
        ("drill press", "", "by the drilling chart"),
        ("tap", "", "by the drilling chart"),
        ("router", "", "by the part sheet"),
        ("drill press", "the template shows the centres", "by its template"),
    ],
)
def test_no_row_leaves_the_place_open(machine: str, note: str, told: str) -> None:
    assert told in sheet(machine, note=note)


def test_places_from_one_side_stand_in_one_line() -> None:
    from_front = (
        ("rim of the cutter stops from the front edge", Fraction(127, 10), "length"),
        ("full width ends from the front edge", Fraction(254, 10), "length"),
        ("then", "square the stopped end with a chisel", "text"),
    )
    printed = sheet("router", run=replace(RUN, places=from_front))
    assert "from the front edge: rim of the cutter stops" in printed
    assert "square the stopped end with a chisel" in printed and "by the part sheet" not in printed


def test_no_comma_stands_before_a_figure() -> None:
    printed = sheet("table saw", run=replace(RUN, places=(("begins, from the top end", Fraction(127, 10), "length"),)))
    assert "from the top end: begins" in printed and "begins," not in printed


def test_what_all_runs_share_is_told_once_above_them() -> None:
    face, middle = ("in", "the bottom edge (crest)", "text"), ("middle from the show face", Fraction(10), "length")
    runs = tuple(
        SetupRun(
            ("left side",), f"mortise {n}", (face, middle, ("near end from the left end", Fraction(n), "length")), "run"
        )
        for n in (20, 40)
    )
    of = context()
    row = SetupRow("router", "mortise", (), (("left side", "mortise"),), "", 1, "", runs)
    printed = said(setups.make(replace(of, lists=replace(of.lists, setups=(row,), jigs=())), {}))
    for told in ("In the bottom edge (crest).", "From the show face: middle", "Run."):
        assert printed.count(told) == 1 and printed.index(told) < printed.index("mortise 20")
    alike = replace(
        row, runs=tuple(replace(run, places=(middle,)) for run in runs)
    )  # nothing else would stand in the rows
    printed = said(setups.make(replace(of, lists=replace(of.lists, setups=(alike,), jigs=())), {}))
    assert printed.count("from the show face: middle") == 2


def test_figures_in_a_line_have_their_unit_once() -> None:
    ends = tuple(
        (f"{n} from the left end", Fraction(254 * v, 10), "length") for n, v in (("near end", 2), ("far end", 3))
    )
    assert "from the left end: near end 2, far end 3 in" in sheet("router", run=replace(RUN, places=ends))


def test_holes_that_have_no_name_in_their_words_get_it_here() -> None:
    told = said(setups.make(joinery_context("map-case"), {}))
    assert "hole W rail by the drilling chart" in " ".join(told.split())
    assert "screw holes A into case left side, B into" in " ".join(told.split())


def test_the_stock_of_test_pieces_is_told_once_where_it_is_that_of_the_parts() -> None:
    of = context("a4")
    row = SetupRow("router", "dado", (), (("left side", "dado"),), "", 1, "", (RUN,))

    def printed(*proof: str) -> str:
        lists = replace(of.lists, setups=(replace(row, proof=proof),), jigs=())
        return " ".join(said(setups.make(replace(of, lists=lists), {})).split())

    plain = printed(
        "an offcut of the same stock, 20 mm thick and an offcut of the same stock, 14 mm thick", "width 8 mm"
    )
    assert "Test piece, 20 mm thick and 14 mm thick: width 8 mm." in plain
    assert "an offcut of the same stock where no other is named" in plain
    assert "Test piece: an offcut of the same plywood, 6 mm thick: ok." in printed(
        "an offcut of the same plywood, 6 mm thick", "ok"
    )


@pytest.mark.parametrize("name", ["bookcase", "dovetailed-box", "settle", "tool-tote"])
def test_the_head_tells_what_leads_a_router_where_a_set_up_asks_for_it(name: str) -> None:
    # wood and straightedge on the left, the edge of a fence on the right: the bit turns clockwise, seen from above
    rows = example(name)[1].setups
    head = setups.by_hand(rows)
    assert "turns clockwise" in head and "open edge lies on the left" in head
    fed = [run.feed for row in rows for run in row.runs if row.machine == "router"]
    places = [p[0] for row in rows for run in row.runs for p in run.places]
    fence = any("fence on" in f or "at one stop" in f for f in fed)
    assert ("rides on an edge on the right" in head) is fence
    assert ("straightedge clamped to the wood" in head) is any(p.startswith("near wall") for p in places)
    assert "far one" not in head
