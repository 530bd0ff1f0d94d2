"""Fixed: what holds parts that are laid in goes on the list and into the order of work."""

from itertools import pairwise
from pathlib import Path

import pytest

from docgen.piece.build import build
from docgen.piece.joints.fixed_rows import Strip, spots
from docgen.piece.kinds import kinds
from docgen.piece.model import Piece, Sets
from docgen.piece.records import Face, Purpose
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.schedules.rows import Schedules
from docgen.units import Units
from tests.piece.joints.making import one_problem, trial

WORDS = vocabulary()
EXAMPLE = Path("examples/bookcase.yaml")


def made(text: str) -> Piece:
    return build(read_project("trial.yaml", text, WORDS, {}), WORDS)


def listed(text: str) -> tuple[Piece, Schedules]:
    piece = made(text)
    solids = Solids(piece)
    return piece, schedules(piece, solids, kinds(piece, solids))


def brads() -> str:
    """The bookcase, its back on brads."""
    text = EXAMPLE.read_text(encoding="utf-8")
    start, end = text.index("  - fixed:"), text.index("\nedges:")
    return f"{text[:start]}  - fixed: {{parts: back panel, with: brads, size: 20 mm, count: 36}}\n{text[end:]}"


def test_it_is_counted_once_and_names_its_parts() -> None:
    piece = made(brads())
    (item,) = [i for i in piece.items if i.sets is Sets.FIXES]
    assert (item.count, item.size, item.parts) == (36, "20 mm", ("back panel",))


def test_the_step_and_the_list_say_it_and_it_is_not_made_at_the_bench() -> None:
    piece, lists = listed(brads())
    step = next(r for r in lists.work if r.what.startswith("Lay back panel"))
    assert "fixed with 36 × brads, 20 mm" in step.what and "states no" not in step.what
    assert not any(r.what.startswith("Make") for r in lists.work)
    assert any(r.what == "brads" and r.count == 36 for r in lists.hardware)
    assert not any(h.what.startswith("brads") for h in lists.chain.holds)  # no sheet of its own rules
    # Brads are driven by eye: no hole is drilled for them.
    assert not any(f.made.holes for f in piece.part("back panel").features)


def test_screws_stand_in_rows_no_further_apart_than_is_said() -> None:
    """The bookcase's back: 1800 high, so that rows of 100 from either end stand 200 apart, nine screws each."""
    piece = made(EXAMPLE.read_text(encoding="utf-8"))
    back = piece.part("back panel")
    rows = {h.mate: h for f in back.features for h in f.made.holes}
    assert {back.word(h.face) for h in rows.values()} == {"back"}
    assert [float(p[0]) for p in rows["left side"].points] == [100 + 200 * n for n in range(9)]
    # 5 in from the back's own edges at the sides; in the middle of the shelves, 20 high from 60 on: 70 up.
    assert {float(p[1]) for p in rows["left side"].points} == {5}
    assert {float(p[1]) for p in rows["right side"].points} == {float(back.size[1]) - 5}
    assert {float(p[0]) for p in rows["shelf.1"].points} == {70} and len(rows["shelf.1"].points) == 5
    across = sorted(float(p[1]) for p in rows["shelf.1"].points)
    assert max(b - a for a, b in pairwise(across)) <= 200
    # A No. 4 screw 16 long through 6: 10 hold; the holes countersunk, the pilots drilled through them.
    first = piece.fasteners[0]
    assert (first.grip, first.engagement, first.drill_depth, first.pilot) == (6, 10, 10, "2 mm")
    assert all(h.purpose is Purpose.CLEARANCE and h.sink is not None and h.ruled for h in rows.values())
    assert first.direction == pytest.approx((0, -1, 0)) and first.points[0][1] == pytest.approx(280)


def test_rows_are_told_where_the_panel_is_laid_in_and_counted_on_the_list() -> None:
    _, lists = listed(EXAMPLE.read_text(encoding="utf-8"))
    step = next(r for r in lists.work if r.what.startswith("Lay back panel"))
    assert (
        "fixed with 43 × No. 4 × 16 wood screws, flat head through its holes A, B, C, D, E, F, G: drill 2" in step.what
    )
    assert not any(r.what.startswith("Fasten back panel") for r in lists.work)
    (row,) = [r for r in lists.hardware if r.what == "wood screws, flat head"]
    assert (row.count, row.size) == (43, "No. 4 × 16") and "length from grip 6 + engagement 10" in row.note
    assert sum(r.total for r in lists.chart) == 43
    # What is measured off with a rule has no stick and no template.
    assert not any("back panel" in s.parts for s in lists.sticks)


