"""True-size pages: one drawing cut into tiles, or several small ones side by side.

A drawing is made once, on endless paper; only its labels are placed page by page.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from docgen.drawing.cells import wrapped
from docgen.drawing.hatching import interrupted
from docgen.drawing.lettering import box
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds, moved
from docgen.drawing.records import Line, Pen, Record, Text
from docgen.drawing.tiling.arranged import clashes, crowded, fits_inside, place
from docgen.drawing.tiling.clip import clip
from docgen.drawing.tiling.grid import Tile, Tiling, tile
from docgen.drawing.tiling.heading import PRINT, heading, joining, map_room
from docgen.drawing.tiling.ink import Ink, Segment, bounds_of, segments
from docgen.drawing.tiling.keymap import key_map
from docgen.drawing.tiling.labels import AROUND, Label, Row, room_for, set_rows, size_of
from docgen.drawing.tiling.marks import join_records
from docgen.drawing.tiling.paper import SHORT, Paper, paper, papers
from docgen.drawing.tiling.room import Room
from docgen.drawing.tiling.truesize import TrueSize
from docgen.layout.model import Layout

BESIDE = 13.0  # mm kept at both sides of a small drawing for its labels
FURTHER = (0.0, 6.0, 12.0)  # mm of room more that are tried where labels crowd
BROADER = (12.0, 24.0, 36.0)  # mm more of width that are tried where labels crowd or leaders cross
HAIR = 1e-6  # mm
BELOW = 11.0  # mm above and below it
CAPTION_AIR = 6.0  # mm between a caption and the joins, with their marks
TOLD = 86.0  # mm: least width of the text above a small drawing
SMALL = 0.5  # of the window: a drawing that takes no more of its height needs no page of its own


@dataclass(frozen=True, slots=True)
class Page:
    """One true-size page. `names` are the titles of the drawings on it, `tile` is "" on a page of its own."""

    names: tuple[str, ...]
    tile: str
    size: tuple[float, float]
    records: tuple[Record, ...]


def tiling_of(drawing: TrueSize, layout: Layout) -> Tiling:
    """Return the tiles that the drawing takes on the layout's paper."""
    return tile(drawing.inks, [p.field for p in papers(layout)], layout.overlap)


def tile_pages(drawing: TrueSize, layout: Layout, metrics: Metrics) -> tuple[Page, ...]:
    """Return the pages of one drawing in the order in which they are joined."""
    tiling = tiling_of(drawing, layout)
    page = paper(layout, turned=tiling.field.turned)
    pieces = [s for ink in drawing.inks for s in segments(ink)]
    owners = {label: _owner(label, drawing, tiling, metrics) for label in drawing.labels}
    return tuple(_tile_page(drawing, tiling, t, page, pieces, owners, metrics) for t in tiling.tiles)


def _owner(label: Label, drawing: TrueSize, tiling: Tiling, metrics: Metrics) -> Tile:
    """Return the tile on which a label stands: where its point lies; for a caption the nearest one with room for it."""

    def away(t: Tile) -> float:
        c, at = t.cell, label.at
        return math.hypot(max(c[0] - at[0], 0, at[0] - c[2]), max(c[1] - at[1], 0, at[1] - c[3]))

    tiles = sorted(tiling.tiles, key=away)
    if label.leader or len(tiles) == 1:
        return tiles[0]
    boundary = [s for ink in drawing.boundary for s in segments(ink)]
    rooms = ((t, Room.of(_inset(t.cell, CAPTION_AIR), _pieces(drawing, t))) for t in tiles)
    return next((t for t, room in rooms if fits_inside(label, room, boundary, metrics)), tiles[0])


def _pieces(drawing: TrueSize, tile_: Tile) -> list[Segment]:
    return [s for ink in clip(drawing.inks, tile_.window) for s in segments(ink)]


