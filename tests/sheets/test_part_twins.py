"""Parts of about the same sizes are told in one way."""

import pytest

from docgen.sheets import parts
from docgen.sheets.part_share import Entry
from docgen.sheets.part_twins import twinned
from tests.support.printed import context

Drawn = list[list[Entry]]


def tables(drawn: Drawn) -> dict[str, set[bool]]:
    return {entries[0].kind.first: {e.subject.table for e in entries} for entries in drawn}


@pytest.mark.parametrize("paper", ["letter", "tabloid"])
def test_holes_of_twins_stand_all_in_a_table_or_none(paper: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before: Drawn = []
    after: Drawn = []

    def noted(c: parts.Context, drawn: Drawn) -> Drawn:
        before.extend(drawn)
        after.extend(twinned(c, drawn))
        return after

    monkeypatch.setattr(parts, "twinned", noted)
    parts.packed(context("sketching-desk", paper))
    was, now = tables(before), tables(after)
    assert now["case.left"] == now["case.right"]
    assert all(len(told) == 1 for told in now.values())
    if paper == "tabloid":
        assert was["case.left"] != was["case.right"]
        assert now["case.left"] == {True}
    others = {part: told for part, told in now.items() if not part.startswith("case.")}
    assert others == {part: was[part] for part in others}
    for one, other in zip(before, after, strict=True):
        assert min(e.placed.setting.factor for e in other) >= min(e.placed.setting.factor for e in one) - 1e-9
        assert {f for e in one for f in (e.subject.only or e.subject.plan.faces)} == {
            f for e in other for f in (e.subject.only or e.subject.plan.faces)
        }
