from collections.abc import Mapping
from dataclasses import replace

import pytest

from docgen.drawing.placing import PaperFault
from docgen.drawing.records import Sheet
from docgen.layout.read import read_layout
from docgen.reading.problems import Problems
from docgen.sheets import order
from docgen.sheets.context import Context
from tests.sheets.lists import context


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, tuple[str, ...]]]:
    """Makers that note when they were called and what was there before."""
    calls: list[tuple[str, tuple[str, ...]]] = []

    def maker(word: str, count: int) -> order.Maker:
        def make(given: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
            calls.append((word, tuple(before)))
            return tuple(Sheet(f"{word}/{i}", word, f"{word} {i}", given.layout.size, ()) for i in range(count))

        return make

    counts = {"hardware": 0, "parts": 2}
    monkeypatch.setattr(order, "MAKERS", {w: maker(w, counts.get(w, 1)) for w in order.MAKERS})
    return calls


def test_the_cover_is_made_last_and_stands_first(made: list[tuple[str, tuple[str, ...]]]) -> None:
    pages = order.sheets(context())
    assert made[-1][0] == "cover" and set(made[-1][1]) == set(order.MAKERS) - {"cover"}
    assert pages[0].kind == "cover"
    kinds = list(dict.fromkeys(p.kind for p in pages))
    assert kinds == [w for w in context().layout.sheets if w != "hardware"]


def test_several_sheets_of_a_kind_share_a_bookmark(made: list[tuple[str, tuple[str, ...]]]) -> None:
    pages = {p.key: p for p in order.sheets(context())}
    assert pages["parts/0"].outline == pages["parts/1"].outline == ("Part sheets",)
    assert pages["safety/0"].outline == ()


def test_only_some_kinds_are_made(made: list[tuple[str, tuple[str, ...]]]) -> None:
    pages = order.sheets(context(), ["safety", "parts"])
    assert [p.kind for p in pages] == ["parts", "parts", "safety"]
    assert {word for word, _ in made} <= {"parts", "safety"}


def test_unknown_kinds_are_told_all_at_once(made: list[tuple[str, tuple[str, ...]]]) -> None:
    with pytest.raises(Problems) as caught:
        order.sheets(context(), ["saftey", "parts", "xyz"])
    assert [p.code for p in caught.value.items] == ["unknown-sheet", "unknown-sheet"]
    assert any("'safety'" in p.hint for p in caught.value.items)


def test_a_packet_without_pages_is_refused(made: list[tuple[str, tuple[str, ...]]]) -> None:
    with pytest.raises(Problems) as caught:
        order.sheets(context(), ["hardware"])
    assert caught.value.items[0].code == "no-sheets"


@pytest.mark.parametrize(
    ("paper", "hint"),
    [
        ("a1", "take larger paper: --paper and one of arch-d, a0, arch-e"),
        ("arch-e", "write a layout with larger paper or smaller scales"),
    ],
)
def test_what_no_page_has_room_for_is_told_with_larger_papers(
    paper: str, hint: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def make(given: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
        raise PaperFault("the plank")

    monkeypatch.setitem(order.MAKERS, "parts", make)
    with pytest.raises(Problems) as caught:
        order.sheets(replace(context(), layout=read_layout(paper)), ["parts"])
    (problem,) = caught.value.items
    assert (problem.code, problem.message) == ("paper-too-small", f"{paper} has room at no scale for the plank")
    assert problem.hint == hint
