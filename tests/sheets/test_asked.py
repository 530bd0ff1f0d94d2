"""What the file asks of the part sheets, the hole table, and the sheet of what is cut after the glue-up."""

import pytest

from docgen.drawing.dimensions.wanted import Callout, Linear
from docgen.piece.build import build
from docgen.piece.drawn import size_names
from docgen.piece.records import Face, SizeKind
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problems
from docgen.sheets import part_glued, part_glued_cuts, part_holes
from docgen.sheets.context import Context
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Setting, Subject
from docgen.sheets.parts import packed
from tests.support.generated import METRICS, context
from tests.support.printed import context as example

SIDE = """docgen: 1
piece: Board
units: mm
materials:
  boards: {species: black cherry, thickness: 20}
parts:
  side: {of: boards, grain: up, show: right, box: {across: [0, 20], deep: [0, 280], up: [0, 900]}}
operations:
  - dado: {part: side, face: right, run: deep, span: [300, 320], depth: 6}
"""
SETTING = Setting((1, 5), 3.5, False)


def placed(text: str) -> dict[Face, list[tuple[str, str]]]:
    """Return the lines that are printed, with how, by the face of their view."""
    c = context(text, "a4")
    subject = Subject(c.piece.parts[0], c.solids, c.piece.units, True, asked=c.piece.drawing)
    made = spread(subject, SETTING, METRICS)
    assert made is not None
    assert not made.left
    out: dict[Face, list[tuple[str, str]]] = {}
    for station, a in zip(subject.stations(False), made.arranged, strict=True):
        for p in a.placed:
            text = " ".join(p.wanted.lines) if isinstance(p.wanted, Callout) else p.wanted.text
            out.setdefault(station.face, []).append((text, p.how))
    return out


def texts(text: str) -> list[str]:
    return [t for told in placed(text).values() for t, _ in told]


def asked(*lines: str) -> str:
    return SIDE + "drawing:\n" + "".join(f"  - {line}\n" for line in lines)


def test_without_wishes_each_size_is_printed_once() -> None:
    assert sorted(texts(SIDE)) == ["20", "280", "300", "6 deep", "900", "dado 20"]


def test_a_dimension_that_was_asked_for_is_printed_though_others_give_it() -> None:
    line = "dimension: {part: side, along: up, from: 320, to: side.top, view: right, label: clear}"
    assert "clear 580" in texts(asked(line))


def test_a_dropped_size_is_not_printed() -> None:
    told = texts(asked("drop: {part: side, size: dado 1 depth}", "drop: {part: side, size: thickness}"))
    assert sorted(told) == ["280", "300", "900", "dado 20"]


def test_a_size_can_be_moved_to_another_view() -> None:
    part = context(SIDE, "a4").piece.parts[0]
    start = next(name for name, (f, n) in size_names(part).items() if f and part.features[0].made.sizes[n].value == 300)
    told = placed(asked(f"move: {{part: side, size: {start}, view: back}}"))
    assert "300" in [t for t, _ in told[part.face("back")]]
    assert "300" in [t for t, _ in placed(SIDE)[part.face("right")]]


def test_the_other_side_is_the_far_side_of_the_view() -> None:
    def length(text: str) -> float:
        c = context(text, "a4")
        subject = Subject(c.piece.parts[0], c.solids, c.piece.units, True, asked=c.piece.drawing)
        made = spread(subject, SETTING, METRICS)
        assert made is not None
        found = next(p for p in made.arranged[0].placed if isinstance(p.wanted, Linear) and p.wanted.text == "900")
        assert found.arrows is not None
        return found.arrows[0][1]

    assert (length(SIDE) > 0) != (length(asked("move: {part: side, size: length, other side: yes}")) > 0)


def test_a_note_stands_on_the_view_that_was_named() -> None:
    line = "note: {part: side, view: left, text: best side out, at: {across: 0, deep: 100, up: 600}}"
    part = context(SIDE, "a4").piece.parts[0]
    assert ("best side out", "leader") in placed(asked(line))[part.face("left")]


