"""Laws of tiling: everything that is drawn lies in a kept tile's cell, and no kept tile is blank."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.records import Arc, Line, Path, Pen
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.grid import Field, letters, tile
from docgen.drawing.tiling.ink import bounds_of, segments

LENGTHS = st.floats(-1200, 1200, allow_nan=False).map(lambda v: round(v, 2))
POINTS = st.tuples(LENGTHS, LENGTHS)
RADII = st.floats(1, 500).map(lambda v: round(v, 2))
ANGLES = st.floats(0, 350).map(lambda v: round(v, 1))
INKS = st.one_of(
    st.builds(Line, POINTS, POINTS),
    st.builds(lambda a, b, c: Path((a, b, c), closed=True), POINTS, POINTS, POINTS),
    st.builds(lambda c, r, a, s: Arc(c, r, a, a + s), POINTS, RADII, ANGLES, st.floats(1, 360)),
)
FIELDS = st.tuples(st.floats(120, 300), st.floats(120, 300)).map(lambda f: (Field(*f), Field(f[1], f[0], True)))


def length(inks) -> float:
    """Length of all that is drawn; arcs by their true radius."""
    return sum(
        math.radians(i.end - i.start) * i.radius if isinstance(i, Arc) else sum(math.dist(a, b) for a, b in segments(i))
        for i in inks
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(INKS, min_size=1, max_size=4), FIELDS, st.floats(0, 20))
def test_cells_of_kept_tiles_hold_every_millimetre_and_none_is_blank(inks, fields, overlap) -> None:
    tiling = tile(inks, fields, overlap)
    pieces = [clip(inks, t.cell) for t in tiling.tiles]
    # What lies exactly on a join is counted on both sides, so the sum may be larger, never smaller.
    assert sum(length(p) for p in pieces) >= length(inks) - 1e-3
    assert all(pieces)


@settings(max_examples=60, deadline=None)
@given(st.lists(INKS, min_size=1, max_size=3), FIELDS, st.floats(0, 20))
def test_windows_hold_their_cells_and_overlap_by_what_the_layout_says(inks, fields, overlap) -> None:
    tiling = tile(inks, fields, overlap)
    for t in tiling.tiles:
        assert t.window[0] - 1e-6 <= t.cell[0] < t.cell[2] <= t.window[2] + 1e-6
        assert t.window[1] - 1e-6 <= t.cell[1] < t.cell[3] <= t.window[3] + 1e-6
        assert t.window[2] - t.window[0] == pytest.approx(tiling.field.width)
        assert t.window[3] - t.window[1] == pytest.approx(tiling.field.height)
        right = tiling.at(t.column + 1, t.row)
        if right:
            assert t.cell[2] == pytest.approx(right.cell[0])
            assert t.window[2] - right.window[0] == pytest.approx(overlap)
        below = tiling.at(t.column, t.row + 1)
        if below:
            assert t.cell[1] == pytest.approx(below.cell[3])
            assert below.window[3] - t.window[1] == pytest.approx(overlap)


@settings(max_examples=40, deadline=None)
@given(st.lists(INKS, min_size=1, max_size=3), FIELDS)
def test_never_more_pages_than_the_plain_grid_over_the_drawing(inks, fields) -> None:
    x0, y0, x1, y1 = bounds_of(inks)
    plain = [
        max(1, math.ceil((x1 - x0 + 6 - 15) / (f.width - 15))) * max(1, math.ceil((y1 - y0 + 6 - 15) / (f.height - 15)))
        for f in fields
    ]
    assert len(tile(inks, fields, 15).tiles) <= min(plain)


def test_paper_is_turned_when_that_saves_a_page() -> None:
    tiling = tile([Line((0, 0), (240, 60))], [Field(190, 220), Field(255, 150, True)], 15)
    assert tiling.field.turned
    assert [t.name for t in tiling.tiles] == ["A1"]


def test_grid_is_shifted_when_that_saves_pages() -> None:
    # Two short features, 200 mm apart: an even grid of three columns would cut one of them.
    inks = [Path(((x, 0), (x + 150, 0), (x + 150, 90), (x, 90)), closed=True) for x in (0, 350)]
    tiling = tile(inks, [Field(190, 220)], 15)
    assert len(tiling.tiles) == 2


def test_middle_of_a_ring_is_left_out() -> None:
    tiling = tile([Arc((0, 0), 300, 0, 360)], [Field(200, 200)], 10)
    assert (tiling.columns, tiling.rows) == (4, 4)
    assert tiling.at(1, 1) is None
    assert tiling.at(0, 1) is not None


def test_hatching_alone_takes_no_page() -> None:
    tiling = tile([Line((0, 0), (100, 0)), Line((0, 0), (900, 0), Pen.HATCH)], [Field(200, 200)], 10)
    assert len(tiling.tiles) == 1


def test_names_are_column_letter_and_row_number_from_the_top() -> None:
    tiling = tile([Line((0, 0), (350, 0)), Line((0, 0), (0, 350)), Line((350, 0), (350, 350))], [Field(200, 200)], 10)
    assert [t.name for t in tiling.tiles] == ["A1", "B1", "A2", "B2"]
    a1, a2 = tiling.at(0, 0), tiling.at(0, 1)
    assert a1 and a2 and a1.cell[1] == a2.cell[3] > a2.cell[1]
    assert [letters(n) for n in (0, 25, 26, 27, 701, 702)] == ["A", "Z", "AA", "AB", "ZZ", "AAA"]


def test_paper_smaller_than_the_overlap_is_refused() -> None:
    with pytest.raises(ValueError, match="no room"):
        tile([Line((0, 0), (10, 0))], [Field(20, 200)], 10)


@settings(max_examples=40, deadline=None)
@given(st.lists(INKS, min_size=1, max_size=3), FIELDS, st.floats(0, 20))
def test_what_is_drawn_lies_in_one_cell_alone(inks, fields, overlap) -> None:
    tiling = tile(inks, fields, overlap)
    cells = [t.cell for t in tiling.tiles]
    for i, a in enumerate(cells):
        for b in cells[i + 1 :]:
            wide, high = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
            assert wide < 1e-6 or high < 1e-6
    # So the pieces add up to the whole, but for what runs along a join, which both pages show.
    joins = [{c[k] for c in cells} for k in range(4)]
    along = any(
        abs(a[axis] - b[axis]) < 1e-9 and any(abs(a[axis] - j) < 1e-6 for j in (*joins[axis], *joins[axis + 2]))
        for ink in inks
        if not isinstance(ink, Arc)
        for a, b in segments(ink)
        for axis in (0, 1)
    )
    if not along:
        assert sum(length(clip(inks, c)) for c in cells) == pytest.approx(length(inks), abs=1e-3)
