"""Stick pages as another reader finds them: each mark's line stands where its piece's own scale says."""

import io
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pdfplumber
import pytest

from docgen.drawing.records import Line, Pen, Sheet, Text
from docgen.drawing.sticks.pieces import ROUND
from docgen.drawing.sticks.strip import places, shown, strip
from docgen.piece.model import Kind
from docgen.piece.operations.runs import in_face
from docgen.piece.records import BOTH, Face, Made, Mark
from docgen.sheets import sticks
from docgen.sheets.stick_faces import face_words, lettered
from docgen.sheets.stick_strips import _short, laid
from docgen.sheets.truesize import moves
from docgen.units import Units
from tests.sheets.truesize import INCH, MM, context, part, pdf, side
from tests.support.printed import context as printed_context
from tests.support.steps import example

SIDES = (side("left side", 1, Face(2, 1)), side("right side", 2, Face(2, 0)))
KINDS = (Kind(("left side",), ("right side",)),)
# Worked by hand: dado k from 80 + 340 k, 18 wide; holes at 100 + 32 k.
WORKED = (80, 98, 100, 132, 164, 196, 228, 420, 438, 760, 778)


def made(layout: str = "a4"):
    c = context(SIDES, KINDS, layout)
    return c, sticks.make(c, {})


def test_one_stick_serves_both_hands_and_a_letter_stands_for_a_face_that_is_another_on_each() -> None:
    c, sheets = made()
    (stick,) = c.lists.sticks
    assert (stick.parts, stick.mirrored) == (("left side",), ("right side",))
    text = [r.text for s in sheets if s.framed for r in s.records if isinstance(r, Text)]
    assert {"face A is the", "right face", "left face"} <= set(text)
    assert text.count("A") + text.count("B") == len(stick.marks)
    for position in WORKED:
        assert str(position) in text
    strips = [r.text for s in sheets if not s.framed for r in s.records if isinstance(r, Text)]
    assert any("face A along this side: right face on left side; left face on right side" in t for t in strips)
    assert not any("right face along this side" in t for t in strips)  # true of one hand only


def test_each_leg_of_a_table_is_told_which_of_its_faces_carry_the_marks() -> None:
    """Four legs, each with mortises on its two inner faces: front ones on the back face, left ones on the right face."""
    legs, faces = [], {}
    for n, (deep, across) in enumerate(((0, 0), (0, 1), (1, 0), (1, 1)), 1):
        name = f"{('front', 'back')[deep]} {('left', 'right')[across]} leg"
        inner = (Face(1, 1 - deep), Face(2, 1 - across))
        marks = tuple(Mark(Fraction(p), w, "mortise", f) for f in inner for p, w in ((458, -1), (526, 1)))
        legs.append(part(name, n, (540, 42, 42), Made(marks=marks)))
        faces[name] = tuple(legs[-1].plain_side(f) for f in inner)
    c = context(tuple(legs), (Kind(tuple(p.path for p in legs)),), "a4")
    (stick,) = c.lists.sticks
    words = face_words(c, stick)
    assert sorted(set(words)) == ["face A", "face B"]
    told = lettered(c, stick)
    for leg in legs:
        on = [next(word for parts, word in told[letter] if leg.path in parts) for letter in ("A", "B")]
        assert sorted(on) == sorted(faces[leg.path])
    assert words[0] == words[2] != words[1] == words[3]
    rows = [r.text for s in sticks.make(c, {}) if s.framed for r in s.records if isinstance(r, Text)]
    assert all(rows.count(leg.path) == 1 for leg in legs)


@pytest.mark.parametrize("layout", ["a4", "letter"])
def test_lines_on_paper_agree_with_the_scale_of_their_piece(layout: str) -> None:
    c, sheets = made(layout)
    strips = [s for s in sheets if not s.framed]
    found = set()
    with pdfplumber.open(io.BytesIO(pdf(strips, c))) as book:
        for sheet, page in zip(strips, book.pages, strict=True):
            lines = [(ln["x0"] / MM, ln["x1"] / MM) for ln in page.lines if abs(ln["x1"] - ln["x0"]) < 1e-6]
            numbers = [r for r in sheet.records if isinstance(r, Text) and r.text.isdigit() and r.height < 3]
            zero = {round(r.at[0] - int(r.text), 3) for r in numbers}  # where the datum would lie for each strip
            for start in zero:
                for position in WORKED:
                    if any(abs(x - start - position) < 0.01 for x, _ in lines):
                        found.add(position)
    assert found == set(WORKED)


