"""Every template of every example stands in the file's geometry where the model has it; some in pictures as well."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from pathlib import Path

import numpy as np
import pytest

from docgen.cli.loaded import context_of, load
from docgen.drawing.records import Line, Pen
from docgen.drawing.tiles import tiling_of
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.piece.model import Kind
from docgen.sheets import roll
from docgen.sheets.context import Context
from docgen.sheets.true_drawings import drawings
from tests.sheets.truesize import apron, context
from tests.support.rasters import PROGRAMS, off_line, raster
from tests.support.true_size import DPI, LEAST, PIXEL, Found, geometry_of, located, true_pages, worst

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
LOADED = {}


def example(path: Path, layout: str) -> Context:
    if path not in LOADED:
        LOADED[path] = load(str(path), ())
    return context_of(LOADED[path], read_layout(layout), [])


@pytest.mark.parametrize("layout", ["letter", "a4"])
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_each_corner_of_each_template_lies_within_a_hundredth(path: Path, layout: str) -> None:
    c = example(path, layout)
    pages, data = true_pages(c)
    assert [told for told in located(c, pages, data) if isinstance(told, str)] == [] if pages else True


@pytest.mark.parametrize("program", PROGRAMS)
def test_a_template_of_the_desk_is_seen_where_the_model_has_it(program: str) -> None:
    c = example(next(p for p in EXAMPLES if p.stem == "sketching-desk"), "letter")
    pages, data = true_pages(c)
    found = next(f for f in located(c, pages, data) if isinstance(f, Found) and "cheek" in f.name)
    off, share = worst(found, data, program)
    assert off <= PIXEL and share > LEAST


@pytest.mark.parametrize("program", PROGRAMS)
def test_tiles_are_seen_where_the_model_has_them_and_their_joins_agree(program: str) -> None:
    c = context((apron(),), (Kind(("apron",)),), "a4")
    pages, data = true_pages(c)
    found = list(located(c, pages, data))
    assert len(found) == len(pages) >= 4
    for f in found[:2]:
        assert isinstance(f, Found)
        off, share = worst(f, data, program)
        assert off <= PIXEL and share > LEAST


@pytest.mark.parametrize("program", PROGRAMS)
def test_check_lines_measure_right(program: str) -> None:
    """Both lines of a tile page: from the tick at 0 to the one at 150 mm."""
    c = context((apron(),), (Kind(("apron",)),), "letter")
    _, data = true_pages(c)
    dark, left, top = raster(data, 0, DPI, program)
    dots = DPI / 25.4
    ends = geometry_of(data)[0].ends
    for axis in (0, 1):
        # The ticks of the lines are the only strokes whose ends lie 150 mm apart and 3 mm off the line.
        starts = [p for p in ends if any(_apart(p, q, axis, 150.0) for q in ends)]
        assert starts
        best = []
        for p in starts:
            q = (p[0] + 150.0 * (1 - axis), p[1] + 150.0 * axis)
            normal = (1.0, 0.0) if axis == 0 else (0.0, -1.0)
            back = -1.0 if axis == 0 else 1.0  # towards the line, off the tick's end
            along = [(x + (back if axis else 0), y + (0 if axis else back)) for x, y in (p, q)]
            off = [off_line(dark, (x * dots - left, top - y * dots), normal, 0.25 * dots) for x, y in along]
            if None not in off:
                best.append(abs(float(np.subtract(*off))))  # type: ignore[arg-type]
        assert best and min(best) <= 1.0


def _apart(p: tuple[float, float], q: tuple[float, float], axis: int, by: float) -> bool:
    return abs(q[axis] - p[axis] - by) < 0.01 and abs(q[1 - axis] - p[1 - axis]) < 0.01


def test_a_tenth_of_a_millimetre_would_be_seen() -> None:
    c = context((apron(),), (Kind(("apron",)),), "a4")
    pages, data = true_pages(c)
    first = next(f for f in located(c, pages, data) if isinstance(f, Found))
    off, _ = worst(replace(first, at=(first.at[0] + 0.07, first.at[1] + 0.07)), data, "poppler")
    assert off > PIXEL


def test_places_without_a_tile_are_blank_in_the_drawing() -> None:
    """The roll shows the apron whole: where the tiles of A4 leave out a page, other programs find no line on it."""
    c = context((apron(),), (Kind(("apron",)),), "a4")
    tiling = tiling_of(drawings(c)[0].drawing, c.layout)
    left_out = [p for p in product(range(tiling.columns), range(tiling.rows)) if tiling.at(*p) is None]
    assert left_out
    whole = roll.make(c, 914.0)[:1]
    data = write(whole, layout=c.layout, piece=c.piece, fingerprint="0123456789")
    # Where the drawing lies on the roll: at the left end of its lower edge, the longest level line.
    inked = [
        r for r in whole[0].records if isinstance(r, Line) and r.pen is Pen.VISIBLE and abs(r.b[1] - r.a[1]) < 1e-6
    ]
    base = max(inked, key=lambda line: abs(line.b[0] - line.a[0]))
    at = (min(base.a[0], base.b[0]), base.a[1])
    kept = [t.cell for t in tiling.tiles]
    blank = []
    for column, row in left_out:
        beside = next(t for t in tiling.tiles if t.column == column)
        level = next(t for t in tiling.tiles if t.row == row)
        blank.append((beside.cell[0], level.cell[1], beside.cell[2], level.cell[3]))
    for program in ("poppler", "ghostscript"):
        for cells, inked_there in ((kept, True), (blank, False)):
            for cell in cells:
                box = (cell[0] + at[0], cell[1] + at[1], cell[2] + at[0], cell[3] + at[1])
                dark, _, _ = raster(data, 0, 75, program, box)
                assert dark.size and (dark.max() > 0.2) == inked_there


ASKED = """\
docgen: 1
piece: Test
units: mm
sizes: {t: 20}
materials:
  boards: {species: white oak, thickness: t}
parts:
  side: {of: boards, grain: up, show: left, box: {across: [0, t], deep: [0, 250], up: [0, 600]}}
  other: {of: boards, grain: up, show: right, box: {across: [480, 480 + t], deep: [0, 250], up: [0, 600]}}
  shelf: {of: boards, grain: across, show: top, box: {across: [t, 480], deep: [0, 250], up: [300, 300 + t]}}
joints:
  - housing: {shelf: shelf, into: [side, other], depth: 6, stop: {front: 15}}
edges:
  - corner radius: {part: [side, other], face: left, along: [top front], radius: 60}
templates:
  - {part: side, face: right}
  - {part: shelf, face: front}
  - {part: other, none: yes}
"""


@pytest.mark.parametrize("layout", ["letter", "a4"])
def test_faces_that_the_file_asks_for_stand_whole_on_their_pages(layout: str, tmp_path: Path) -> None:
    file = tmp_path / "asked.yaml"
    file.write_text(ASKED, encoding="utf-8")
    c = context_of(load(str(file), ()), read_layout(layout), [])
    pages, data = true_pages(c)
    found = list(located(c, pages, data))
    assert [f for f in found if isinstance(f, str)] == []
    names = {f.name.split(",")[0] for f in found if isinstance(f, Found)}
    assert {n.split(" ", 1)[1] for n in names} == {"side: corner radius", "side: right face", "shelf: front edge"}
    arc = next(
        e for f in found if isinstance(f, Found) for o in f.outlines for e in o.edges if e.centre and "face" in f.name
    )
    # 600 long, 250 wide, the corner at the front of the top: y runs down from the front edge or up to it.
    assert arc.centre == pytest.approx((540.0, 60.0 if arc.centre[1] > 0 else -60.0), abs=1e-3)