def test_what_is_laid_in_nothing_is_fastened_like_anything_else() -> None:
    body = """
parts:
  panel: {of: thin, grain: across, box: {across: [0, 400], deep: [0, 300], up: [0, 6]}}
  cleat: {of: board, grain: across, box: {across: [0, 400], deep: [20, 60], up: [6, 26]}}
joints:
  - fixed: {parts: panel, with: "wood screws, pan head", note: from below,
      screws: {into: cleat, gauge: 6, length: 20, apart: 150, edge: 5, ends: 50, head: pan}}
"""
    frame = trial(body)
    (row,) = frame.holes("panel")
    # 300 between the outer two, in two steps of 150, in the middle of the cleat.
    assert [(float(p[0]), float(p[1])) for p in row.points] == [(50, 40), (200, 40), (350, 40)]
    assert row.sink is None and frame.part("panel").word(row.face) == "bottom"
    lists = schedules(frame.piece, frame.solids, kinds(frame.piece, frame.solids))
    assert any(r.what.startswith("Fasten panel to cleat: A, 3 of No. 6 × 20") for r in lists.work)


ROWS = """
parts:
  panel: {of: thin, grain: across, box: {across: [0, 400], deep: [0, 300], up: [0, 6]}}
  cleat: {of: board, grain: across, box: {across: [0, 400], deep: [0, 40], up: [%s, 26]}%s}
joints:
  - fixed: {parts: panel, with: screws%s}
"""


@pytest.mark.parametrize(
    ("low", "turn", "said", "code"),
    [
        (6, "", "", "fixed-count"),
        (6, "", ", count: 5, screws: {into: cleat, gauge: 6, length: 20, apart: 100, edge: 10}", "fixed-count"),
        (6, "", ", screws: {into: cleat, gauge: 6, length: 20, apart: 100, edge: 40}", "screw-beside-part"),
        (6, "", ", screws: {into: cleat, gauge: 6, length: 6, apart: 100, edge: 10}", "screw-too-short"),
        (6, "", ", screws: {into: cleat, gauge: 13, length: 20, apart: 100, edge: 10}", "unknown-hardware"),
        (6, "", ", screws: {into: cleat, gauge: 3, length: 20, apart: 100, edge: 10}", "unknown-hardware"),
        (7, "", ", screws: {into: cleat, gauge: 6, length: 20, apart: 100, edge: 10}", "parts-do-not-meet"),
        (
            6,
            ", turn: {about: up, at: {across: 0, deep: 0}, by: 5 deg}",
            ", screws: {into: cleat, gauge: 6, length: 20, apart: 100, edge: 10}",
            "fixed-askew",
        ),
    ],
)
def test_what_cannot_be_fixed_so_is_told(low: int, turn: str, said: str, code: str) -> None:
    thick = 26 - low
    assert one_problem(ROWS % (low, turn, said), thick=str(thick)).code == code


@pytest.mark.parametrize("ends", [50, 120, 199])
@pytest.mark.parametrize("apart", [30, 77, 150, 1000])
def test_no_gap_in_a_row_is_wider_than_is_said(ends: int, apart: int) -> None:
    row = Strip(Face(2, 0), 0, 0, 400, 10)
    along = [float(a) for a, _ in spots(row, apart=apart, ends=ends, units=Units())]
    assert along[0] == ends and along[-1] == 400 - ends
    assert max(b - a for a, b in pairwise(along)) <= apart + 1  # those between are set to a rule's lines
    assert spots(row, apart=apart, ends=200, units=Units()) == ((200, 10),)


def test_parts_that_no_joint_holds_are_fixed_as_stated() -> None:
    text = Path("examples/dovetailed-box.yaml").read_text(encoding="utf-8")
    fixed = "\njoints:\n  - fixed: {parts: [left ledge, right ledge], with: glue blocks, count: 4}"
    piece = made(text.replace("\njoints:", fixed, 1))
    solids = Solids(piece)
    told = [r.what for r in schedules(piece, solids, kinds(piece, solids)).work]
    assert any(t.startswith("Fix left ledge, right ledge with 4 × glue blocks. Left ledge on left side") for t in told)
    assert not any("no joint of the drawings" in t and "ledge" in t.partition(":")[0] for t in told)


def test_the_image_of_what_is_mirrored_is_fixed_too() -> None:
    piece = made(Path("examples/door-cabinet.yaml").read_text(encoding="utf-8"))
    brads = [i for i in piece.items if i.what == "brads"]
    assert [len(i.parts) for i in brads] == [4, 4] and {p.split(".")[0] for p in brads[1].parts} == {"right door"}


def test_a_row_without_an_edge_stands_in_the_middle_of_what_both_share() -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace("edge: 5, apart", "apart")
    back = made(text).part("back panel")
    rows = {h.mate: h for f in back.features for h in f.made.holes}
    # Rabbets of 11 less a gap of 1 are 10 wide.
    assert {float(p[1]) for p in rows["left side"].points} == {5}
    assert {float(p[0]) for p in rows["shelf.1"].points} == {70}