def test_pieces_without_marks_are_not_printed() -> None:
    _, sheets = made()
    words = [r.text for s in sheets if not s.framed for r in s.records if isinstance(r, Text) and "Piece" in r.text]
    printed = {w.split("Piece ")[1] for w in words}
    assert len(printed) < int(words[0].rstrip(".").split()[-1])
    assert len(words) == 2 * len(printed)  # both edges tell what they are
    told = " ".join(r.text for s in sheets if not s.framed for r in s.records if isinstance(r, Text))
    assert "A piece without marks is not printed" in told


def test_cut_is_crossed_once_between_its_edges() -> None:
    _, sheets = made()
    records = [r for s in sheets if not s.framed for r in s.records]
    figures = {r.text: r.at for r in records if isinstance(r, Text) and r.bold and r.text in ("80", "98")}
    assert len(figures) == 2
    first = next(s for s in sheets if not s.framed)
    zero = next(r.at[0] - 100 for r in first.records if isinstance(r, Text) and r.text == "100" and r.height < 3)
    middle = zero + 89
    crosses = [
        r
        for r in first.records
        if isinstance(r, Line) and r.pen is Pen.THIN and abs((r.a[0] + r.b[0]) / 2 - middle) < 1e-6 and r.a[0] != r.b[0]
    ]
    assert len(crosses) == 2


def test_inch_strips_print_running_fractions() -> None:
    c = context(SIDES, KINDS, "letter", INCH)
    figures = [r.text for s in sticks.make(c, {}) for r in s.records if isinstance(r, Text) and r.bold]
    # 80 mm = 3.1496 in, nearest 1/32 is 3 5/32
    assert any(f.startswith("3.150 ≈ 3 5") for f in figures)


def test_no_marks_no_sheets() -> None:
    plain = part("back", 1, (900, 400, 6), Made())
    c = context((plain,), (Kind(("back",)),), "a4")
    assert sticks.make(c, {}) == ()
    assert plain.size[0] == Fraction(900)


def test_what_the_air_does_to_the_longest_stick_is_computed() -> None:
    # 0.2 % of 900 mm; 35 1/2 in for the same in inches.
    assert "900 mm of paper grow by up to 1.8 mm" in moves(900.0, Units("mm"))
    assert "35 in of paper grow by up to 0.07 in" in moves(900.0, INCH)
    _, sheets = made()
    told = " ".join(r.text for s in sheets if s.framed for r in s.records if isinstance(r, Text))
    assert "900 mm of paper grow by up to 1.8 mm" in told


def test_faces_whose_marks_lie_far_apart_have_strips_of_their_own() -> None:
    """Marks on one face at the low end, on the other at the high end: two edges would print every piece half empty."""
    far = Made(marks=(Mark(Fraction(40), -1, "dado", Face(2, 1)), Mark(Fraction(1700), 1, "groove stops", Face(2, 0))))
    near = Made(marks=(Mark(Fraction(40), -1, "dado", Face(2, 1)), Mark(Fraction(60), 1, "groove stops", Face(2, 0))))
    for marks, strips in ((far, 2), (near, 1)):
        c = context((part("post", 1, (1800, 60, 20), marks),), (Kind(("post",)),), "a4")
        assert len(laid(c, c.lists.sticks[0])) == strips


def test_nothing_is_crossed_beyond_a_line_past_which_wood_stays() -> None:
    """A baseline, or where an arc begins: who sawed there would spoil the part. A shoulder is no centre either."""
    for wood, crosses in ((BOTH, 0), (-1, 2)):
        end = Made(marks=(Mark(Fraction(300), wood, "baseline of the tails", Face(2, 1)),))
        c = context((part("side", 1, (312, 90, 12), end),), (Kind(("side",)),), "a4")
        strips = [s for s in sticks.make(c, {}) if not s.framed]
        slanted = [
            r
            for s in strips
            for r in s.records
            if isinstance(r, Line) and abs(abs(r.a[0] - r.b[0]) - abs(r.a[1] - r.b[1])) < 1e-6 < abs(r.a[0] - r.b[0])
        ]
        assert len(slanted) == crosses


