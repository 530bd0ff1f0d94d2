"""Centre lines of a part's views: of its holes, of what is turned or cut round; and the threads of tapped holes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.drawing import symbols, threads, views
from docgen.drawing.breaks import Gone
from docgen.drawing.dimensions.wanted import Linear, Wanted
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Arc, Line, Pen, Point, Record
from docgen.drawing.specks import SPECK
from docgen.drawing.unfold import Station
from docgen.geometry.lines import ArcOf, Drawn, Stroke
from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import HoleRow, SizeKind, Stage
from docgen.sheets.part_broken import axis_of, rows_moved

PAST = 3.0  # mm that an axis reaches past the ends of what is turned
CROSS = 1.5  # mm: half a cross at a point that no line of the view passes
FURTHEST = 60.0  # degrees: an arc is not drawn on further
NEAR = 0.02  # mm in the wood: a line so near is the one that is measured to


def centres(part: Part, station: Station, bounds: Bounds, scale: float, gone: Sequence[Gone]) -> list[Record]:
    """Return the centre lines of one view about its paper origin; `bounds` is its extent, `gone` what is left out of it."""
    holes = views.centre_lines(_rows(part, gone), _size(part), station.view, scale, (0.0, 0.0))
    return [*holes, *_rounds(part, station, bounds, scale, gone)]


def later_crosses(part: Part, station: Station, scale: float, gone: Sequence[Gone]) -> list[Record]:
    """Return a cross for each hole that is drilled later and whose phantom circle would be a speck in one view."""
    rows = [
        row
        for f in part.features
        if f.stage is not Stage.PART
        for row in f.made.holes
        if float(row.diameter) * scale < SPECK and abs(dot(row.direction, station.view.toward)) > 1 - 1e-6
    ]
    return views.centre_lines(rows_moved(rows, gone) if gone else rows, _size(part), station.view, scale, (0.0, 0.0))


def tapped(part: Part, station: Station, scale: float, gone: Sequence[Gone]) -> list[Record]:
    """Return the threads of the holes of one view about its paper origin; `gone` is what is left out of it."""
    return threads.of_holes(_rows(part, gone), _size(part), station.view, scale)


def _rows(part: Part, gone: Sequence[Gone]) -> list[HoleRow]:
    """Return the holes that a part has when it leaves the machine, where they come to stand."""
    rows = [row for f in part.features if f.stage is Stage.PART for row in f.made.holes]
    return rows_moved(rows, gone) if gone else rows


def _size(part: Part) -> Vec:
    return (float(part.size[0]), float(part.size[1]), float(part.size[2]))


def _rounds(part: Part, station: Station, bounds: Bounds, scale: float, gone: Sequence[Gone]) -> list[Record]:
    """Return the centre marks of what is turned or cut round and is seen as circles, the largest about each centre.

    What is turned about the part's length has its axis in the views from the side.
    """
    end = station.face.axis == 0
    widest: dict[tuple[float, float], float] = {}
    axes: dict[float, None] = {}
    for s in (s for f in part.features if f.stage is Stage.PART and not f.made.holes for s in f.made.sizes):
        if s.kind is not SizeKind.DIAMETER:
            continue
        axis = (1.0, 0.0, 0.0) if s.other is not None else s.along  # told from the side: round about the length
        x, y = (round(c * scale, 3) for c in station.view.flat(s.start))
        if abs(axis[0]) > 1 - 1e-6 and not end:
            axes[y if axis_of(station.view) == 0 else x] = None
        elif abs(dot(axis, station.view.toward)) > 1 - 1e-6 and (end or not gone):
            widest[x, y] = max(widest.get((x, y), 0.0), float(s.value) / 2 * scale)
    marks = [r for at, radius in widest.items() for r in symbols.centre_mark(at, radius)]
    return [*marks, *(_axis(station, bounds, scale, at) for at in axes)]


def _axis(station: Station, bounds: Bounds, scale: float, at: float) -> Line:
    """Return the axis of what is turned, from before one end of the part to past the other; `at` is its level on paper."""
    x0, y0, x1, y1 = (c * scale for c in bounds)
    if axis_of(station.view) == 0:
        return Line((x0 - PAST, at), (x1 + PAST, at), Pen.CENTRE)
    return Line((at, y0 - PAST), (at, y1 + PAST), Pen.CENTRE)


def drawn_on(p: Point, drawn: Drawn, scale: float) -> list[Record]:
    """Return the thin lines from the ends of slanted edges and of arcs of a view to a point in the air that they lead to.

    The point is in view mm. Of edges in one line, and of arcs about one centre, the nearest is drawn on.
    """
    edges = {s.b if math.dist(s.a, p) > math.dist(s.b, p) else s.a: s for s in drawn.visible if _leads(s, p)}
    found: list[Record] = []
    if edges:
        end = min(edges, key=lambda q: (math.dist(q, p), q))
        found.append(Line(_scaled(end, scale), _scaled(p, scale), Pen.THIN))
    turns = [(turn, s.arc) for s in drawn.visible if s.arc is not None and (turn := _turn_to(s.arc, p))]
    if turns:
        turn, arc = min(turns, key=lambda t: abs(t[0]))
        start, end_deg = sorted(
            (arc.end_deg, arc.end_deg + turn) if turn > 0 else (arc.start_deg, arc.start_deg + turn)
        )
        found.append(Arc(_scaled(arc.centre, scale), arc.radius * scale, start, end_deg, Pen.THIN))
    return found


def _leads(s: Stroke, p: Point) -> bool:
    """Return True for a slanted straight line that would come to a point beyond its end if it were half as long again."""
    dx, dy, long = s.b[0] - s.a[0], s.b[1] - s.a[1], math.dist(s.a, s.b)
    if s.arc is not None or s.chain >= 0 or min(abs(dx), abs(dy)) < NEAR:
        return False
    off = abs(dx * (p[1] - s.a[1]) - dy * (p[0] - s.a[0])) / long
    along = (dx * (p[0] - s.a[0]) + dy * (p[1] - s.a[1])) / long
    return off < NEAR and (-long / 2 < along < -NEAR or long + NEAR < along < 1.5 * long)


def _turn_to(arc: ArcOf, p: Point) -> float:
    """Return by how many degrees an arc would have to run on to come to a point: at its end, < 0 at its start; else 0."""
    if abs(math.dist(arc.centre, p) - arc.radius) > NEAR or arc.end_deg - arc.start_deg > 360 - FURTHEST:
        return 0.0
    at = math.degrees(math.atan2(p[1] - arc.centre[1], p[0] - arc.centre[0]))
    after, before = (at - arc.end_deg) % 360, (arc.start_deg - at) % 360
    turn = after if after <= before else -before
    return turn if abs(turn) < min(FURTHEST, arc.end_deg - arc.start_deg) else 0.0


def _scaled(p: Point, scale: float) -> Point:
    return (p[0] * scale, p[1] * scale)


def crosses(wanted: Sequence[Wanted], drawn: Drawn, others: Sequence[Record], scale: float) -> list[Record]:
    """Return a cross at each point of a figure at whose level the view has neither an edge nor one of the `others`.

    So there is something to measure to: the middle of a mortise, a point of a curve in wood that another cut takes. To
    such a point the slanted line or the arc that leads there is drawn on.
    """
    ends = [p for s in (*drawn.visible, *drawn.hidden) for p in (s.a, s.b)]
    ends += [(p[0] / scale, p[1] / scale) for r in others for line in views.chords(r) for p in line]
    arcs = [s.arc for s in (*drawn.visible, *drawn.hidden) if s.arc is not None]
    out: dict[tuple[float, float], None] = {}
    for w in (w for w in wanted if isinstance(w, Linear) and not w.overall):
        x, y = w.along
        levels = [p[0] * x + p[1] * y for p in ends]
        levels += [a.centre[0] * x + a.centre[1] * y + side * a.radius for a in arcs for side in (-1, 1)]
        for p in (w.b,) if w.datum else (w.a, w.b):
            level = p[0] * x + p[1] * y
            if not any(abs(level - other) < NEAR for other in levels):
                out[round(p[0] * scale, 3), round(p[1] * scale, 3)] = None
    marks = [
        Line((x - dx * CROSS, y - dy * CROSS), (x + dx * CROSS, y + dy * CROSS), Pen.THIN)
        for x, y in out
        for dx, dy in ((1, 0), (0, 1))
    ]
    return [*marks, *(r for x, y in out for r in drawn_on((x / scale, y / scale), drawn, scale))]
