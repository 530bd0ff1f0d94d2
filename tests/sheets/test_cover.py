import io
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pypdf
import pytest

from docgen.drawing.records import Line, Link, Record, Sheet, Text
from docgen.packet.write import write
from docgen.sheets import cover
from docgen.sheets.context import Context
from docgen.sheets.overall import overall, standing
from tests.sheets.lists import context, faults, piece, said

MM = 72 / 25.4


def others(given: Context, parts: int = 14) -> dict[str, tuple[Sheet, ...]]:
    def sheet(key: str, kind: str, title: str) -> Sheet:
        return Sheet(key, kind, title, given.layout.size, (Text((60, 100), title),))

    return {
        "views": (sheet("views", "views", "General views"),),
        "parts": tuple(sheet(f"part/{i}", "parts", f"Part {i} of the drawer") for i in range(parts)),
        "sticks": (sheet("stick/1", "sticks", "left side"), sheet("stick/2", "sticks", "left side")),
        **{w: (sheet(w, w, cover.GROUPS[w]),) for w in ("drilling", "cutting", "setups", "hardware", "safety")},
    }


def packet(given: Context, before: dict[str, tuple[Sheet, ...]]) -> bytes:
    pages = (*cover.make(given, before), *(s for w in given.layout.sheets for s in before.get(w, ())))
    return write(pages, layout=given.layout, piece=given.piece, fingerprint=given.fingerprint)


def test_the_cover_says_what_it_is() -> None:
    text = said(cover.make(context(), {}))
    for wanted in (
        "Porch bench", "42 wide × 14 1⁄2 deep × 18 5⁄16 high, in", "PB-3", "revision B", "2026-03-02", "0a1b2-c3d4e",
        "150 mm", "6 in", "actual size", "leave wood on, then fit to its mate", "Milled at 9 % moisture.",
    ):  # fmt: skip
        assert wanted in text.replace("”", "").replace("“", ""), wanted


def test_overall_sizes_come_from_the_solids() -> None:
    assert overall(context()) == pytest.approx((42 * 25.4, 14.5 * 25.4, 18.3125 * 25.4), abs=1e-5)


@pytest.mark.parametrize("parts", [0, 1, 24, 90])
def test_the_list_gives_the_pages_on_which_the_sheets_are(parts: int) -> None:
    given = context()
    before = others(given, parts)
    reader = pypdf.PdfReader(io.BytesIO(packet(given, before)))
    ahead = len(cover.make(given, before))
    listed = {}
    for sheet in cover.make(given, before):
        texts = [r for r in sheet.records if isinstance(r, Text)]
        for link in (r for r in sheet.records if isinstance(r, Link)):
            x, y, width, height = link.box
            line = [t for t in texts if y - 0.1 <= t.at[1] <= y + height and x - 0.1 <= t.at[0] <= x + width + 0.1]
            listed[link.target] = (line[0].text, line[-1].text.split("–")[0])
    order = [s for w in given.layout.sheets for s in before.get(w, ())]
    for key, (_, first) in listed.items():
        place = next(i for i, s in enumerate(order) if s.key == key)
        assert int(first) == ahead + place + 1
    assert {"views", "safety", "stick/1"} <= set(listed)
    assert parts < 2 or {f"part/{i}" for i in range(parts)} <= set(listed)
    assert "Safety" in reader.pages[ahead + len(order) - 1].extract_text()


@pytest.mark.parametrize("parts", [5, 40])
@pytest.mark.parametrize("layout", ["letter", "letter-landscape", "a4", "a4-landscape", "a3"])
def test_nothing_lies_on_anything(layout: str, parts: int, tmp_path: Path) -> None:
    given = context(layout)
    before = others(given, parts)
    assert len(cover.make(given, before)) == (1 if parts == 5 else 2)
    assert [str(f) for f in faults(cover.make(given, before), given, tmp_path)] == []


@pytest.mark.parametrize("layout", ["letter", "letter-landscape", "a4", "a4-landscape"])
def test_check_lines_are_true_in_both_directions(layout: str) -> None:
    given = context(layout)
    with pdfplumber.open(io.BytesIO(packet(given, {}))) as book:
        found = book.pages[0].lines
    level = {round((ln["x1"] - ln["x0"]) / MM, 3) for ln in found if abs(ln["y1"] - ln["y0"]) < 1e-6}
    upright = {round((ln["y1"] - ln["y0"]) / MM, 3) for ln in found if abs(ln["x1"] - ln["x0"]) < 1e-6}
    assert 152.4 in level and 152.4 in upright
    for axis, other in (("x0", "y0"), ("y0", "x0")):
        long = [ln for ln in found if abs((ln[axis[0] + "1"] - ln[axis]) / MM - 152.4) < 0.01]
        (line,) = [ln for ln in long if abs(ln[other[0] + "1"] - ln[other]) < 1e-6]
        ticks = [
            ln[axis] / MM
            for ln in found
            if min(abs(ln[other] - line[other]), abs(ln[other[0] + "1"] - line[other])) < 0.01
        ]
        assert any(abs(t - line[axis] / MM - 150.0) < 0.01 for t in ticks)


