"""The examples are sound, and a spoiled copy of one is told by the check that looks for it."""

from pathlib import Path

import pytest

import docgen
from docgen.checks.finding import Finding, Grade
from docgen.checks.run import findings
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules

EXAMPLES = Path(docgen.__file__).resolve().parents[1] / "examples"


def found(name: str, *replaced: tuple[str, str], **sizes: str) -> tuple[Finding, ...]:
    """Return the findings of an example with texts replaced and sizes given other values."""
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in replaced:
        assert old in text
        text = text.replace(old, new)
    piece = build(read_project(name, text, vocabulary(), sizes), vocabulary())
    solids = Solids(piece)
    same = kinds(piece, solids)
    return findings(piece, solids, same, schedules(piece, solids, same))


@pytest.mark.parametrize("name", sorted(p.stem for p in EXAMPLES.glob("*.yaml")))
def test_nothing_stops_a_good_example(name: str) -> None:
    told = found(name)
    assert [f.code for f in told if f.grade is Grade.STOP] == []
    assert all(f.rule and f.source for f in told)


@pytest.mark.parametrize(
    ("code", "sizes"),
    [
        ("corner-thin", {"corner": "1 3/8"}),
        ("corner-breaks-through", {"corner": "1 1/2"}),
        ("swing-hits", {"tilt": "100 deg"}),
        ("head-hits-slide", {"slide_up": "24 1/2"}),
        ("front-binds", {"gap": "1/128"}),
        ("parts-overlap", {"lip": "5/16"}),
        ("tips-easily", {"front_lean": "0 deg"}),
    ],
)
def test_a_spoiled_size_of_the_desk_is_told(code: str, sizes: dict[str, str]) -> None:
    assert code in {f.code for f in found("sketching-desk", **sizes)}


@pytest.mark.parametrize(
    ("code", "old", "new"),
    [
        ("trench-deep", "housing: 6 ", "housing: 10.5 "),
        ("stock-too-thin", "bought: 5/4", "bought: 3/4"),
        ("stock-too-short", "bought: 5/4}", "bought: 5/4, stock: [1800, 200]}"),
        ("stray-part", "shelf 1: {of: boards", "loose: {of: boards, grain: across, box: {across: [2000, 2500], deep: [0, 100], "
         "up: [0, board]}}\n  shelf 1: {of: boards"),
        ("cross-grain", "shelf 1: {of: boards, grain: across", "shelf 1: {of: boards, grain: deep"),
    ],
)  # fmt: skip
def test_a_spoiled_line_of_the_bookcase_is_told(code: str, old: str, new: str) -> None:
    assert code in {f.code for f in found("bookcase", (old, new))}
    assert code not in {f.code for f in found("bookcase")}


SHOP = "shop: {saw depth at 45: 3/4, gauge: 59 deg, planer: 15, drill reach: 1, taps: [M6], clamps: 2}"


@pytest.mark.parametrize(
    "code",
    ["beyond-saw", "beyond-gauge", "beyond-machine", "beyond-drill-press", "not-at-hand", "clamps-few", "bolt-load"],
)
def test_a_small_shop_and_a_push_are_told_of_the_desk(small: set[str], code: str) -> None:
    assert code in small
    assert code not in {f.code for f in found("sketching-desk")}


@pytest.fixture(scope="module")
def small() -> set[str]:
    """Codes of the desk made in a small shop, of boards to be glued up, with a push at its top."""
    replaced = (
        ("\nconditions: {", f"\n{SHOP}\nconditions: {{side push: 15 kg, "),
        ("thickness: board, bought: 5/4}", "thickness: board, bought: 5/4, stock: [10 ft, 8]}"),
    )
    return {f.code for f in found("sketching-desk", *replaced)}


def test_the_side_table_without_its_slots_is_told() -> None:
    assert "cross-grain" in {f.code for f in found("side-table", (", slot: {run: deep, length: 12}", ""))}
    assert "cross-grain" not in {f.code for f in found("side-table")}