def _tile_page(
    drawing: TrueSize,
    tiling: Tiling,
    here: Tile,
    page: Paper,
    pieces: Sequence[Segment],
    owners: Mapping[Label, Tile],
    metrics: Metrics,
) -> Page:
    count = len(tiling.tiles)
    inks = clip(drawing.inks, here.window)
    whole = Room.of(here.cell, pieces)
    heights = page.layout.heights
    joins = join_records(tiling, here, whole, metrics, heights.note)
    marks = [record for record in joins if isinstance(record, Line)]  # they reach into the cell
    room = _room(_inset(here.cell, 1.5), (*inks, *marks))
    words = [box(record, metrics) for record in joins if isinstance(record, Text)]
    hatched = [ink for ink in inks if isinstance(ink, Line) and _is_hatching(ink)]
    others = [ink for ink in inks if not _is_hatching(ink)]
    drawn: list[Record] = [*others, *interrupted(hatched, words), *joins]
    boundary = [s for ink in drawing.boundary for s in segments(ink)]
    mine = [label for label in drawing.labels if owners[label] == here]
    drawn.extend(place(mine, room, boundary, metrics))
    dx, dy = page.window.x - here.window[0], page.window.y - here.window[1]
    number = tiling.tiles.index(here) + 1
    told = [" ".join(drawing.lines), PRINT]
    if count > 1:
        told = [f"Page {number} of {count}. {joining(tiling, here)}", *told]
    top = heading(
        page,
        name=here.name if count > 1 else "",
        title=drawing.title,
        lines=told,
        metrics=metrics,
        mapped=count > 1,
    )
    if count > 1:
        top.extend(key_map(tiling, drawing.inks, map_room(page), here=here, small=heights.small))
    records = (*top, *(moved(r, dx, dy) for r in drawn))
    return Page((drawing.title,), here.name if count > 1 else "", page.size, records)


def _is_hatching(ink: Ink) -> bool:
    return isinstance(ink, Line) and ink.pen is Pen.HATCH


def _room(window: Bounds, inks: Sequence[Ink]) -> Room:
    """Return the room of a window in which the inks are drawn."""
    hatching = (s for ink in inks if _is_hatching(ink) for s in segments(ink))
    return Room.of(window, (s for ink in inks if not _is_hatching(ink) for s in segments(ink)), hatching)


def _inset(box: Bounds, by: float) -> Bounds:
    return (box[0] + by, box[1] + by, box[2] - by, box[3] - by)


def is_small(drawing: TrueSize, layout: Layout, metrics: Metrics) -> bool:
    """Return whether the drawing may stand alone on a shared page: with its text it leaves half of the height free."""
    page = paper(layout, heading=SHORT)
    return can_share(drawing, layout, metrics) and _block(drawing, page, metrics)[1] <= SMALL * page.window.height


def can_share(drawing: TrueSize, layout: Layout, metrics: Metrics) -> bool:
    """Return whether the drawing with its text has room on a shared page."""
    page = paper(layout, heading=SHORT)
    x0, _, x1, _ = bounds_of(drawing.inks)
    wide = x1 - x0 + 2 * BESIDE <= page.window.width
    return wide and _block(drawing, page, metrics)[1] <= page.window.height


def sharing(drawings: Sequence[TrueSize], layout: Layout, metrics: Metrics) -> list[TrueSize]:
    """Return the drawings that share pages: the small ones, and larger ones beside which another has room."""
    page = paper(layout, heading=SHORT)
    able = [d for d in drawings if can_share(d, layout, metrics)]
    groups = _grouped([(d, _block(d, page, metrics)) for d in able], page)
    alone = [group[0][0] for group in groups if len(group) == 1]
    return [d for d in able if d not in alone or is_small(d, layout, metrics)]


def shared_height(drawing: TrueSize, layout: Layout, metrics: Metrics) -> float:
    """Return the height in mm that a page needs in which the drawing stands alone under the heading."""
    page = paper(layout, heading=SHORT)
    return layout.size[1] - page.window.height + _block(drawing, page, metrics)[1]


def shared_pages(drawings: Sequence[TrueSize], layout: Layout, metrics: Metrics, title: str) -> tuple[Page, ...]:
    """Return pages on which drawings stand side by side, each on the first that has room for it, with its own heading."""
    page = paper(layout, heading=SHORT)
    groups = _grouped([(d, _block(d, page, metrics)) for d in drawings], page)
    return tuple(_shared(group, page, metrics, title) for group in groups)


def _grouped(
    blocks: Sequence[tuple[TrueSize, tuple[float, float]]], page: Paper
) -> list[list[tuple[TrueSize, Bounds]]]:
    """Return for each page the drawings that stand on it, in rows, with the rectangles that they take."""
    groups: list[list[tuple[TrueSize, Bounds]]] = []
    ends: list[tuple[float, float, float]] = []  # of each page: where its last row ends, its top, its foot
    window = page.window
    for drawing, (wide, high) in blocks:
        for n in range(len(groups) + 1):
            if n == len(groups):
                groups.append([])
                ends.append((window.x, window.top, window.top))
            x, top, foot = ends[n]
            if x + wide > window.right + HAIR:
                x, top = window.x, foot
            if top - high >= window.y - HAIR or not groups[n]:
                break
        groups[n].append((drawing, (x, top - high, x + wide, top)))
        ends[n] = (x + wide, top, min(foot, top - high))
    return groups


