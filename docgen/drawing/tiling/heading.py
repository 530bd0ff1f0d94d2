"""What stands above a true-size drawing: its name, what it is, what to do, and the check lines."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.drawing.cells import wrapped
from docgen.drawing.lettering import width
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Record
from docgen.drawing.tiling.grid import Tile, Tiling
from docgen.drawing.tiling.labels import Row, set_rows, size_of
from docgen.drawing.tiling.marks import joins
from docgen.drawing.tiling.paper import Paper
from docgen.drawing.tiling.rulers import DEPTH, check_line
from docgen.layout.model import Heights, Rect

MAP_WIDTH = 46.0  # mm
PRINT = "Print at actual size, 100 %, never “fit”. Check both lines with a steel rule before you cut."


def heading(
    paper: Paper, *, name: str, title: str, lines: Sequence[str], metrics: Metrics, mapped: bool
) -> list[Record]:
    """Return the heading with `name` (of the tile, or "") large at its left, and the two check lines.

    `lines` are paragraphs, set one under the other; with `mapped` the right end stays free.
    """
    heights = paper.layout.heights
    room = paper.heading
    out: list[Record] = []
    left = room.x
    if name:
        big = Row(name, 1.6 * heights.title, True)
        out.extend(set_rows([big], left, room.top, metrics))
        left += width(name, big.height, metrics, True) + 4
    wide = (room.right - MAP_WIDTH - 3 if mapped else room.right) - left
    out.extend(set_rows(_told(title, lines, wide, room.height, heights, metrics), left, room.top, metrics))
    small = heights.small
    out.extend(check_line((paper.level.x, paper.level.y + DEPTH / 2 + 0.5), up=False, small=small))
    out.extend(check_line((paper.upright.x + DEPTH / 2, paper.upright.y + 1), up=True, small=small))
    return out


def _told(title: str, lines: Sequence[str], wide: float, high: float, heights: Heights, metrics: Metrics) -> list[Row]:
    """Return the title and the paragraphs at the largest lettering at which they fit, down to small print."""
    height = heights.note
    while True:
        rows = [Row(t, heights.heading, True) for t in wrapped(title, wide, heights.heading, metrics, bold=True)]
        rows += [Row(t, height) for paragraph in lines for t in wrapped(paragraph, wide, height, metrics)]
        if height <= heights.small or size_of(rows, metrics)[1] <= high:
            return rows
        height = max(heights.small, height - 0.1)


def map_room(paper: Paper) -> Rect:
    """Return where the map of the tiles stands."""
    room = paper.heading
    return Rect(room.right - MAP_WIDTH, room.y + 0.5, MAP_WIDTH, room.height - 0.5)


def joining(tiling: Tiling, tile: Tile) -> str:
    """Return how this page is joined to the ones before it, in plain words."""
    cut = [j for j in joins(tiling, tile) if j.trimmed]
    if not cut:
        later = [j.other.name for j in joins(tiling, tile)]
        return (
            f"Do not trim: {' and '.join(later)} {'lies' if len(later) == 1 else 'lie'} over this page."
            if later
            else ""
        )
    sides = " and the ".join(j.side for j in sorted(cut, key=lambda j: j.side))
    over = " and ".join(j.other.name for j in cut)
    return (
        f"Cut on the dashed line at the {sides}. Lay over {over} so that the crosses meet "
        "and the drawn lines run on. Tape."
    )
