"""A small picture of the whole piece that shows where a section is cut, or where a detail lies."""

from __future__ import annotations

import math
from functools import lru_cache

from docgen.drawing import views
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Arc, Line, Pen, Point, Record, Text
from docgen.drawing.symbols import arrowhead
from docgen.geometry.hidden import draw
from docgen.geometry.lines import VIEWS, Drawn
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.solids import Solids
from docgen.schedules.planes import Plane
from docgen.sheets.context import Context

ORDER = ("front", "right", "top")
NAMES = {"front": "front", "right": "right side", "top": "top", "axonometric": "seen from a corner"}
WIDE, HIGH = 26.0, 22.0  # mm: the most that the picture takes, letters and arrows apart
PEN = 0.3  # mm: lines nearer than this are one
PAST = 2.5  # mm: the plane's trace runs past the picture
HEAD = 2.2  # mm: its arrowheads
STEM = 3.2  # mm
LETTER = 2.5  # mm
RING = 1.6  # mm: the radius of the ring round a place


def key_view(context: Context, plane: Plane | None, spot: Vec, letter: str) -> tuple[list[Record], Bounds]:
    """Return the picture about the paper origin with what it fills: the plane's trace and letters, and a ring at `spot`.

    A plane that no square view sees on edge is told by the ring alone, as is a place without a plane.
    """
    name = "axonometric" if plane is None else next((n for n in ORDER if _on_edge(plane, n)), "front")
    view = VIEWS[name]
    x0, y0, x1, y1 = _extent(context, name)
    scale = min(WIDE / (x1 - x0), HIGH / (y1 - y0))
    at = (-(x0 + x1) / 2 * scale, -(y0 + y1) / 2 * scale)
    placed = tuple((p.path, p.frame) for p in context.piece.parts)
    out = views.strokes(_seen(context.solids, placed, name, PEN / scale).visible, Pen.THIN, scale, at)
    half = ((x1 - x0) / 2 * scale, (y1 - y0) / 2 * scale)
    middle = views.on_paper(view.flat(spot), scale, at)
    out.append(Arc(middle, RING, 0, 360, Pen.VISIBLE))
    bounds = (-half[0], -half[1], half[0], half[1])
    if plane is not None and _on_edge(plane, name):
        trace, bounds = _trace(middle, view.flat(plane.normal), half, letter, context)
        out += trace
    ring = (middle[0] - RING, middle[1] - RING, middle[0] + RING, middle[1] + RING)  # may stand out at a corner
    bounds = (min(bounds[0], ring[0]), min(bounds[1], ring[1]), max(bounds[2], ring[2]), max(bounds[3], ring[3]))
    caption = Text((0.0, bounds[1] - 1.2 - 1.8), NAMES[name], 1.8, "middle")
    wide = context.metrics.width(NAMES[name], 1.8) / 2
    return [*out, caption], (min(bounds[0], -wide), caption.at[1] - 0.6, max(bounds[2], wide), bounds[3])


def _on_edge(plane: Plane, name: str) -> bool:
    toward = VIEWS[name].toward
    return abs(sum(toward[i] * plane.normal[i] for i in range(3))) < 1e-6


def _extent(context: Context, name: str) -> Bounds:
    placed = tuple((p.path, p.frame) for p in context.piece.parts)
    return _measured(context.solids, placed, name)


@lru_cache(maxsize=8)
def _measured(solids: Solids, placed: tuple[tuple[str, Frame], ...], name: str) -> Bounds:
    view = VIEWS[name]
    flat = [
        view.flat((x, y, z))
        for path, frame in placed
        for low, high in (solids.solid(path).moved(frame).bounds,)
        for x in (low[0], high[0])
        for y in (low[1], high[1])
        for z in (low[2], high[2])
    ]
    return (min(p[0] for p in flat), min(p[1] for p in flat), max(p[0] for p in flat), max(p[1] for p in flat))


@lru_cache(maxsize=8)
def _seen(solids: Solids, placed: tuple[tuple[str, Frame], ...], name: str, merge: float) -> Drawn:
    """Return the lines of a view; all key views of a packet share them."""
    items = [(solids.topology(path), frame) for path, frame in placed]
    return draw(items, VIEWS[name], merge=merge, hidden=False)


def _trace(middle: Point, normal: Point, half: Point, letter: str, context: Context) -> tuple[list[Record], Bounds]:
    """Return the plane on edge through `middle`: a chain line, wide at its ends, arrows the way one looks, letters."""
    ux, uy = normal[1], -normal[0]  # along the trace
    ahead, back = _reach(middle, (ux, uy), half), _reach(middle, (-ux, -uy), half)
    sight = math.degrees(math.atan2(-normal[1], -normal[0]))
    out: list[Record] = []
    ends = [
        (middle[0] + ux * (ahead + PAST), middle[1] + uy * (ahead + PAST)),
        (middle[0] - ux * (back + PAST), middle[1] - uy * (back + PAST)),
    ]
    out.append(Line(ends[0], ends[1], Pen.CENTRE))
    xs, ys = [-half[0], half[0]], [-half[1], half[1]]
    for (x, y), way in zip(ends, (1.0, -1.0), strict=True):
        out.append(Line((x, y), (x - way * 2.0 * ux, y - way * 2.0 * uy), Pen.VISIBLE))
        tip = (x - normal[0] * STEM, y - normal[1] * STEM)
        out.append(Line((x, y), (x - normal[0] * (STEM - HEAD / 2), y - normal[1] * (STEM - HEAD / 2)), Pen.VISIBLE))
        out += arrowhead(tip, sight, HEAD)
        wide = context.metrics.width(letter, LETTER, True) / 2
        out_by = 0.9 + abs(ux) * wide + abs(uy) * LETTER / 2
        spot = (x + way * ux * out_by, y + way * uy * out_by - LETTER / 2)
        out.append(Text(spot, letter, LETTER, "middle", bold=True))
        xs += [spot[0] - wide, spot[0] + wide, tip[0] - 0.4, tip[0] + 0.4]
        ys += [spot[1], spot[1] + LETTER, tip[1] - 0.4, tip[1] + 0.4]
    return out, (min(xs), min(ys), max(xs), max(ys))


def _reach(p: Point, way: Point, half: Point) -> float:
    """Return how far it is from a point in the picture along `way` to its border."""
    runs = [((half[i] if way[i] > 0 else -half[i]) - p[i]) / way[i] for i in (0, 1) if abs(way[i]) > 1e-9]
    return max(0.0, min(runs))