def test_words_are_broken_rather_than_set_far_from_their_marks() -> None:
    label = "mitre, short point 2, edge: see the table"
    end = Made(marks=tuple(Mark(Fraction(p), 1, label, Face(2, 1)) for p in (10, 14)))
    c = context((part("bead", 1, (220, 30, 12), end),), (Kind(("bead",)),), "a4")
    (one,) = laid(c, c.lists.sticks[0])
    (piece,) = one.pieces
    points = shown(one.sides[0], piece)
    at = places(points, piece, one.style) or ()
    assert all(abs(x - float(p.position)) < 60.0 for x, p in zip(at, points, strict=True))


def test_the_marks_of_a_stick_stay_on_its_page_where_smaller_figures_do_it() -> None:
    def pages(marks: int) -> list[set[float]]:
        """Return the heights of the figures in the column of marks, by page."""
        many = Made(marks=tuple(Mark(Fraction(20 + 25 * k), -1, "dado", Face(2, 1)) for k in range(marks)))
        c = context((part("side", 1, (1400, 300, 18), many),), (Kind(("side",)),), "a4")
        figures = {str(20 + 25 * k) for k in range(marks)}
        sheets = [s for s in sticks.make(c, {}) if s.framed]
        return [{r.height for r in s.records if isinstance(r, Text) and r.bold and r.text in figures} for s in sheets]

    found = [pages(n) for n in range(8, 30)]
    assert [{3.0}] in found and any(len(p) > 1 for p in found)
    assert any(len(p) == 1 and p[0] and max(p[0]) < 3.0 for p in found)


def test_a_strip_tells_both_stops_of_a_trench_and_leaves_what_the_table_adds() -> None:
    note = "stops 11/16 in from the front edge, to the end of the arc and 3 3/16 in from the back edge, to the end of the arc"
    assert _short(note) == "stops 11/16 in from the front edge and 3 3/16 in from the back edge"
    assert _short("front edge") == "front edge"


@pytest.mark.parametrize("name", ["seed-chest", "side-table", "sketching-desk"])
def test_a_side_has_one_name_on_sticks_and_set_ups(name: str) -> None:
    """A runner is thinner than it is high: its broad sides are faces, though they lie across its width."""
    piece, _ = example(name)
    for one in piece.parts:
        for face in map(Face._make, product(range(3), (0, 1))):
            assert in_face(one, face)[0][1] == f"the {one.plain_side(face)}"
    if name == "seed-chest":
        runner = piece.part("drawer.1.left runner")
        told = [runner.plain_side(runner.face(word)) for word in ("left", "top")]
        assert told == ["left face", "top edge"]


def test_a_strip_of_a_turned_part_lies_along_no_side() -> None:
    piece, lists = example("splayed-stool")
    leg = next(s for s in lists.sticks if "leg" in s.name)
    c = replace(context((), (), "a4"), piece=piece, lists=lists)
    side, one = next((side, one) for one in laid(c, leg) for side in one.sides if side.word == ROUND)
    drawn = strip(one.pieces[0], (side,), one.style, ("Stick 2", "leg"), 3)
    assert "Stick 2: leg, all round. Piece 1 of 3." in [r.text for r in drawn if isinstance(r, Text)]


def test_tables_of_sticks_are_drawn_together_where_that_saves_a_page() -> None:
    def pages(name: str) -> tuple[int, int]:
        c = printed_context(name, "a4")
        every = [(n, stick, laid(c, stick)) for n, stick in enumerate(c.lists.sticks, 1)]
        loose = sticks._filled(c, every, 1.0, printed=True)
        told = {"templates": (Sheet("template/guide", "templates", "", c.layout.size, ()),)}
        return len(loose.pages), sum(s.framed for s in sticks.make(c, told))

    found = [pages(name) for name in ("splayed-stool", "dovetailed-box")]
    assert all(drawn <= loose for loose, drawn in found) and any(drawn < loose for loose, drawn in found)
