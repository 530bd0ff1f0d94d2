"""What is cut across the glued corners: each cut counted once, and told from one side of the piece."""

from docgen.drawing.wording import Notes, authority_key, figure_text
from docgen.piece.records import Authority
from docgen.sheets import part_glued
from tests.sheets.test_asked import example
from tests.support.steps import example as listed


def test_a_slot_through_both_parts_of_a_corner_is_counted_once() -> None:
    # four corners: two keys in each of the case, one in each of the front
    context = example("map-case", "a4")
    told = {}
    for parts in part_glued.groups(context):
        glued = part_glued.Glued(context, parts, Notes(context.piece.units))
        told[glued.title] = [
            figure_text(f.size, Notes(context.piece.units), f.count) for every in glued.told.values() for f in every
        ]
    assert sorted(told["case"]) == ["4× spacing ≈21.7", "4× ≈20.2 (a)", "8× 15 deep", "8× slot 3"]
    assert sorted(told["front"]) == ["4× 11 (a)", "4× 24 deep", "4× slot 3"]


def test_the_set_up_of_the_slots_says_from_which_side_they_are_placed() -> None:
    _, lists = listed("map-case")
    runs = [run for row in lists.setups for run in row.runs if run.what == "slots for keys"]
    assert [[name for name, _, _ in run.places] for run in runs] == [
        ["first slot, middle, from the front edge", "the next, middle to middle"],
        ["middle, from the front face"],
    ]


def test_each_authority_is_explained_once() -> None:
    assert authority_key([Authority.CUT, Authority.FIT, Authority.CUT, Authority.CUT]) == [
        "no sign: cut to this figure",
        "⊕ leave wood on, then fit to its mate",
    ]
