"""True-size pages as another reader finds them: put together by their marks they give the model again."""

import io
import math
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from docgen.drawing.records import Arc, Text
from docgen.geometry.shapes import Outline
from docgen.piece.model import Kind
from docgen.piece.records import Face, Template
from docgen.sheets import templates
from docgen.sheets.true_drawings import drawings
from tests.packet.test_template_pages import example
from tests.sheets.truesize import CENTRE, HOLES, INCH, RADIUS, apron, context, mark_centres, pdf, side, strokes


def made(layout: str):
    c = context((apron(),), (Kind(("apron",)),), layout, INCH if layout == "letter" else None)
    return c, templates.make(c, {})


def placed(layout: str):
    """Return (tile name, lines, curves, offset) of each tile page; offsets come from the printed match marks alone."""
    c, sheets = made(layout)
    tiles = [s for s in sheets if not s.framed]
    pages = dict(zip([re.search(r"page (\w+)$", s.title)[1] for s in tiles], strokes(pdf(tiles, c)), strict=True))
    offsets = {}
    first = min(pages)
    offsets[first] = (0.0, 0.0)
    while len(offsets) < len(pages):
        known = len(offsets)
        for name in sorted(pages):
            column, row = ord(name[0]), int(name[1:])
            for other, axis in ((f"{chr(column - 1)}{row}", 0), (f"{name[0]}{row - 1}", 1)):
                for a, b in ((other, name), (name, other)):
                    if a in offsets and b in pages and b not in offsets and {a, b} == {other, name} and other in pages:
                        here, there = shared_marks(pages[other][0], pages[name][0], axis)
                        shift = np.mean(np.array(here) - np.array(there), axis=0)
                        sign = 1 if a == other else -1
                        offsets[b] = tuple(np.array(offsets[a]) + sign * shift)
        assert len(offsets) > known, "the printed tiles do not hang together"
    return c, tiles, pages, offsets


def shared_marks(before, after, axis: int):
    """Return the marks of the join on the page before (its right or lower side) and on the page after."""
    one, two = mark_centres(before), mark_centres(after)
    limit = max(p[0] for p in one) if axis == 0 else min(p[1] for p in one)
    begin = min(p[0] for p in two) if axis == 0 else max(p[1] for p in two)
    here = sorted(p for p in one if abs(p[axis] - limit) < 0.01)
    there = sorted(p for p in two if abs(p[axis] - begin) < 0.01)
    assert len(here) == len(there) >= 2
    return here, there


def circles(pages, offsets):
    out = set()
    for name, (_, curves) in pages.items():
        for points in curves:
            xs, ys = [p[0] for p in points], [p[1] for p in points]
            if abs(max(xs) - min(xs) - 8.0) < 0.01 and abs(max(ys) - min(ys) - 8.0) < 0.01:
                x, y = (min(xs) + max(xs)) / 2 + offsets[name][0], (min(ys) + max(ys)) / 2 + offsets[name][1]
                out.add((round(x, 3), round(y, 3)))
    return sorted(out)


@pytest.mark.parametrize("layout", ["letter", "a4"])
def test_tiles_joined_by_their_marks_give_the_model(layout: str) -> None:
    _, _, pages, offsets = placed(layout)
    found = circles(pages, offsets)
    x0, y0 = found[0]
    origin = (x0 - HOLES[0][0], y0 - HOLES[0][1])
    centres = {min(range(7), key=lambda k: abs(HOLES[k][0] - (x - origin[0]))): (x, y) for x, y in found}
    assert sorted(centres) == list(range(7))
    for k, (x, y) in centres.items():
        assert math.dist((x - origin[0], y - origin[1]), HOLES[k][:2]) < 0.01
    on_curve = 0
    for name, (_, curves) in pages.items():
        for points in curves:
            moved = [(x + offsets[name][0] - origin[0], y + offsets[name][1] - origin[1]) for x, y in points]
            away = [abs(math.dist(p, CENTRE) - RADIUS) for p in moved]
            if len(points) == 2 and abs(moved[0][0] - moved[1][0]) > 20:  # one cubic; the map is made of chords
                assert max(away) < 0.01
                on_curve += 1
    assert on_curve >= 4


