"""Parts in few words."""

from docgen.sheets.counted import counted
from tests.sheets.test_asked import example


def test_all_parts_but_a_few_are_told_by_those_few() -> None:
    context = example("door-cabinet", "a4")
    every = [p.path for p in context.piece.parts if not p.hardware]
    panes = ["left door.pane", "right door.pane"]
    assert counted(context, every) == "all parts"
    assert counted(context, [p for p in every if p not in panes]) == "all parts but 2× door pane"
    assert counted(context, ["case.left", "case.right"]) == "2× case side"


def test_where_many_are_left_out_each_is_named() -> None:
    context = example("side-table", "a4")
    aprons = ["front apron", "back apron", "left apron"]
    assert counted(context, aprons) == "front apron; back apron; left apron"
    every = [p.path for p in context.piece.parts if not p.hardware]
    assert counted(context, [p for p in every if p != "top"]) == "all parts but top"