def _rows(drawing: TrueSize, page: Paper, metrics: Metrics) -> list[Row]:
    """Return title and sentences of a small drawing, wrapped to its own width but not narrower than TOLD.

    Where nothing could stand beside it the words take the whole width.
    """
    heights = page.layout.heights
    x0, _, x1, _ = bounds_of(drawing.inks)
    wide = max(x1 - x0 + 2 * BESIDE - 6, TOLD)
    if wide + 6 > page.window.width - TOLD - 6:
        wide = page.window.width - 6
    return [
        *(Row(t, heights.heading, True) for t in wrapped(drawing.title, wide, heights.heading, metrics, bold=True)),
        *(Row(t, heights.note) for t in wrapped(" ".join(drawing.lines), wide, heights.note, metrics)),
    ]


def _block(drawing: TrueSize, page: Paper, metrics: Metrics) -> tuple[float, float]:
    """Return the width and height of a small drawing with its heading and room for its labels."""
    x0, y0, x1, y1 = bounds_of(drawing.inks)
    wide, words = size_of(_rows(drawing, page, metrics), metrics)
    wide = min(page.window.width, max(x1 - x0 + 2 * BESIDE, wide + 6))
    captions = [room_for(label, metrics) for label in drawing.labels if not label.leader]
    across, tall = max((c[0] for c in captions), default=0.0), max((c[1] for c in captions), default=0.0)
    low = y1 - y0 < tall + 2 * AROUND
    below = max(BELOW, tall + 3) if low else BELOW
    parted = x1 - x0 < across + 2 * AROUND or any(isinstance(i, Line) and i.pen is Pen.CENTRE for i in drawing.inks)
    if across and (parted or low):  # no room in a narrow drawing, nor beside a base line that runs across it
        most = max(BELOW, tall + 3)
        rooms = [(b, w) for b in (below, *(most + more for more in FURTHER)) for w in _widths(wide, page.window.width)]
        uncrowded = (room for room in rooms if not _crowded(drawing, room[1], y1 - y0 + 2 * room[0], metrics))
        below, wide = next(uncrowded, (most, wide))
    high = y1 - y0 + 2 * below
    return _uncrossed(drawing, wide, page.window.width, high, metrics), high + words + 4


@lru_cache(maxsize=128)
def _uncrossed(drawing: TrueSize, wide: float, most: float, tall: float, metrics: Metrics) -> float:
    """Return the width of a small drawing with so much room beside it that the fewest leaders run through something."""
    best: tuple[int, float] | None = None
    for tried in _widths(wide, most):
        room, boundary = _around(drawing, tried, tall)
        count = clashes(drawing.labels, room, boundary, metrics)
        if best is None or count < best[0]:
            best = (count, tried)
        if not count:
            break
    return best[1] if best else wide


def _widths(wide: float, most: float) -> tuple[float, ...]:
    """Return the widths that are tried for a small drawing, the narrowest first."""
    return (wide, *(wide + more for more in BROADER if wide + more <= most))


@lru_cache(maxsize=128)
def _crowded(drawing: TrueSize, wide: float, tall: float, metrics: Metrics) -> bool:
    """Return whether a label finds no place of its own in so much room around the drawing's middle; asked more than once."""
    room, boundary = _around(drawing, wide, tall)
    return crowded(drawing.labels, room, boundary, metrics)


def _around(drawing: TrueSize, wide: float, tall: float) -> tuple[Room, list[Segment]]:
    """Return the room about the middle of a small drawing, and its boundary."""
    x0, y0, x1, y1 = bounds_of(drawing.inks)
    x, y = (x0 + x1 - wide) / 2, (y0 + y1 - tall) / 2
    room = _room(_inset((x, y, x + wide, y + tall), 1), drawing.inks)
    return room, [s for ink in drawing.boundary for s in segments(ink)]


def _shared(group: Sequence[tuple[TrueSize, Bounds]], page: Paper, metrics: Metrics, title: str) -> Page:
    records = heading(page, name="", title=title, lines=[PRINT], metrics=metrics, mapped=False)
    for drawing, block in group:
        rows = _rows(drawing, page, metrics)
        _, tall = size_of(rows, metrics)
        records.extend(set_rows(rows, block[0] + 2, block[3] - 3, metrics))
        x0, y0, x1, y1 = bounds_of(drawing.inks)
        high = block[3] - tall - 4 - block[1]
        dx, dy = (block[0] + block[2] - x0 - x1) / 2, (2 * block[1] + high - y0 - y1) / 2
        room, boundary = _around(drawing, block[2] - block[0], high)
        drawn = [*drawing.inks, *place(drawing.labels, room, boundary, metrics)]
        records.extend(moved(r, dx, dy) for r in drawn)
    return Page(tuple(d.title for d, _ in group), "", page.size, tuple(records))