@pytest.mark.parametrize(
    ("line", "code", "hint"),
    [
        ("drop: {part: side, size: dado 1 dpeth}", "unknown-size-of-part", "dado 1 depth"),
        ("drop: {part: sied, size: length}", "unknown-part", "side"),
        ("dimension: {part: side, along: up, from: 0, to: 9, view: top}", "drawing-view", "a face beside it"),
        ("dimension: {part: side, along: up, from: 9, to: 9, view: right}", "drawing-span", "two places"),
        ("mvoe: {part: side, size: length}", "unknown-word", "move"),
        ("move: {part: side, size: length}", "missing-key", "other side"),
    ],
)
def test_what_cannot_be_done_is_told_with_its_place(line: str, code: str, hint: str) -> None:
    words = vocabulary()
    with pytest.raises(Problems) as caught:
        build(read_project("board.yaml", asked(line), words, {}), words)
    (problem,) = caught.value.items
    assert problem.code == code
    assert hint in f"{problem.message} {problem.hint}"
    assert problem.where.line == 11


HOLES = """docgen: 1
piece: Board
units: mm
materials:
  boards: {species: black cherry, thickness: 20}
parts:
  board: {of: boards, grain: across, show: top, box: {across: [0, 600], deep: [0, 300], up: [0, 20]}}
holes:
  - hole: {part: board, face: top, at: [{across: 50, deep: 40}, {across: 270, deep: 210}], diameter: 6, name: A}
  - hole: {part: board, face: top, at: [{across: 110, deep: 75}, {across: 333, deep: 99}], diameter: 8, depth: 12, name: B}
  - hole: {part: board, face: top, at: {across: 500, deep: 20}, diameter: 5, name: C}
"""


def test_holes_of_several_kinds_are_told_in_a_table_with_a_tag_at_each() -> None:
    c = context(HOLES, "a4")
    (page,) = packed(c)
    entry = page.blocks[0].block
    assert entry.subject.table
    tags = [p.wanted.lines[0] for a in entry.placed.spread.arranged for p in a.placed if isinstance(p.wanted, Callout)]
    assert sorted(tags) == ["A1", "A2", "B1", "B2", "C"]
    part = c.piece.parts[0]
    names = {Face(i, s): part.word(Face(i, s)) for i in range(3) for s in range(2)}
    ((face, rows),) = part_holes.rows(part, entry.subject.plan.faces, entry.subject.notes, c.piece.units, names)
    assert face == part.face("top")
    assert [r[:3] for r in rows[1:]] == [
        ("A1", "50", "40"),
        ("A2", "270", "210"),
        ("B1", "110", "75"),
        ("B2", "333", "99"),
        ("C", "500", "20"),
    ]
    assert rows[3][3] == "⌀8 ↧ 12"


def test_a_few_holes_of_one_kind_need_no_table() -> None:
    c = context(HOLES.rsplit("  - hole", 2)[0], "a4")
    assert not packed(c)[0].blocks[0].block.subject.table


def test_what_is_cut_after_the_glue_up_has_a_sheet_with_each_size_once() -> None:
    c: Context = example("sketching-desk", "letter")
    (parts,) = part_glued_cuts.groups(c)
    assert [p.path for p in parts] == ["case.left", "case.top", "case.right"]
    told = part_glued_cuts.Glued(c, parts, Subject(parts[0], c.solids, c.piece.units, True).notes).told
    figures = [(f.size.kind, f.size.label, f.count) for every in told.values() for f in every]
    assert (SizeKind.RADIUS, "outside corner", 2) in figures
    assert (SizeKind.LENGTH, "into the thickness", 3) in figures
    assert len({label for _, label, _ in figures}) == len(figures)
    (sheet,) = part_glued.make(c)
    assert sheet.title == "case after the glue-up"


def test_a_piece_without_late_cuts_has_no_such_sheet() -> None:
    assert part_glued.make(example("bookcase", "a4")) == ()