def test_the_picture_fills_its_room_and_keeps_to_it() -> None:
    given = context()
    room = given.layout.area
    ends = [p for r in standing(given, room) if isinstance(r, Line) for p in (r.a, r.b)]
    xs, ys = [p[0] for p in ends], [p[1] for p in ends]
    assert min(xs) >= room.x and max(xs) <= room.right and min(ys) >= room.y and max(ys) <= room.top
    assert max((max(xs) - min(xs)) / room.width, (max(ys) - min(ys)) / room.height) > 0.99


def test_the_cover_explains_rounded_figures_where_there_are_any() -> None:
    given = context()
    page = Sheet("views", "views", "General views", given.layout.size, (Text((60, 100), "0.383 ≈ 3⁄8 + 0.008"),))
    assert "on no line of the rule" in said(cover.make(given, {"views": (page,)}))
    assert "on no line of the rule" not in said(cover.make(given, others(given)))


def test_an_undated_piece_has_no_date() -> None:
    assert "2026" not in said(cover.make(context(of=piece(date="")), {}))


def test_a_short_packet_lists_its_kinds_of_sheets_alone() -> None:
    given = context()
    (front,) = cover.make(given, others(given, 14))
    said = {t.text for t in front.records if isinstance(t, Text)}
    assert "Part sheets" in said and not any(
        link.target == "part/3" for link in front.records if isinstance(link, Link)
    )


@pytest.mark.parametrize("layout", ["letter", "a4"])
def test_no_line_under_the_title_begins_or_ends_with_a_dot(layout: str) -> None:
    for title in ("B", "A long name of the revision that fills the line", "much " * 12):
        given = context(layout)
        given = replace(given, piece=replace(given.piece, revision=title.strip()))
        texts = [r.text for s in cover.make(given, {}) for r in s.records if isinstance(r, Text)]
        assert any("revision" in t for t in texts)
        assert not [t for t in texts if t.strip().startswith("·") or t.strip().endswith("·")]


@pytest.mark.parametrize("layout", ["letter-landscape", "a4-landscape", "letter", "a4"])
def test_all_kinds_of_sheets_and_all_signs_have_room_on_the_cover(layout: str, tmp_path: Path) -> None:
    given = context(layout)
    given = replace(given, piece=replace(given.piece, notes=("Milled at 9 % moisture.",) * 4))
    rounded = (Text((60, 100), "≈3.1"),)
    before = {
        w: (Sheet(w, w, cover.GROUPS[w], given.layout.size, rounded),) for w in given.layout.sheets if w in cover.GROUPS
    }
    sheets = cover.make(given, before)
    assert "≈" in said(sheets) and len(before) == cover.ON_FRONT
    assert [str(f) for f in faults(sheets, given, tmp_path)] == []


def test_a_wide_sheet_has_the_list_in_three_columns_an_upright_one_in_two(tmp_path: Path) -> None:
    columns = {}
    for name, parts in (("letter-landscape", 60), ("letter", 40)):
        given = context(name)
        (page,) = [s for s in cover.make(given, others(given, parts)) if s.title == "List of sheets"]
        columns[name] = len({round(r.box[0] / 10) for r in page.records if isinstance(r, Link) and r.box[2] > 50})
        assert len({r.at[0] for r in page.records if isinstance(r, Text) and r.anchor == "right"}) == columns[name]
        assert faults((page,), given, tmp_path) == []
    assert columns == {"letter-landscape": 3, "letter": 2}


def test_a_list_a_few_lines_too_long_is_drawn_closer_together() -> None:
    given = context("letter")
    counts = range(60, 150, 3)
    one = [n for n in counts if len(cover.make(given, others(given, n))) == 2]
    loose = [n for n in counts if len(list(loosely(given, n))) == 1]
    assert set(loose) < set(one)


def loosely(given: Context, parts: int) -> list[list[Record]]:
    """Return the pages of the full list with all the air between its lines."""
    entries = cover._entries(given, others(given, parts), 0, 2)
    return list(cover._list_pages(given, entries, cover.LIST_AIR))