@pytest.mark.parametrize("layout", ["letter", "a4"])
def test_the_picture_of_each_tile_has_the_curve_where_the_model_has_it(layout: str) -> None:
    c, tiles, pages, offsets = placed(layout)
    x0, y0 = circles(pages, offsets)[0]
    origin = (x0 - HOLES[0][0], y0 - HOLES[0][1])
    document = pypdfium2.PdfDocument(io.BytesIO(pdf(tiles, c)))
    dots = 300 / 25.4
    seen = 0
    for index, name in enumerate(pages):
        ink = np.asarray(document[index].render(scale=300 / 72, grayscale=True).to_numpy()).squeeze()
        window = sorted(p for points in pages[name][1] for p in points)
        for k in range(181):
            x = 5.0 * k
            y = CENTRE[1] - math.sqrt(RADIUS**2 - (x - CENTRE[0]) ** 2)
            px, py = x - offsets[name][0] + origin[0], y - offsets[name][1] + origin[1]
            drawn = [p for p in window if abs(p[0] - px) < 200]
            column, row = round(px * dots), round(ink.shape[0] - py * dots)
            inner = c.layout.for_size(tiles[index].size).open_area
            if drawn and inner.x + 12 < px < inner.right - 1 and inner.y + 1 < py < inner.top - 46:
                assert ink[row - 1 : row + 2, column - 1 : column + 2].min() < 128
                seen += 1
    assert seen > 150


def test_no_tile_page_is_blank_and_each_has_both_check_lines() -> None:
    c, sheets = made("letter")
    tiles = [s for s in sheets if not s.framed]
    for lines, _ in strokes(pdf(tiles, c)):
        assert any(abs(abs(b[0] - a[0]) - 152.4) < 0.01 and abs(a[1] - b[1]) < 1e-6 for a, b in lines)
        assert any(abs(abs(b[1] - a[1]) - 152.4) < 0.01 and abs(a[0] - b[0]) < 1e-6 for a, b in lines)
        assert len(lines) > 60


def test_the_sheets_say_which_face_and_how_pages_are_joined() -> None:
    _, sheets = made("a4")
    text = " ".join(r.text for s in sheets for r in s.records if hasattr(r, "text"))
    assert "on the right face" in text
    assert "Prick the hole centres" in text
    assert "Lay over A" in text
    assert "actual size" in text
    assert "94.1 %" in text


def test_a_template_of_a_small_thing_beside_the_parts_is_called_by_it() -> None:
    part = apron()
    strip = Template(
        "button", Face(1, 0), Outline.rectangle(0.0, 0.0, 80.0, 40.0), shared="button", loose=True, of="button"
    )
    feature = replace(part.features[0], made=replace(part.features[0].made, templates=(strip,)))
    c = context((replace(part, features=(feature,)),), (Kind(("apron",)),), "a4")
    said = [t.text for s in templates.make(c, {}) if not s.framed for t in s.records if isinstance(t, Text)]
    assert "button, its strip" in said and any(t.startswith("for No.") for t in said) and "apron" not in said


def test_a_piece_without_templates_has_no_sheets() -> None:
    c = context((side("side", 1, Face(2, 1)),), (Kind(("side",)),), "a4")
    assert templates.make(c, {}) == ()


def drawing_of(name: str, title: str):
    c = example(Path(f"examples/{name}.yaml"), "letter")
    return next(d.drawing for d in drawings(c) if title in d.drawing.title)


def test_a_counterbore_is_drawn_about_its_drill_and_both_are_told() -> None:
    end = drawing_of("settle", "left end")
    radii = sorted(round(a.radius, 3) for a in end.inks if isinstance(a, Arc) and a.end - a.start == 360)
    # Two plugged screws: drill 7/32 in, counterbore 1/2 in.
    assert radii == [round(7 / 64 * 25.4, 3)] * 2 + [round(0.25 * 25.4, 3)] * 2
    told = [[row.text for row in label.rows] for label in end.labels if label.rows[0].text.startswith("A")]
    assert len(told) == 2 and all(rows[1].startswith("counterbore ⌀1⁄2") for rows in told)


def test_a_template_whose_edges_tapers_take_is_laid_by_a_line_along_the_part() -> None:
    end = drawing_of("tool-tote", "left end")
    rows = [row.text for label in end.labels for row in label.rows]
    # Blank 10 1/2 wide, both edges tapered at its head: its middle is gauged before.
    assert "5 1⁄4 in from the front edge" in rows and "9 in from the bottom end" in rows


def test_the_template_of_a_glued_corner_says_that_it_lies_over_the_joint() -> None:
    context = example(Path("examples/sketching-desk.yaml"), "letter")
    (one,) = [d.drawing for d in drawings(context) if any("glued corner" in line for line in d.drawing.lines)]
    assert (
        one.lines[0] == "Lay it, print up, on the glued corner, over the edges of both boards; thick line: outer face."
    )
    said = [tuple(row.text for row in label.rows) for label in one.labels]
    assert ("glued corner", "No. 6, 7, 8") in said and ("outer face",) in said
