"""What is cut across the glued corners: each cut counted once, and told from one side of the piece."""

import pytest

from docgen.drawing.records import Text
from docgen.drawing.wording import Notes, authority_key, figure_text
from docgen.piece.records import Authority
from docgen.sheets import part_glued, part_glued_cuts
from docgen.sheets.part_block import LARGER
from docgen.sheets.part_detail import Letters
from docgen.sheets.part_glued_block import crowded, detailed, fitted
from tests.sheets.test_asked import example
from tests.support.steps import example as listed


def test_a_slot_through_both_parts_of_a_corner_is_counted_once() -> None:
    # four corners: two keys in each of the case, one in each of the front
    context = example("map-case", "a4")
    told = {}
    for parts in part_glued_cuts.groups(context):
        glued = part_glued_cuts.Glued(context, parts, Notes(context.piece.units))
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


@pytest.mark.parametrize(("name", "paper"), [("map-case", "a4"), ("map-case", "a3"), ("sketching-desk", "letter")])
def test_cuts_that_come_out_next_to_nothing_stand_in_details_and_there_alone(name: str, paper: str) -> None:
    c = example(name, paper)
    letters = Letters(c.piece)
    for parts in part_glued_cuts.groups(c):
        glued = part_glued_cuts.Glued(c, parts, Notes(c.piece.units))
        page = (c.layout.area.width, c.layout.area.height)
        plain = fitted(c, glued, page)
        places = tuple(crowded(glued, plain, letters))
        made = detailed(c, glued, plain, places, page)
        assert places and made is not None
        assert made.size[1] <= page[1]
        large, small = (s[0] / s[1] for s in (made.setting.large, made.scale))
        assert LARGER * small <= large <= 1
        told = [r.text for r in made.records if isinstance(r, Text)]
        said = [r.text for r in plain.records if isinstance(r, Text)]
        for place in places:
            scale = made.setting.large
            assert f"Detail {place.letter}   {scale[0]} : {scale[1]}" in told
            assert told.count(place.letter) == 1
            inside = {p.wanted.key for p in made.arranged[place.name].placed}
            assert not inside & place.crowd.keys
        assert all(told.count(text) == said.count(text) for text in said if "×" in text)


def test_a_block_alone_on_its_page_has_all_of_it_for_its_details() -> None:
    c = example("sketching-desk", "letter")
    (sheet,) = part_glued.make(c)
    (parts,) = part_glued_cuts.groups(c)
    glued, page = part_glued_cuts.Glued(c, parts, Notes(c.piece.units)), (c.layout.area.width, c.layout.area.height)
    plain = fitted(c, glued, page)
    whole = detailed(c, glued, plain, tuple(crowded(glued, plain, Letters(c.piece))), page)
    assert whole is not None
    assert sheet.scale == f"{whole.scale[0]} : {whole.scale[1]}"
    assert len(sheet.records) == len(whole.records)
