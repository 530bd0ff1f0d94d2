"""The small map on each tile: the outline, the pages that it takes, this page shaded."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from docgen.drawing.placing import Bounds, around
from docgen.drawing.records import Area, Path, Pen, Point, Record, Text
from docgen.drawing.tiling.grid import Tile, Tiling, letters
from docgen.drawing.tiling.ink import Ink, segments
from docgen.layout.model import Rect

SHADE = 0.82  # tone of this page's cell
SAG = 0.5  # mm in the drawing: a map needs no finer arcs


def key_map(tiling: Tiling, inks: Sequence[Ink], room: Rect, *, here: Tile | None, small: float) -> list[Record]:
    """Return the map within `room`: letters of the columns above, numbers of the rows at the left.

    `here` is shaded. Hatching and other fine lines are left out.
    """
    whole = around(t.cell for t in tiling.tiles)
    edge = small + 1.5
    scale = min((room.width - edge) / (whole[2] - whole[0]), (room.height - edge) / (whole[3] - whole[1]))
    left = room.right - (whole[2] - whole[0]) * scale
    low = room.top - edge - (whole[3] - whole[1]) * scale

    def at(p: Point) -> Point:
        return (left + (p[0] - whole[0]) * scale, low + (p[1] - whole[1]) * scale)

    out: list[Record] = []
    if here is not None:
        out.append(Area((_corners(here.cell, at),), SHADE))
    out.extend(Path(_corners(t.cell, at), Pen.THIN, closed=True) for t in tiling.tiles)
    for ink in inks:
        if getattr(ink, "pen", None) is Pen.VISIBLE:
            chain = [at(p) for piece in segments(ink, SAG) for p in piece]
            out.append(Path(tuple(p for p, _ in groupby(chain)), Pen.VISIBLE))
    for column in range(tiling.columns):
        cell = next(t.cell for t in tiling.tiles if t.column == column)
        x = at(((cell[0] + cell[2]) / 2, 0))[0]
        out.append(Text((x, room.top - small), letters(column), small, "middle"))
    for row in range(tiling.rows):
        cell = next(t.cell for t in tiling.tiles if t.row == row)
        y = at((0, (cell[1] + cell[3]) / 2))[1]
        out.append(Text((left - 1.0, y - small / 2), str(row + 1), small, "right"))
    return out


def _corners(box: Bounds, at: Callable[[Point], Point]) -> tuple[Point, ...]:
    return tuple(at(p) for p in ((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])))
