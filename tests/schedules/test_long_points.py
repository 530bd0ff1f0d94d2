"""Where an end is cut aslant by then, places run from its long point, and say so."""

import pytest

from docgen.piece.datums import end_word
from docgen.piece.records import Face
from tests.support.steps import example


def names(name: str, what: str, part: str) -> set[str]:
    """Return from where the places of a cut run."""
    rows = example(name)[1].setups
    runs = [r for s in rows for r in s.runs if r.what == what and part in r.parts]
    return {n.partition(" from ")[2] for r in runs for n, _, kind in r.places if kind == "length" and " from " in n}


@pytest.mark.parametrize(
    ("name", "what", "part", "told"),
    [
        # mitred at both ends by then: on the inner face the wood begins a board's thickness further in
        ("sketching-desk", "dado (housing) for divider", "case.top", "the long point of the left end"),
        # its foot is level by then, and leans across the edge in which the mortise lies
        ("sketching-desk", "mortise for stretcher", "stand.left rear", "the long point of the bottom end"),
        ("map-case", "recess for a hinge", "case.left", "the long point of the bottom end"),
        ("tool-tote", "dado (housing) for bottom", "left end", "the bottom end"),  # square
        ("side-table", "mortise for front apron", "front left leg", "the top end"),  # tapered along, square across
    ],
)
def test_a_set_up_names_the_long_point_of_an_end_that_leans_by_then(name: str, what: str, part: str, told: str) -> None:
    assert told in names(name, what, part)
    assert not any(n != told and n.endswith(told.rpartition(" the ")[2]) for n in names(name, what, part))


def test_cuts_that_make_an_end_lean_keep_their_own_words() -> None:
    told = [n for s in example("sketching-desk")[1].setups for r in s.runs for n, _, _ in r.places]
    assert not any(n.count("long point") > 1 or ("short" in n and "from the long point" in n) for n in told)


def test_sticks_and_chart_say_it_too() -> None:
    piece, lists = example("sketching-desk")
    assert {s.datum for s in lists.sticks if "case.top" in s.parts} == {"left end, long point"}
    assert any(row.datum_end == "bottom end, long point" for row in lists.chart)
    assert end_word(piece.part("bottom"), Face(0, 0)) == "left shoulder"
    stool, _ = example("splayed-stool")
    assert end_word(stool.part("front left leg"), Face(0, 0)) == "bottom end"  # cut level when it stands
