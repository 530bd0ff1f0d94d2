"""Joinery details and the exploded view, looked at on paper."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from docgen.drawing.boxes import overlap
from docgen.drawing.lettering import box
from docgen.drawing.records import Arc, Line, Pen, Sheet, Text
from docgen.drawing.records import Path as Stroke
from docgen.geometry.sight import places
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.sheets import exploded, exploded_numbers, joinery
from docgen.sheets.context import Context
from docgen.sheets.joint_cut import Blanks, cut_view
from docgen.sheets.joint_detail import pictured
from docgen.sheets.joint_laid import celled
from tests.support.audit import audit

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@cache
def context(name: str, layout: str = "letter") -> Context:
    words = vocabulary()
    path = EXAMPLES / f"{name}.yaml"
    piece = build(read_project(str(path), path.read_text(encoding="utf-8"), words, {}), words)
    solids = Solids(piece)
    same = kinds(piece, solids)
    return Context(piece, solids, same, schedules(piece, solids, same), (), read_layout(layout), PacketMetrics(), "f")


@cache
def pages(word: str, name: str, layout: str = "letter") -> tuple[Sheet, ...]:
    return {"joinery": joinery, "exploded": exploded}[word].make(context(name, layout), {})


def said(sheets: tuple[Sheet, ...]) -> str:
    return " ".join(r.text for s in sheets for r in s.records if isinstance(r, Text)).replace("\u00a0", " ")


@pytest.mark.parametrize("layout", ["letter", "a4-landscape", "a3", "arch-c"])
@pytest.mark.parametrize("name", ["side-table", "bookcase", "wall-shelf"])
@pytest.mark.parametrize("word", ["joinery", "exploded"])
def test_nothing_lies_on_anything(word: str, name: str, layout: str, tmp_path: Path) -> None:
    of, made = context(name, layout), pages(word, name, layout)
    path = tmp_path / "x.pdf"
    path.write_bytes(write(made, layout=of.layout, piece=of.piece, fingerprint=of.fingerprint))
    assert [str(f) for f in audit(path)] == []
    for sheet in made:
        area = of.layout.for_size(sheet.size).area
        for record in sheet.records:
            points = (
                [record.a, record.b]
                if isinstance(record, Line)
                else record.points
                if isinstance(record, Stroke)
                else []
            )
            for x, y in points:
                assert area.x - 3 <= x <= area.right + 3 and area.y - 3 <= y <= area.top + 3


def test_each_kind_of_joint_has_its_detail_and_its_figures() -> None:
    text = said(pages("joinery", "side-table"))
    assert "Mortise and tenon" in text and "Buttons" in text
    for figure in ("tenon 20", "21.5 deep", "shoulder 8", "shoulder 14", "mortise 68", "slot 33", "12 deep"):
        assert figure in text, figure
    assert "A – A" in text and "front left leg" in text


def test_what_is_worked_out_and_not_drawn_is_told_in_words() -> None:
    text = said(pages("joinery", "sketching-desk"))
    for words in (
        "wood behind",
        "full threads",
        "clearance 1⁄32",
        "such joints",
        "like it: ",
        "free in the frame, long 28 7⁄8",
        "1/4-20 UNC",
        "Set-ups: ",
        "loose tenon 3⁄8 × 7⁄8 × 1 7⁄16 in",
    ):
        assert words in text, words
    for words in ("slide low", "slide front", "sight long", "least side"):  # names of the file, places from its zero
        assert words not in text, words


def test_a_figure_is_the_arrows_distance_over_the_scale() -> None:
    """The dimension line of `mortise 68` is 68 mm long at its scale: found as the thin upright line nearest to its text."""
    records = pages("joinery", "side-table")[0].records
    text = next(r for r in records if isinstance(r, Text) and r.text == "mortise 68")
    scales = [r for r in records if isinstance(r, Text) and re.search(r"[A-Z] – [A-Z]   ", r.text)]
    above = [r for r in scales if r.at[1] > text.at[1] and r.at[0] > text.at[0]]
    scale = min(above, key=lambda r: math.dist(r.at, text.at)).text
    paper, real = map(int, re.search(r"(\d+) : (\d+)", scale).groups())  # type: ignore[union-attr]
    thin = [r for r in records if isinstance(r, Line) and r.pen is Pen.THIN and r.a[0] == r.b[0]]
    line = min(thin, key=lambda r: math.dist((r.a[0], (r.a[1] + r.b[1]) / 2), text.at))
    assert abs(line.b[1] - line.a[1]) == pytest.approx(68 * paper / real, abs=0.05)


def test_letters_run_on_and_name_the_key_views() -> None:
    texts = [r.text for s in pages("joinery", "side-table") for r in s.records if isinstance(r, Text)]
    letters = [t[0] for t in texts if " – " in t and " : " in t]
    assert letters == sorted(set(letters)) and "I" not in letters
    for letter in letters:
        assert texts.count(letter) == 2  # both ends of the plane in the key view


def test_a_joint_that_no_plane_cuts_is_shown_enlarged() -> None:
    of = context("wall-shelf")
    found = next(joinery.details(of))[0]
    uncut = replace(found, cut=None, letter="A", meeting=replace(found.meeting, planes=()))
    cell = celled(of, pictured(of, uncut, 88.0, 180.0))
    records = [r for group, _, _ in cell.groups for r in group]
    assert any(isinstance(r, Text) and r.text.startswith("Detail A") for r in records)
    assert sum(isinstance(r, Stroke) and r.pen is Pen.VISIBLE for r in records) > 10
    assert {"Housing", "seen from a corner"} <= {r.text for r in records if isinstance(r, Text)}


def test_parts_that_no_plane_meets_both_have_no_section() -> None:
    of = context("wall-shelf")
    plane = next(joinery.details(of))[0].meeting.planes[0]
    away = replace(plane, point=(0.0, -900.0, 0.0))
    parts = [of.piece.part(p) for p in ("shelf", "left side")]
    assert cut_view(parts, Blanks.of(of.piece.parts), away, of.solids) is None


@pytest.mark.parametrize("name", ["side-table", "bookcase", "sketching-desk"])
def test_each_kind_has_its_number_once_in_the_exploded_view(name: str) -> None:
    of = context(name)
    (sheet,) = pages("exploded", name)
    rings = [r for r in sheet.records if isinstance(r, Arc)]
    numbers = [r.text for r in sheet.records if isinstance(r, Text) and r.bold and r.anchor == "middle"]
    assert len(numbers) == len(set(numbers)) and len(rings) >= len(numbers)
    letters = [letter for letter, _ in exploded._listed(of)]
    assert set(numbers) == {str(of.piece.part(k.first).number) for k in of.kinds} | set(letters)
    assert "".join(sorted(c for c in letters if c.islower())) == "abcdefgh"[: len(exploded._lots(of))]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("sketching-desk", ("4× loose tenon 3⁄8 × 7⁄8 × 1 7⁄16 in", "4× loose tenon 3⁄8 × 1 × 1 7⁄16 in")),
        ("side-table", ("8× button 40 × 25 × 18 mm",)),
        ("map-case", ("8× key 3 × 15 × 30 mm", "4× key 3 × 24 × 48 mm", "4× dowel 6 × 27 mm")),
        ("settle", ("4× plug 1⁄2 × 3⁄8 in",)),
    ],
)
def test_what_is_set_into_joints_is_drawn_between_its_parts_and_told(name: str, told: tuple[str, ...]) -> None:
    text = re.sub(r"\s+", " ", said(pages("exploded", name)))
    for words in told:
        assert words in text, words
    of = context(name)
    scattered = exploded._scattered(of)
    things = [t for j in of.piece.joints for t in j.loose]
    first = len(of.piece.parts)  # the things follow the parts, before what is bought
    for thing, (_, frame) in zip(things, scattered.items[first : first + len(things)], strict=True):
        if not any(thing.leaves):
            moves = [scattered.moves[p] for p in thing.parts]
            middle = [thing.frame.origin[i] + sum(m[i] for m in moves) / len(moves) for i in range(3)]
            assert frame.origin == pytest.approx(tuple(middle))


def test_a_tenon_in_a_section_has_its_own_hatching_and_its_length() -> None:
    """In the leg's joint both tenons are cut along their fibres, square to the joint: 30° off the leg's own length."""
    of = context("sketching-desk")
    details = [d for group in joinery.details(of) for d in group if d.meeting.joint.word == "loose tenon"]
    cut = details[0].cut
    assert cut is not None and len(cut.fills) == 2
    for fill in cut.fills:
        points = np.array([p for w in fill.shown for r in w.rings for p in r])
        assert np.ptp(points, axis=0).max() > 25
        assert fill.cut.value == "long grain" and fill.degrees != pytest.approx(cut.faces[0].degrees, abs=1)
    crosswise = next(d.cut for d in details[1:] if d.cut is not None)
    assert "loose tenon 1 7⁄16" in said(pages("joinery", "sketching-desk"))
    assert {f.cut.value for f in crosswise.fills} == {"long grain"}


def test_the_ways_of_the_parts_are_thin_and_beside_the_piece() -> None:
    (sheet,) = pages("exploded", "side-table")
    ways = [r for r in sheet.records if isinstance(r, Line) and r.pen in (Pen.CENTRE, Pen.THIN)]
    leaders = sum(isinstance(r, Arc) for r in sheet.records)
    assert len(ways) - leaders >= 5  # the ways of the tenons before the top are seen at least in part
    thin, wide = (context("side-table").layout.pens[p].width for p in ("centre", "visible"))
    assert thin == wide / 2


def test_what_is_hidden_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    of, before = context("bookcase"), said(pages("exploded", "bookcase"))
    back = [p.path for p in of.piece.parts].index("back panel")
    monkeypatch.setattr(
        exploded_numbers,
        "places",
        lambda items, view: [[] if k == back else p for k, p in enumerate(places(items, view))],
    )
    number = of.piece.part("back panel").number
    assert f"hidden behind other parts: {number}" in said(exploded.make(of, {}))
    assert "hidden" not in before


def test_a_single_part_is_not_taken_apart() -> None:
    of = context("wall-shelf")
    assert exploded.make(replace(of, piece=replace(of.piece, parts=of.piece.parts[:1], joints=())), {}) == ()
    assert joinery.make(replace(of, piece=replace(of.piece, joints=())), {}) == ()


def test_letters_take_their_places_without_a_line_set_anew() -> None:
    """A section's letters come when its page is known: no stand-in is left, and no words end lower than was reckoned."""
    for name in ("sketching-desk", "settle"):
        for sheet in pages("joinery", name):
            texts = [r for r in sheet.records if isinstance(r, Text)]
            assert not [r.text for r in texts if re.search(r"\bQ[QM]\b", r.text)]
            spots = [box(r, PacketMetrics()) for r in texts]
            assert not [(a, b) for i, a in enumerate(spots) for b in spots[i + 1 :] if overlap(a, b)]


@pytest.mark.parametrize("name", ["settle", "door-cabinet", "side-table"])
def test_the_key_tells_what_stands_on_its_own_page(name: str) -> None:
    """A part may have the number that an example in brackets would have; and a sign that stands on another page is looked for."""
    told = []
    for page in pages("joinery", name):
        texts = [r.text for r in page.records if isinstance(r, Text)]
        figures = [t for t in texts if re.search(r"\([≈⌀R ]*\d[^()]*\)", t) and "screw" not in t]
        assert not any(re.search(r"\(\d+\) follows", t) for t in texts)
        told.append("( ) follows from others" in texts)
        assert told[-1] == bool(figures), (page.key, figures)
    assert any(told)
